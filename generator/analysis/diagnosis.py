"""Ranked causes: shares of the hypotheses, and what answers do to them by Bayes' rule."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum


@dataclass(frozen=True, slots=True)
class Answer:
    """What was seen at one check."""

    check: str
    outcome: int
    "Index of the outcome that was seen, from 0."
    outcomes: int
    "How many outcomes the check has."
    sees: Mapping[str, int]
    "Hypothesis id -> the outcome that it shows."
    trust: float
    "How often what is seen follows the true cause."

    def likelihood(self, hypothesis: str) -> float:
        """How likely this answer is if the hypothesis is true; doubt is spread over the other outcomes."""
        if self.outcomes == 1 or self.sees[hypothesis] == self.outcome:
            return self.trust if self.outcomes > 1 else 1.0
        return (1 - self.trust) / (self.outcomes - 1)


@dataclass(frozen=True, slots=True)
class Ranking:
    """Hypotheses after the answers so far."""

    shares: Mapping[str, float]
    "Hypothesis id -> share; they sum to 1; largest first, ties by id."
    agreeing: tuple[str, ...]
    "Hypotheses that the fewest answers speak against: what planning goes on with, in the same order."
    against: int
    "How many answers speak against even those; 0 while something fits all that was seen."
    said: str
    "A sentence where the answers contradict everything, else empty."


def rank(prior: Mapping[str, float], answers: Sequence[Answer] = ()) -> Ranking:
    """The hypotheses by share, after Bayes' rule for each answer.

    `prior` holds positive weights of any sum. Answers are taken as independent given the cause.

    >>> seen = Answer("look", 0, 2, {"gear": 0, "needle": 1}, 0.95)
    >>> {h: round(s, 3) for h, s in rank({"needle": 3, "gear": 1}, [seen]).shares.items()}
    {'gear': 0.864, 'needle': 0.136}
    """
    weights = dict(prior)
    for answer in answers:
        weights = {h: w * answer.likelihood(h) for h, w in weights.items()}
    whole = fsum(weights.values())
    if whole == 0:
        weights, whole = dict(prior), fsum(prior.values())
    order = sorted(weights, key=lambda h: (-weights[h], h))
    against = {h: sum(a.sees[h] != a.outcome for a in answers) for h in order}
    fewest = min(against.values())
    return Ranking(
        shares={h: weights[h] / whole for h in order},
        agreeing=tuple(h for h in order if against[h] == fewest),
        against=fewest,
        said=_contradiction(answers, fewest, order),
    )


def _contradiction(answers: Sequence[Answer], fewest: int, hypotheses: Sequence[str]) -> str:
    if fewest == 0:
        return ""
    lone = [a.check for a in answers if all(a.sees[h] != a.outcome for h in hypotheses)]
    if lone:
        return (
            f"No cause in this tree shows what was seen at '{lone[0]}'. "
            "Look again; if it stands, the cause is one that nobody has written down yet."
        )
    return (
        "No single cause fits all that was seen. One answer may be wrong, or there are two faults; "
        "the shares show what fits best."
    )
