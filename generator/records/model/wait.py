"""A wait within a piece of work."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Wait:
    """Minutes in which the machine stands and the hands are free."""

    minutes: float
    "How long it stands, within the minutes of the work."
    why: str
    "What it waits for, as a clause without its full stop."
