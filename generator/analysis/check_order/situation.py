"""Where a job stands, and what each step costs from there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from math import fsum

from generator.analysis import minutes
from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.machine import Remedy


@dataclass(frozen=True, slots=True)
class Situation:
    """Where the job stands: what it may still be, and what is open."""

    case: Case
    left: tuple[Hypothesis, ...]
    open_parts: frozenset[str] = field(default_factory=frozenset)

    def after_check(self, check: Check, outcome: int) -> Situation:
        """As it stands when the check has shown the outcome."""
        left = tuple(h for h in self.left if check.sees[h.id] == outcome)
        opened = self.open_parts | self.case.machine.way_in(check.reach)
        return Situation(self.case, left, opened)

    def after_remedy(self, remedy: Remedy) -> Situation:
        """As it stands when the remedy has not cured the machine."""
        left = tuple(h for h in self.left if h.remedy.id != remedy.id)
        return Situation(self.case, left, self.open_parts | self.case.machine.work(remedy).parts)

    def newly_opened(self, parts: Iterable[str]) -> tuple[str, ...]:
        """Those of the parts that are still shut, by id."""
        return tuple(sorted(set(parts) - self.open_parts))

    def check_minutes(self, check: Check) -> float:
        """A check from here, its opening included."""
        return minutes.check(self.case.machine, check.minutes, check.reach, self.open_parts)

    def remedy_minutes(self, remedy: Remedy) -> float:
        """A remedy from here: opening, settings, its own minutes and the proving sew."""
        return minutes.remedy(self.case.machine, remedy, self.case.proving_minutes, self.open_parts)

    def remedies(self) -> tuple[Remedy, ...]:
        """Of the hypotheses left, each once, in their order."""
        return tuple({h.remedy.id: h.remedy for h in self.left}.values())

    def last_remedy(self) -> Remedy | None:
        """The remedy that cures all that is left, if there is one: checking stops there."""
        remedies = self.remedies()
        return remedies[0] if len(remedies) == 1 else None

    def tells(self, check: Check) -> bool:
        """Whether the check parts what is left, or is a trial that cures it."""
        seen = {check.sees[h.id] for h in self.left}
        return len(seen) > 1 or bool(seen & check.cured)

    def share(self) -> float:
        """Of the hypotheses left, as the case gives it."""
        return fsum(h.share for h in self.left)
