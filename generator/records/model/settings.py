"""Assemblies with their settings and oil points, as the schema has them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.records.model.machines import Part


@dataclass(frozen=True, slots=True)
class Target:
    """What is measured for a setting, and what it should be."""

    measure: str
    "What is measured, and where."
    source: str
    "Id of a source."
    low: str | None = None
    "Lowest good value: a quantity as written."
    high: str | None = None
    "Highest good value: a quantity as written."
    note: str | None = None
    "Markdown."

    @property
    def span(self) -> str:
        """What it should measure, in words; nothing where it has no figure.

        >>> Target("gap", "common-practice", low="0.05 mm", high="0.1 mm").span
        '0.05 mm to 0.1 mm'
        """
        if self.low and self.high and self.low != self.high:
            return f"{self.low} to {self.high}"
        if self.low and not self.high:
            return f"at least {self.low}"
        if self.high and not self.low:
            return f"at most {self.high}"
        return self.low or ""


@dataclass(frozen=True, slots=True)
class Gauge:
    """How a target is gauged, as the drawing beside its step has it."""

    draws: str
    "What the drawing shows; the schema has the list."
    of: str
    "What is measured, in a word or two."
    to: str | None = None
    "From what it is measured."
    tool: str | None = None
    "Id of the tool that it is gauged with; None: by eye."
    over: str | None = None
    "Of two runs of stitches: how long the first one is, a length as written."


@dataclass(frozen=True, slots=True)
class Reading:
    """How a setting is read before it is touched."""

    minutes: float
    "Bench minutes."
    how: str | None = None
    "Markdown; None: what the target says is measured."


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting (adjustment) of an assembly."""

    id: str
    "Its key in the assembly."
    title: str
    "The name that a reader sees."
    minutes: float
    "Bench minutes."
    read: Reading | None = None
    "How it is read first where access alone upset it; None: it is set outright."
    what: str | None = None
    "Markdown."
    why: str | None = None
    "Markdown."
    how: str | None = None
    "Markdown: how it is made, in order."
    after: tuple[str, ...] = ()
    "Ids of settings made before this one."
    disturbs: tuple[str, ...] = ()
    "Ids of settings upset by making this one."
    reach: tuple[str, ...] = ()
    "Ids of parts that must be out of the way."
    in_place: tuple[str, ...] = ()
    "Ids of parts that must be on; those that a family lacks are passed over."
    joints: tuple[str, ...] = ()
    "Ids of joints loosened to make it."
    position: str | None = None
    "How the machine lies; see `Move.position`."
    tools: tuple[str, ...] = ()
    "Ids of tools."
    power: str | None = None
    "off, on or handwheel-only."
    target: Target | None = None
    "What is measured and what it should be."
    gauge: Gauge | None = None
    "How that is gauged."
    proved_by: str | None = None
    "Id of the check that proves it."
    needs: tuple[str, ...] = ()
    "Ids of features that a family must have."
    lacks: tuple[str, ...] = ()
    "Ids of features that a family must not have."
    cautions: tuple[str, ...] = ()
    "Ids of cautions."


@dataclass(frozen=True, slots=True)
class OilPoint:
    """One place for oil or grease."""

    point: str
    "A short id of the place."
    oil: str
    "What goes there."
    title: str | None = None
    "The place in words."
    drops: int | None = None
    "Drops of oil; None for grease."
    how: str | None = None
    "Markdown."
    every: str | None = None
    "How often, in words."
    part: str | None = None
    "Id of the part that it serves."
    reach: tuple[str, ...] = ()
    "Ids of parts that must be out of the way."
    source: str | None = None
    "Id of a source."


@dataclass(frozen=True, slots=True)
class Assembly:
    """One mechanism."""

    id: str
    "File name."
    title: str
    "The name that a reader sees."
    role: str | None = None
    "What the mechanism is for, such as hook or feed."
    brings: tuple[str, ...] = ()
    "Ids of features that a machine has by having it."
    summary: str | None = None
    "Markdown: how it works."
    recognise: str | None = None
    "Markdown: how to know from outside that a machine has it."
    parts: Mapping[str, Part] = field(default_factory=dict)
    "Part id -> part, in the record's order."
    settings: Mapping[str, Setting] = field(default_factory=dict)
    "Setting id -> setting, in the record's order."
    oil: tuple[OilPoint, ...] = ()
    "Its oil and grease points."
    cautions: tuple[str, ...] = ()
    "Ids of cautions."
    was: tuple[str, ...] = ()
    "Ids that it had before."
