"""Which complaints a check is worth making for: those whose causes its outcomes tell apart."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from math import fsum

from generator.analysis.check_order.case import Case, Check
from generator.bench import Bench
from generator.watched import Watched

Uses = Mapping[str, Mapping[str, Mapping[str, float]]]
"Check -> symptom -> family -> how well it tells the causes apart, from 0 to 1; only what is more than 0."


def check_uses(bench: Bench) -> Uses:
    """The same, its readers noted check by check."""
    with bench.library.watch.unwatched():
        return Watched(bench.library.watch, "check_uses", uses(bench))


def uses(bench: Bench) -> Uses:
    """How well every check tells apart the causes of every complaint."""
    found: dict[str, dict[str, dict[str, float]]] = defaultdict(lambda: defaultdict(dict))
    for complaint in bench.complaints():
        for check in complaint.case.checks:
            apart = told_apart(complaint.case, check)
            if apart > 0:
                found[check.id][complaint.symptom.id][complaint.view.id] = apart
    return found


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
