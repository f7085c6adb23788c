"""What a cup-point set screw holds and how hard charts seat it: a guide, never an order."""

from __future__ import annotations

from generator.standards.holding import SET_SCREW_CHARTS, SetScrewRow
from generator.standards.threads import Thread, diameter_of

CAUTION = (
    "A guide, not an order: published charts differ, and they mean a hard screw on a sound steel shaft. "
    "Soft or worn shafts take less, moulded gears and brass bushes much less."
)


def chart_rows(thread: Thread) -> tuple[SetScrewRow, ...]:
    """What the charts give for the thread's own size, lowest seating torque first; none for other sizes.

    >>> from generator.standards.notation import parse_thread
    >>> [(row.seating_torque_lbf_in, row.source) for row in chart_rows(parse_thread("10-32"))]
    [(25, 'common-practice'), (36, 'shigley')]
    """
    rows = (row for row in SET_SCREW_CHARTS if diameter_of(row.size) == thread.diameter_mm)
    return tuple(sorted(rows, key=lambda row: (row.seating_torque_lbf_in, row.source)))
