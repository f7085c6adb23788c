"""What benchmarks measured, beside what was aimed at: one table at the end, which judges nothing."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import median


@dataclass(frozen=True)
class Figure:
    """One thing measured, once or several times."""

    name: str
    values: tuple[float, ...]
    unit: str
    goal: float | None
    "The most that it should be, in its unit; None where nothing is aimed at."

    @property
    def middle(self) -> float:
        """The median of the runs."""
        return median(self.values)

    @property
    def spread(self) -> str:
        """The least and the most of several runs."""
        return f"{_short(min(self.values))} to {_short(max(self.values))}" if len(self.values) > 1 else "once"

    @property
    def verdict(self) -> tuple[str, str]:
        """Its part of the goal, and whether it is held."""
        if self.goal is None:
            return "", ""
        return f"{self.middle / self.goal:.2f}", "held" if self.middle <= self.goal else "not held"


class Figures:
    """All figures of a run, in the order in which they were measured."""

    def __init__(self) -> None:
        self.all: list[Figure] = []

    def add(self, name: str, values: float | Sequence[float], unit: str, goal: float | None = None) -> None:
        """Note a figure, and say it at once."""
        several = (values,) if isinstance(values, (int, float)) else tuple(values)
        figure = Figure(name, several, unit, goal)
        self.all.append(figure)
        print(f"  {name}: {_short(figure.middle)} {unit}", flush=True)

    def table(self) -> Iterator[str]:
        """The lines of the table, figures with a goal first."""
        rows = [("figure", "measured", "goal", "of the goal", "", "spread")]
        for figure in sorted(self.all, key=lambda f: f.goal is None):
            goal = "" if figure.goal is None else f"{_short(figure.goal)} {figure.unit}"
            rows.append((figure.name, f"{_short(figure.middle)} {figure.unit}", goal, *figure.verdict, figure.spread))
        widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
        for row in rows:
            yield "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        load = " ".join(f"{value:.1f}" for value in os.getloadavg()) if hasattr(os, "getloadavg") else "unknown"
        yield f"{os.cpu_count()} processors; load at the end, over 1, 5 and 15 minutes: {load}."


def _short(value: float) -> str:
    return f"{value:,.0f}" if value >= 100 else f"{value:.3g}"


FIGURES = Figures()
"Of this run."
