"""The tray: a numbered cell for each joint's fasteners and each loose piece, in the order of removal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from generator.analysis.job.settings import TakingOff
from generator.analysis.job.types import Cell, Practice


def tray(order: Iterable[str], practice: Practice) -> tuple[Cell, ...]:
    """Number the cells as the parts come off in `order`.

    A joint that two parts share lies in the cell of the first that is taken off: it is undone then.

    >>> from generator.analysis.job.types import Handling
    >>> gear = Handling(joints=("gear-screws",), loose=("shim",))
    >>> [(c.number, c.holds) for c in tray(["gear"], Practice({"gear": gear}))]
    [(1, 'gear-screws'), (2, 'shim')]
    """
    return tuple(_cells(order, practice))


def taken_off(way_in: Sequence[str], way_out: Iterable[object]) -> tuple[str, ...]:
    """Parts in the order in which they first come off, on the way in and after."""
    later = (done.part for done in way_out if isinstance(done, TakingOff))
    return tuple(dict.fromkeys((*way_in, *later)))


def _cells(order: Iterable[str], practice: Practice) -> Iterator[Cell]:
    undone: set[str] = set()
    number = 0
    for part in order:
        handling = practice.part(part)
        joints = [j for j in dict.fromkeys(handling.joints) if j not in undone]
        undone.update(joints)
        for holds in (*joints, *handling.loose):
            number += 1
            yield Cell(number, part, holds, "joint" if holds in joints else "loose")
