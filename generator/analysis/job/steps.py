"""The steps of a plan, one small builder for each kind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from generator.analysis.job.settings import Making
from generator.analysis.job.types import UPRIGHT, Cell, Practice, Shop, Step
from generator.analysis.machine import Machine, Remedy


@dataclass(frozen=True, slots=True)
class Job:
    """All that the steps are written from, once the orders are known."""

    machine: Machine
    practice: Practice
    remedies: tuple[Remedy, ...]
    order: tuple[str, ...]
    "Parts as they come off."
    back: tuple[str | Making, ...]
    "Parts to refit and settings to make, in order."
    cells: Mapping[str, tuple[Cell, ...]]
    "Tray cells that each part fills; none for a part without fasteners."

    @property
    def renewed(self) -> tuple[str, ...]:
        """Parts that any remedy renews, by id."""
        return tuple(sorted({part for remedy in self.remedies for part in remedy.renew}))


def all_steps(job: Job, shop: Shop) -> tuple[Step, ...]:
    """Way in, work, way out with the settings where they belong, and one proving sew."""
    steps = (
        *(_take_off(job, part) for part in job.order),
        *_work(job),
        *_way_out(job),
        Step("sew", "", "prove", shop.proving_minutes),
    )
    return tuple(_with_turns(steps))


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
        tuple(f"Watch for {_said(piece)}: it can fall out unseen." for piece in h.loose),
    )  # fmt: skip


def _work(job: Job) -> Iterator[Step]:
    lies = lies_after(job.order, job.practice)
    for part in job.renewed:
        yield Step("renew", part, "work", position=lies)
    for remedy in job.remedies:
        if remedy.minutes or not (remedy.renew or remedy.set):
            yield Step("remedy", remedy.id, "work", remedy.minutes, lies)


def lies_after(order: Sequence[str], practice: Practice) -> str:
    """How the machine lies once these parts are off."""
    return practice.part(order[-1]).off_position if order else UPRIGHT


def _way_out(job: Job) -> Iterator[Step]:
    """Refit and set in order; oil and prove what is in hand."""
    oiled: set[str] = set()
    for n, done in enumerate(job.back):
        if isinstance(done, Making):
            yield _set(job, done)
            yield from _check(job, done, [m for m in job.back[n + 1 :] if isinstance(m, Making)])
        else:
            yield _refit(job, done)
            yield from _oil(job, done, oiled)


def _refit(job: Job, part: str) -> Step:
    h = job.practice.part(part)
    pieces = (f"{_said(piece).capitalize()} goes back here." for piece in h.loose)
    new = ("Fit the new one.",) if part in job.renewed else ()
    return Step(
        "refit", part, "way-out", job.machine.parts[part].on_minutes, h.on_position, h.on_tools,
        h.joints, h.loose, tuple(c.number for c in reversed(job.cells.get(part, ()))), (*new, *pieces),
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
        f"Made with {_said(part)} off: {_said(later)} follows and needs it off."
        for part, later in making.despite
    )
    minutes = job.machine.settings[making.setting].minutes
    return Step("set", making.setting, "set", minutes, h.position, h.tools, notes=tuple(notes))


def _check(job: Job, making: Making, coming: Sequence[Making]) -> Iterator[Step]:
    """The check that proves a setting, at once, while it can be seen; after the last that shares it."""
    h = job.practice.setting(making.setting)
    again = {job.practice.setting(m.setting).proved_by for m in coming}
    if h.proved_by and h.proved_by not in again:
        yield Step("check", h.proved_by, "prove", position=h.position)


def _said(id: str) -> str:
    return f"the {id.replace('-', ' ')}"


def by_part(cells: Iterable[Cell]) -> dict[str, tuple[Cell, ...]]:
    """The cells of each part, in their order."""
    found: dict[str, tuple[Cell, ...]] = {}
    for cell in cells:
        found[cell.part] = (*found.get(cell.part, ()), cell)
    return found
