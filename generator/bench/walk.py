"""Where a diagnosis stands after some answers, and what to do next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.analysis.check_order import CheckNode, RemedyNode, solve_from
from generator.analysis.diagnosis import Answer, Ranking
from generator.analysis.diagnosis import rank as ranked
from generator.bench.bench import Bench
from generator.bench.complaint import Complaint


@dataclass(frozen=True, slots=True)
class Walk:
    """A diagnosis under way."""

    ranking: Ranking
    next_check: str | None
    "None where a remedy comes next, or nothing is left."
    next_remedy: str | None
    expected_minutes: float
    "Still to expect, from the machine as it stands now."
    exact: bool
    lower_bound: float


def walk(bench: Bench, complaint: Complaint, answers: Sequence[Answer] = (), skipped: Sequence[str] = ()) -> Walk:
    """The causes after the answers, and the best next step.

    Planning goes on with the causes that the fewest answers speak against; what the checks done so
    far have opened is open. An answer that cured the machine ends the job.
    """
    ranking = ranked({h.id: h.share for h in complaint.case.hypotheses}, answers)
    checks = {c.id: c for c in complaint.case.checks}
    if any(a.outcome in checks[a.check].cured for a in answers):
        return Walk(ranking, None, None, 0.0, True, 0.0)
    if not answers and not skipped:
        solution = bench.diagnosed(complaint).solution
    else:
        out = {*skipped, *(a.check for a in answers)}
        case = replace(
            complaint.case,
            checks=tuple(c for c in complaint.case.checks if c.id not in out),
            hypotheses=tuple(replace(h, share=ranking.shares[h.id]) for h in complaint.case.hypotheses),
        )
        opened = complaint.case.machine.way_in(p for a in answers for p in checks[a.check].reach)
        solution = solve_from(case, ranking.agreeing, opened)
    step = solution.policy
    return Walk(
        ranking,
        step.check if isinstance(step, CheckNode) else None,
        step.remedy if isinstance(step, RemedyNode) else None,
        solution.expected_minutes,
        solution.exact,
        solution.lower_bound,
    )
