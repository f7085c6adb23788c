"""Joints that a part is fitted with only nipped, since a setting does them up: told at both steps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from generator.analysis.job.before_power import is_live
from generator.analysis.job.said import said
from generator.analysis.job.types import Practice, Step


def with_joints(steps: Sequence[Step], practice: Practice) -> tuple[Step, ...]:
    """Every joint that a refit may leave nipped (`Handling.nips`) is done up, and the sheet says where.

    By the first setting after it that works the joint, if that comes before power; else at the
    refit itself. So no plan ends with a joint other than tight, and none runs with one.

    >>> from generator.analysis.job.types import Handling, SettingHandling
    >>> gear = Practice({"gear": Handling(nips=("gear-screws",))}, {"timing": SettingHandling(joints=("gear-screws",))})
    >>> fit, made = Step("refit", "gear", "way-out"), Step("set", "timing", "set")
    >>> [s.notes for s in with_joints((fit, made), gear)]
    [('Left nipped: the gear screws, done up at step 2.',), ('Do up tight at the end: the gear screws, left nipped at step 1.',)]
    >>> with_joints((fit,), gear)[0].notes
    ('Do up tight here: the gear screws; nothing in this job sets it.',)
    """
    told = list(steps)
    for n in range(len(steps)):
        for done_up, joints in _by_setting(steps, n, practice):
            told[n], told[done_up or n] = _noted(told[n], told[done_up or n], n, done_up, joints)
    return tuple(told)


def _by_setting(steps: Sequence[Step], n: int, practice: Practice) -> Iterator[tuple[int | None, tuple[str, ...]]]:
    """The joints that the step may leave nipped, by the later step that does them up."""
    step = steps[n]
    found: dict[int | None, tuple[str, ...]] = {}
    for joint in practice.part(step.part).nips if step.do == "refit" else ():
        done_up = _done_up(steps, n, joint, practice)
        found[done_up] = (*found.get(done_up, ()), joint)
    yield from found.items()


def _done_up(steps: Sequence[Step], n: int, joint: str, practice: Practice) -> int | None:
    for later in range(n + 1, len(steps)):
        step = steps[later]
        if is_live(step, practice.live):
            return None
        if step.do == "set" and not step.read and joint in practice.setting(step.part).joints:
            return later
    return None


def _noted(fit: Step, made: Step, n: int, done_up: int | None, joints: tuple[str, ...]) -> tuple[Step, Step]:
    named = _listed(said(joint) for joint in joints)
    if done_up is None:
        here = f"Do up tight here: {named}; nothing in this job sets {'it' if len(joints) == 1 else 'them'}."
        fit = replace(fit, notes=(*fit.notes, here))
        return fit, fit
    left = f"Left nipped: {named}, done up at step {done_up + 1}."
    tight = f"Do up tight at the end: {named}, left nipped at step {n + 1}."
    return (
        replace(fit, nips=(*fit.nips, *joints), notes=(*fit.notes, left)),
        replace(made, notes=(*made.notes, tight)),
    )


def _listed(words: Iterable[str]) -> str:
    return " and ".join(words)
