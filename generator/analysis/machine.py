"""A machine as the bench meets it: parts behind parts, settings that follow settings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from generator.graph import reached


@dataclass(frozen=True, slots=True)
class MachinePart:
    """A part that can come off or move."""

    id: str
    behind: tuple[str, ...] = ()
    "Parts that must come off or move first."
    off_minutes: float = 0.0
    on_minutes: float = 0.0
    disturbs: tuple[str, ...] = ()
    "Settings upset by taking it off."
    loses: tuple[str, ...] = ()
    "Of those, settings that are lost and not merely upset: they do up a joint that it is fitted with only nipped."
    mains: bool = False
    "Whether it carries mains: renewed or opened, it is tested before power."


@dataclass(frozen=True, slots=True)
class MachineSetting:
    """An adjustment."""

    id: str
    minutes: float = 0.0
    after: tuple[str, ...] = ()
    "Settings that are made before this one."
    disturbs: tuple[str, ...] = ()
    "Settings upset by making this one."
    reach: tuple[str, ...] = ()
    "Parts that must be out of the way to make it."
    on: tuple[str, ...] = ()
    "Parts that must be on to make it."
    read_minutes: float | None = None
    "To read it, where it is merely upset; None: it is made unread."


@dataclass(frozen=True, slots=True)
class Proof:
    """A check as it proves a setting."""

    id: str
    reach: tuple[str, ...] = ()
    "Parts that must be out of the way, as far as the job has them off at all."
    on: tuple[str, ...] = ()
    "Parts that must be on."


@dataclass(frozen=True, slots=True)
class MachineWait:
    """A wait within a piece of work: the machine stands and the hands are free."""

    minutes: float
    "Within the minutes of the work."
    why: str

    @property
    def said(self) -> str:
        """A line of the job sheet."""
        return f"Wait {self.minutes:g} min: {self.why}."


@dataclass(frozen=True, slots=True)
class Remedy:
    """What puts a failure mode right. Two failure modes with an equal remedy need no telling apart."""

    id: str
    renew: tuple[str, ...] = ()
    set: tuple[str, ...] = ()
    reach: tuple[str, ...] = ()
    "Parts that must be out of the way for cleaning or advice; what renew and set need comes on top."
    minutes: float = 0.0
    "For cleaning and advice; renewing and setting take their minutes from the parts and settings."
    clean: tuple[str, ...] = ()
    "Parts cleaned or freed."
    wait: MachineWait | None = None
    "Of its minutes, those of waiting."


@dataclass(frozen=True, slots=True)
class Machine:
    """The parts and settings of one family, by id. Every id named exists and `behind` has no cycle."""

    parts: Mapping[str, MachinePart] = field(default_factory=dict)
    settings: Mapping[str, MachineSetting] = field(default_factory=dict)
    proofs: Mapping[str, Proof] = field(default_factory=dict)
    "What a check needs that proves settings; one that is not named needs nothing."
    found_out: float = 1.0
    "How often a setting that is merely upset is found out when it is read, as a share."
    mains_test: float = 0.0
    "Minutes of the earth and insulation tests."

    def way_in(self, parts: Iterable[str]) -> frozenset[str]:
        """The parts themselves and all that they are behind."""
        return reached(parts, lambda part: self.parts[part].behind)

    def upset(self, parts_off: Iterable[str], settings_made: Iterable[str] = ()) -> frozenset[str]:
        """Settings disturbed by taking parts off or by making settings, directly or through another.

        `settings_made` themselves are in the result only if something disturbs them.
        """
        by_parts = [s for p in parts_off for s in self.parts[p].disturbs]
        by_settings = [s for made in settings_made for s in self.settings[made].disturbs]
        return reached((*by_parts, *by_settings), lambda setting: self.settings[setting].disturbs)

    def tested(self, remedy: Remedy) -> bool:
        """Whether a mains part is renewed or opened, so that earth and insulation are tested before power."""
        return any(self.parts[p].mains for p in (*remedy.renew, *remedy.clean))

    def work(self, remedy: Remedy) -> Work:
        """All parts that come off for a remedy and all settings made for it, from a closed machine.

        A setting's own `reach` opens parts, and those may upset further settings: repeated until
        nothing is added.

        >>> m = Machine({"cover": MachinePart("cover"), "gear": MachinePart("gear", behind=("cover",), disturbs=("timing",))},
        ...             {"timing": MachineSetting("timing")})
        >>> work = m.work(Remedy("renew-gear", renew=("gear",)))
        >>> sorted(work.parts), sorted(work.settings)
        (['cover', 'gear'], ['timing'])
        """
        parts: frozenset[str] = frozenset()
        settings = frozenset(remedy.set)
        while True:
            reached = (r for s in settings for r in self.settings[s].reach)
            more_parts = self.way_in((*remedy.renew, *remedy.reach, *reached))
            more_settings = settings | self.upset(more_parts, settings)
            if (more_parts, more_settings) == (parts, settings):
                return Work(parts, settings, self._read(remedy, parts, settings))
            parts, settings = more_parts, more_settings

    def _read(self, remedy: Remedy, parts: frozenset[str], settings: frozenset[str]) -> frozenset[str]:
        """Settings that are merely upset: not asked for, not lost with a part that comes off, nor with a new one."""
        sure = {*remedy.set, *(s for p in remedy.renew for s in self.parts[p].disturbs)}
        sure |= {s for p in parts for s in self.parts[p].loses}
        return frozenset(s for s in settings - sure if self.settings[s].read_minutes is not None)


@dataclass(frozen=True, slots=True)
class Work:
    """What one remedy takes, from a closed machine."""

    parts: frozenset[str]
    "Parts that come off: those renewed or reached for, and all they are behind."
    settings: frozenset[str]
    "Settings made: those of the remedy and all that it upsets."
    read: frozenset[str] = frozenset()
    "Of those, settings that are read first and made only if they are out."
