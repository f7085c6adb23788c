"""What a job plan is made from and what it is made of: plain data."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from generator.analysis.machine import MachineWait
from generator.analysis.minutes import waiting

Phase = Literal["way-in", "work", "way-out", "set", "oil", "prove"]
Do = Literal["take off", "renew", "remedy", "refit", "set", "oil", "check", "test", "sew"]

UPRIGHT = "upright"
"How a machine comes to the bench and how it is sewn on."


@dataclass(frozen=True, slots=True)
class Handling:
    """How one part comes off and goes on again."""

    off_position: str = UPRIGHT
    "How the machine lies while the part comes off: upright, on-its-back, on-its-face ...; empty: as it lies."
    on_position: str = UPRIGHT
    off_tools: tuple[str, ...] = ()
    "In the order they are picked up; none for what comes off by hand."
    on_tools: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()
    "Joints undone to take it off, in that order."
    loose: tuple[str, ...] = ()
    "Small pieces that can fall out unseen."
    wears: bool = False
    price: tuple[Fraction, Fraction] | None = None
    "Lowest and highest price of a new one, in the shop's currency; None if not known."
    oil: tuple[str, ...] = ()
    "Oil points touched by taking it off."
    slackens: tuple[str, ...] = ()
    "Joints of other parts slackened to take it off, done up again with it."
    nips: tuple[str, ...] = ()
    "Joints left nipped as it goes on, until a setting does them up."
    off_wait: MachineWait | None = None
    "Of the minutes to take it off, those of waiting."
    on_wait: MachineWait | None = None
    "Of the minutes to put it on, those of waiting."


@dataclass(frozen=True, slots=True)
class SettingHandling:
    """How one setting is made and proved."""

    position: str = UPRIGHT
    "Empty: as the machine lies."
    tools: tuple[str, ...] = ()
    proved_by: str = ""
    "The check that proves it; empty if the proving sew does."
    joints: tuple[str, ...] = ()
    "Joints loosened to make it, and tight when it is made."


@dataclass(frozen=True, slots=True)
class Practice:
    """How the parts and settings of one family are handled, by id; what is not named is done by hand, upright."""

    parts: Mapping[str, Handling] = field(default_factory=dict)
    settings: Mapping[str, SettingHandling] = field(default_factory=dict)
    proofs: Mapping[str, str] = field(default_factory=dict)
    "Check -> how the machine lies for it; not named: as it lies once the setting is made."
    live: frozenset[str] = frozenset()
    "Settings and checks that are done under power."

    def part(self, id: str) -> Handling:
        """How a part is handled; plainly, where nothing is said."""
        return self.parts.get(id, Handling())

    def setting(self, id: str) -> SettingHandling:
        """How a setting is handled; plainly, where nothing is said."""
        return self.settings.get(id, SettingHandling())


@dataclass(frozen=True, slots=True)
class Weights:
    """What a shop fixes for all its plans."""

    proving_minutes: float = 2.0
    "One proving sew."
    position_change: int = 10
    "Weight of turning the machine over. Only its ratio to `tool_change` counts."
    tool_change: int = 1
    "Weight of picking up another tool."


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do, as the machine stands at that moment."""

    do: Do
    part: str
    "The part, setting, oil point, check or (for `remedy`) remedy that it is done to; empty for `test` and `sew`."
    phase: Phase
    minutes: float = 0.0
    position: str = UPRIGHT
    tools: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()
    loose: tuple[str, ...] = ()
    tray: tuple[int, ...] = ()
    "Tray cells filled when taking off, emptied when refitting, in the order of the hands."
    notes: tuple[str, ...] = ()
    nips: tuple[str, ...] = ()
    "Joints left nipped by a refit until a later step does them up."
    read: bool = False
    "Whether a setting is read first and made only if it is out; its minutes are those expected."
    wait: MachineWait | None = None
    "Of its minutes, those of waiting."


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of the tray."""

    number: int
    "From 1, in the order of removal."
    part: str
    holds: str
    "A joint, whose fasteners lie here, or one loose piece."
    kind: Literal["joint", "loose"]


@dataclass(frozen=True, slots=True)
class WhileOpen:
    """A wearing part that this plan lays within reach."""

    part: str
    extra_minutes: float
    "To renew it in this plan."
    later_minutes: float
    "To renew it as a job of its own, from a closed machine, proving sew included."

    @property
    def saved_minutes(self) -> float:
        """By doing it in this plan."""
        return self.later_minutes - self.extra_minutes


@dataclass(frozen=True, slots=True)
class Plan:
    """One visit to the bench, from a closed machine to a proved one."""

    steps: tuple[Step, ...]
    settings: tuple[str, ...]
    "Settings in the order they are made."
    minutes: float
    tools: tuple[str, ...]
    parts: tuple[str, ...]
    "Parts renewed."
    tray: tuple[Cell, ...]
    while_open: tuple[WhileOpen, ...]
    "Most minutes saved first."
    position_changes: int
    "On the way in, from upright."
    tool_changes: int
    "On the way in, the first tool included."
    fewest_changes: bool
    "Whether no other order of the way in has a lower weight of changes; False: a good one, not proved the best."

    @property
    def waiting(self) -> float:
        """Of its minutes, those of waiting."""
        return waiting(step.wait for step in self.steps)


def lies_after(order: Sequence[str], practice: Practice) -> str:
    """How the machine lies once these parts are off.

    >>> lies_after(["cover", "needle"], Practice({"cover": Handling("on-its-back"), "needle": Handling("")}))
    'on-its-back'
    """
    return next((lies for part in reversed(order) if (lies := practice.part(part).off_position)), UPRIGHT)
