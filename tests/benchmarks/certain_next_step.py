"""The next step of the walk that this book had before it reckoned with doubt, to compare with."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from math import isfinite
from typing import Literal

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.check_order.situation import Situation
from generator.analysis.machine import Remedy

WAITING = 0.5
"""Part of the waiting for other remedies that checks do not save. An estimate: on invented cases
anything from 0.3 to 0.7 did about as well."""


@dataclass(frozen=True, slots=True)
class Step:
    """A check or a remedy that may come next."""

    kind: Literal["check", "remedy"]
    id: str
    opens: tuple[str, ...]
    "Parts to open for it that are shut, by id."
    minutes: float
    "The step from here, its opening included."
    score: float
    "Estimated minutes until the job is done if this comes next."


def next_step(
    case: Case,
    weights: Mapping[str, float],
    open_parts: Collection[str] = (),
    done: Collection[str] = (),
) -> tuple[Step, ...]:
    """Every useful step, the one of the least score first.

    `weights` gives the weight of each hypothesis that is left, by id, on any scale; one that is
    missing or has 0 is out. `done` holds ids of checks and remedies that are done or cannot be
    done. Empty when nothing useful is left; ValueError for an unknown id or a weight that is not
    0 or more.

    The formula. Sums run over hypotheses in the order of the case; M is the sum of the weights.

    - after(T, O), with the hypotheses T left and the parts O open: for each remedy r of T, p is the
      sum of the weights in T that it cures and c its minutes from O (opening, settings, own
      minutes, proving sew). Remedies in the order of p / c, the highest first (infinite where c is
      0), ties by id. `ending` adds p c; `waiting` adds c times the p of all remedies that follow.
      after = ending + 0.5 waiting.
    - A step that takes m minutes from here and leaves the sets T1, T2 ... with the parts O open:
      score = m + (after(T1, O) + after(T2, O) + ...) / M. A check leaves one set for each outcome
      that is shown, in the order of the outcomes, but for those that cure; a remedy leaves the
      hypotheses that it does not cure.
    - A check is useful if the hypotheses left show two outcomes or more, or one that cures. When
      one remedy cures all that is left, it is the only step.
    - Order: score, then minutes, then remedies before checks, then id.
    """
    now = Situation(case, tuple(_left(case, weights)), frozenset(open_parts))
    for unknown in sorted(now.open_parts - case.machine.parts.keys()):
        raise ValueError(f"'{unknown}' is no part of the machine.")
    steps = [step for step in _steps(now) if step.id not in done]
    return tuple(sorted(steps, key=lambda s: (s.score, s.minutes, s.kind == "check", s.id)))


def _left(case: Case, weights: Mapping[str, float]) -> Iterator[Hypothesis]:
    for unknown in sorted(weights.keys() - {h.id for h in case.hypotheses}):
        raise ValueError(f"'{unknown}' is no hypothesis of the case.")
    for hypothesis in case.hypotheses:
        weight = weights.get(hypothesis.id, 0.0)
        if not (isfinite(weight) and weight >= 0):
            raise ValueError(f"'{hypothesis.id}' has the weight {weight}; a weight is 0 or more.")
        if weight:
            yield replace(hypothesis, share=weight)


def _steps(now: Situation) -> Iterator[Step]:
    remedies = now.remedies()
    for remedy in remedies:
        yield _remedy_step(now, remedy)
    if len(remedies) > 1:
        for check in now.case.checks:
            if now.tells(check):
                yield _check_step(now, check)


def _remedy_step(now: Situation, remedy: Remedy) -> Step:
    opens = now.newly_opened(now.case.machine.work(remedy).parts)
    minutes = now.remedy_minutes(remedy)
    score = minutes + _after(now.after_remedy(remedy)) / now.share()
    return Step("remedy", remedy.id, opens, minutes, score)


def _check_step(now: Situation, check: Check) -> Step:
    opens = now.newly_opened(now.case.machine.way_in(check.reach))
    minutes = now.check_minutes(check)
    shown = sorted({check.sees[h.id] for h in now.left} - check.cured)
    after = sum(_after(now.after_check(check, outcome)) for outcome in shown)
    return Step("check", check.id, opens, minutes, minutes + after / now.share())


def _after(now: Situation) -> float:
    """Minutes (times weight) still to come, if remedies alone followed and waited half as long."""
    tried = sorted((_tried(now, remedy) for remedy in now.remedies()), key=lambda t: t[0])
    following, total = 0.0, 0.0
    for _, p, c in reversed(tried):
        total += p * c + WAITING * c * following
        following += p
    return total


def _tried(now: Situation, remedy: Remedy) -> tuple[tuple[float, str], float, float]:
    p = sum(h.share for h in now.left if h.remedy.id == remedy.id)
    c = now.remedy_minutes(remedy)
    return (-p / c if c else float("-inf"), remedy.id), p, c
