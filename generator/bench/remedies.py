"""What puts failure modes right, as one remedy with an id that says what is done."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import reduce
from operator import add

from generator.analysis.machine import MachineWait, Remedy
from generator.bench.machines import waiting
from generator.family_view import FamilyView
from generator.graph import reached
from generator.records.model import FailureMode


def remedies(view: FamilyView) -> Mapping[str, Remedy]:
    """Failure mode id -> its remedy on this family; equal work has an equal id.

    Two records may clean the same part in different minutes or from a different side: the later
    one by id then carries the failure mode in its own id, so that no two remedies share one.
    """
    by_id: dict[str, Remedy] = {}
    found: dict[str, Remedy] = {}
    for mode in sorted(view.failure_modes.values(), key=lambda m: m.id):
        remedy = _remedy(mode, view)
        if by_id.setdefault(remedy.id, remedy) != remedy:
            remedy = _named(remedy, f"{remedy.id}/{mode.id}")
            by_id[remedy.id] = remedy
        found[mode.id] = remedy
    return found


def _remedy(mode: FailureMode, view: FamilyView) -> Remedy:
    spec = mode.remedy
    renew = with_companions((p for p in spec.renew if p in view.parts), view)
    made = tuple(sorted({s for s in spec.set if s in view.settings}))
    words = [f"renew:{p}" for p in renew] + [f"set:{s}" for s in made]
    words += [f"clean:{p}" for p in sorted(spec.clean) if p in view.parts]
    if spec.advise or not words:
        words.append(f"advise:{mode.id}")
    reach = tuple(sorted({p for p in spec.reach if p in view.parts}))
    clean = tuple(sorted({p for p in spec.clean if p in view.parts}))
    return Remedy("+".join(words), renew, made, reach, spec.minutes, clean, waiting(spec.wait))


def with_companions(parts: Iterable[str], view: FamilyView) -> tuple[str, ...]:
    """The parts and those that are always renewed with them, sorted."""
    return tuple(sorted(reached(parts, lambda part: view.parts[part].renew_with)))


def _named(remedy: Remedy, remedy_id: str) -> Remedy:
    return replace(remedy, id=remedy_id)


def together(parts: Iterable[Remedy]) -> Remedy:
    """One remedy that does the work of several, each piece once.

    >>> together([Remedy("set:gap", set=("gap",)), Remedy("renew:needle", renew=("needle",))]).id
    'renew:needle+set:gap'
    """
    distinct = sorted({r.id: r for r in parts}.values(), key=lambda r: r.id)
    if len(distinct) == 1:
        return distinct[0]

    def union(field: str) -> tuple[str, ...]:
        return tuple(sorted({i for r in distinct for i in getattr(r, field)}))

    return Remedy(
        id="+".join(sorted({word for r in distinct for word in r.id.split("+")})),
        renew=union("renew"),
        set=union("set"),
        reach=union("reach"),
        clean=union("clean"),
        minutes=_added(r.minutes for r in distinct),
        wait=_all_waits([r.wait for r in distinct if r.wait]),
    )


def _all_waits(waits: Sequence[MachineWait]) -> MachineWait | None:
    """One after the other: nothing says that they can run side by side."""
    return MachineWait(_added(w.minutes for w in waits), "; ".join(dict.fromkeys(w.why for w in waits))) if waits else None


def _added(minutes: Iterable[float]) -> float:
    """One after the other, by every Python alike: from 3.12 on `sum` rounds otherwise. Whole numbers stay whole."""
    return reduce(add, minutes, 0)
