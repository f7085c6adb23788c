"""The steps of a plan, one small builder for each kind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from generator.analysis.job.before_power import with_tests
from generator.analysis.job.joints import with_joints
from generator.analysis.job.said import said
from generator.analysis.job.settings import Making, Proving, TakingOff
from generator.analysis.job.types import UPRIGHT, Cell, Practice, Step, Weights
from generator.analysis.machine import Machine, MachineWait, Remedy
from generator.analysis.minutes import setting

_AGAIN = "Once more: it was on for what came before and is in the way of what follows."


@dataclass(frozen=True, slots=True)
class Job:
    """All that the steps are written from, once the orders are known."""

    machine: Machine
    practice: Practice
    remedies: tuple[Remedy, ...]
    order: tuple[str, ...]
    "Parts as they come off."
    back: tuple[str | Making | Proving | TakingOff, ...]
    "Parts to refit and to take off, settings to make and prove, in order."
    cells: Mapping[str, tuple[Cell, ...]]
    "Tray cells that each part fills; none for a part without fasteners."
    read: frozenset[str] = frozenset()
    "Settings read first and made only if they are out."

    @property
    def renewed(self) -> tuple[str, ...]:
        """Parts that any remedy renews, by id."""
        return tuple(sorted({part for remedy in self.remedies for part in remedy.renew}))


def all_steps(job: Job, weights: Weights) -> tuple[Step, ...]:
    """Way in, work, way out with the settings where they belong, the tests before power, and one proving sew."""
    steps = (
        *(_take_off(job, part) for part in job.order),
        *_work(job),
        *_way_out(job),
        Step("sew", "", "prove", weights.proving_minutes),
    )
    steps = tuple(_as_it_lies(steps))
    mains_test = job.machine.mains_test if any(map(job.machine.tested, job.remedies)) else None
    tested = with_tests(steps, mains_test, job.practice.live)
    return with_joints(tuple(_with_turns(tested)), job.practice)


def _as_it_lies(steps: Iterable[Step]) -> Iterator[Step]:
    """What is done whichever way the machine lies is done as the step before left it."""
    lies = UPRIGHT
    for step in steps:
        lies = step.position or lies
        yield replace(step, position=lies)


def _with_turns(steps: Iterable[Step]) -> Iterator[Step]:
    """Say first when the machine is turned over: that is where heads fall and fingers are caught."""
    lies = UPRIGHT
    for step in steps:
        turned = (f"First turn the machine {step.position.replace('-', ' ')}.",)
        yield replace(step, notes=(*turned, *step.notes)) if step.position != lies else step
        lies = step.position


def _take_off(job: Job, part: str) -> Step:
    h = job.practice.part(part)
    return Step(
        "take off", part, "way-in", job.machine.parts[part].off_minutes, h.off_position, h.off_tools,
        h.joints, h.loose, tuple(c.number for c in job.cells.get(part, ())),
        (
            *(f"Slacken {said(joint)} as well." for joint in h.slackens),
            *(f"Watch for {said(piece)}, which can fall out unseen." for piece in h.loose),
            *_waits(h.off_wait),
        ),
        wait=h.off_wait,
    )  # fmt: skip


def _work(job: Job) -> Iterator[Step]:
    for part in job.renewed:
        yield Step("renew", part, "work", position="")
    for remedy in job.remedies:
        if remedy.minutes or not (remedy.renew or remedy.set):
            yield Step("remedy", remedy.id, "work", remedy.minutes, "", notes=_waits(remedy.wait), wait=remedy.wait)


def _waits(wait: MachineWait | None) -> tuple[str, ...]:
    return (wait.said,) if wait else ()


def _way_out(job: Job) -> Iterator[Step]:
    """Refit, set and prove in order; oil what is in hand."""
    oiled: set[str] = set()
    taken = set(job.order)
    for done in job.back:
        yield from _on_the_way_out(job, done, taken, oiled)


def _on_the_way_out(
    job: Job, done: str | Making | Proving | TakingOff, taken: set[str], oiled: set[str]
) -> Iterator[Step]:
    if isinstance(done, Making):
        yield _set(job, done)
    elif isinstance(done, Proving):
        yield _prove(job, done)
    elif isinstance(done, TakingOff):
        step = replace(_take_off(job, done.part), phase="way-out")
        yield replace(step, notes=(_AGAIN, *step.notes)) if done.part in taken else step
        taken.add(done.part)
    else:
        yield _refit(job, done)
        yield from _oil(job, done, oiled)


def _refit(job: Job, part: str) -> Step:
    h = job.practice.part(part)
    pieces = (
        *(f"Put back {said(piece)}." for piece in h.loose),
        *(f"Do up {said(joint)} again." for joint in h.slackens if joint not in h.nips),
    )
    new = ("Fit the new one.",) if part in job.renewed else ()
    return Step(
        "refit", part, "way-out", job.machine.parts[part].on_minutes, h.on_position, h.on_tools,
        h.joints, h.loose, tuple(c.number for c in reversed(job.cells.get(part, ()))),
        (*new, *pieces, *_waits(h.on_wait)), wait=h.on_wait,
    )  # fmt: skip


def _oil(job: Job, part: str, oiled: set[str]) -> Iterator[Step]:
    """Each oil point once, as soon as the innermost part that touched it is on and nothing hides it yet."""
    h = job.practice.part(part)
    for point in h.oil:
        if point not in oiled:
            oiled.add(point)
            yield Step("oil", point, "oil", position=h.on_position)


def _set(job: Job, making: Making) -> Step:
    h = job.practice.setting(making.setting)
    notes = (
        f"Made with {said(part)} off" + (f": {said(later)} follows and needs it off." if later else ".")
        for part, later in making.despite
    )
    read = making.setting in job.read
    minutes = setting(job.machine, making.setting, read)
    return Step("set", making.setting, "set", minutes, h.position, h.tools, notes=tuple(notes), read=read)


def _prove(job: Job, done: Proving) -> Step:
    notes = (
        *(f"Done with {said(part)} off: no order of this job has it on." for part in done.off),
        *(f"Done with {said(part)} on: no order of this job has it off." for part in done.in_the_way),
    )
    return Step("check", done.check, "prove", position=job.practice.proofs.get(done.check, ""), notes=notes)


def by_part(cells: Iterable[Cell]) -> dict[str, tuple[Cell, ...]]:
    """The cells of each part, in their order."""
    found: dict[str, tuple[Cell, ...]] = {}
    for cell in cells:
        found[cell.part] = (*found.get(cell.part, ()), cell)
    return found
