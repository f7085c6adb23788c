"""Which complaints a check is worth making for: those whose causes its outcomes tell apart."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from math import fsum

from generator.analysis.check_order.case import Case, Check
from generator.bench import Bench
from generator.watched import Known

Uses = Mapping[str, Mapping[str, float]]
"Symptom -> family -> how well a check tells the causes apart, from 0 to 1; only what is more than 0."


def check_uses(bench: Bench) -> Known[Uses]:
    """The uses of a check by its id; its readers are noted."""
    apart = Known(bench.library.watch, "told_apart", lambda pair: _told_apart(bench, *pair.split("/")), dear=True)

    def uses(check: str) -> Uses:
        found: dict[str, dict[str, float]] = defaultdict(dict)
        for view in bench.library.views:
            for symptom in sorted(view.symptoms) if check in view.outcomes else ():
                if (told := apart(f"{view.id}/{symptom}").get(check)) is not None:
                    found[symptom][view.id] = told
        return found

    return Known(bench.library.watch, "check_uses", uses, dear=True)


def _told_apart(bench: Bench, family: str, symptom: str) -> Mapping[str, float]:
    """Check id -> how well it tells the causes of a complaint apart, where it does."""
    case = bench.complaint(bench.library.for_family(family), symptom).case
    return {check.id: told for check in case.checks if (told := told_apart(case, check)) > 0}


def told_apart(case: Case, check: Check) -> float:
    """The chance that two machines with the complaint, taken blindly, show different outcomes.

    One less the sum of the squared shares of the outcomes (the Gini impurity of the split, Breiman and
    others, Classification and Regression Trees, 1984; from memory).

    >>> from generator.analysis.check_order.case import Hypothesis
    >>> from generator.analysis.machine import Machine, Remedy
    >>> dull, late = (Hypothesis(n, (n,), 1, Remedy(n)) for n in ("dull", "late"))
    >>> look = Check("look", 1, (), ("bent", "straight"), {"dull": 0, "late": 1})
    >>> told_apart(Case((dull, late), (look,), Machine(), 2), look)
    0.5
    """
    shares: dict[int, float] = defaultdict(float)
    for hypothesis in case.hypotheses:
        shares[check.sees[hypothesis.id]] += hypothesis.share
    return 1 - fsum(share**2 for share in shares.values()) if len(shares) > 1 else 0.0
