"""What a job may be, ranked after what was seen and done, and a sentence where nothing fits it all."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from generator.analysis.doubt.case import SOMETHING_ELSE
from generator.analysis.doubt.standing import Standing
from generator.analysis.doubt.table import Table

Seen = tuple[int, int]
"A check by its number in the table, and the outcome that it showed."

USED_UP = (
    "What fits all that was seen has been put right, and the fault is still there. "
    "One answer may be wrong, or there are two faults; the shares show what fits best."
)
TWO_FAULTS = (
    "No single cause fits all that was seen. One answer may be wrong, or there are two faults; "
    "the shares show what fits best."
)


@dataclass(frozen=True, slots=True)
class Ranking:
    """Causes after the answers so far."""

    shares: Mapping[str, float]
    "Hypothesis id, or `SOMETHING_ELSE`, -> share; they sum to 1; largest first, ties by id."
    said: str
    "A sentence where the answers contradict everything, else empty."


def ranking(table: Table, now: Standing, answers: Sequence[Seen] = ()) -> Ranking:
    """The causes by share; the priors stand where the answers leave nothing possible."""
    ids = [*(h.id for h in table.doubt.case.hypotheses), SOMETHING_ELSE]
    weights = now.weights if now.share > 0 else table.prior
    whole = fsum(weights)
    ranked = sorted(zip(ids, weights, strict=True), key=lambda cause: (-cause[1], cause[0]))
    return Ranking({i: w / whole for i, w in ranked}, _said(table, now, answers))


def _said(table: Table, now: Standing, answers: Sequence[Seen]) -> str:
    causes = range(len(table.prior))
    fitting = [c for c in causes if all(table.checks[n].sees[c] == outcome for n, outcome in answers)]
    if any(c == table.unlisted or not now.tried >> table.remedy_of[c] & 1 for c in fitting):
        return ""
    if fitting:
        return USED_UP
    lone = [table.checks[n].id for n, o in answers if all(table.checks[n].sees[c] != o for c in causes)]
    return nobody_shows(lone[0]) if lone else TWO_FAULTS


def nobody_shows(check: str) -> str:
    """No cause shows what was seen at a check."""
    return (
        f"No cause in this tree shows what was seen at '{check}'. "
        "Look again; if it stands, the cause is one that nobody has written down yet."
    )
