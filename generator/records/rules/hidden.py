"""A rule about failure modes that a check seems to show and that its outcomes leave out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from generator.records.as_used import unmet
from generator.records.finding import Finding, quote
from generator.records.model import Check, FailureMode, Family
from generator.records.rules.book import Book
from generator.records.rules.built import Built
from generator.records.rules.reads import BEHIND, FITTING, MACHINES, Reads, together
from generator.records.rules.registry import rule

K = TypeVar("K")

_OF_CHECK = ("needs", "lacks", "only_for", "reach", "does", "outcomes.*.cured", "outcomes.*.otherwise", "outcomes.*.says")
_OF_MODE = ("remedy.renew", "remedy.set", "remedy.clean", "unseen_by.*:")
READS = Reads(together(MACHINES, BEHIND, FITTING, {"check": _OF_CHECK, "failure-mode": _OF_MODE}))


@rule(
    "A failure mode is named in the checks of its complaints that seem to show it, or says why not.", "failure-mode", reads=READS
)
def seen_or_said(book: Book) -> Iterator[Finding]:
    """A check seems to show what sits beside a failure mode that it names, what it lays open, and what it tries."""
    machines = [_Machine(book, *group[0]) for group in book.alike]
    for check in book.records.checks.values():
        asked = _Asked(book, check)
        for id in sorted(asked.named & book.records.failure_modes.keys()):
            if check.id in book.records.failure_modes[id].unseen_by:
                message = f"{quote(check.id)} names {quote(id)} in an outcome, and here it says that it does not show it."
                yield book.finding(("failure-mode", id), ("unseen_by", check.id), message, "Keep one of the two.", key=True)
        said: dict[str, str] = {}
        having = frozenset[str]().union(*(book.machines.having.get(mode, ()) for mode in asked.named))
        for machine in machines if having else ():
            for mode, why in machine.hidden(asked) if machine.family.id in having and machine.has(check) else ():
                said.setdefault(mode, why)
        for mode, why in sorted(said.items()):
            yield _hidden(book, check, book.records.failure_modes[mode], why)


def _hidden(book: Book, check: Check, mode: FailureMode, why: str) -> Finding:
    rest = next((f"falls to {quote(o.says)}" for o in check.outcomes if o.otherwise), "fits no outcome")
    message = f"At {quote(check.id)} it {rest}, though {why}."
    hint = f"Name it in the outcome that it shows there, or say why it does not: `unseen_by: {{{check.id}: ...}}`."
    where = (("failure-mode", mode.id), ("part" if mode.part else "setting",))
    return book.finding(*where, message, hint, level="warning")


class _Asked:
    """A check with what it names."""

    def __init__(self, book: Book, check: Check) -> None:
        self.check = check
        fits = [(o.cured, book.fits.get(fit, frozenset())) for o in check.outcomes for fit in o.fits]
        self.seen = frozenset[str]().union(*(modes for cured, modes in fits if not cured))
        self.tried = frozenset[str]().union(*(modes for cured, modes in fits if cured))
        self.named = self.seen | self.tried
        symptoms = check.only_for or book.complaints_of(self.named)
        self.trees = [tree for symptom in symptoms if (tree := book.transfers.events(symptom)) & self.named]


@dataclass(frozen=True)
class _Machine:
    """A family as far as this rule needs to know, for all that are like it."""

    book: Book
    family: Family
    built: Built

    def has(self, check: Check) -> bool:
        """Whether the check makes sense on it."""
        return not unmet(self.family.features, check.needs, check.lacks)

    def hidden(self, asked: _Asked) -> Iterator[tuple[str, str]]:
        """Failure mode that the check seems to show and leaves out, and why it seems so."""
        for mode, near, why, what in self._near(asked):
            told = mode.id in asked.named or asked.check.id in mode.unseen_by or mode.id in asked.check.does
            if not told and any(mode.id in tree and near in tree for tree in asked.trees):
                yield mode.id, why.format(quote(what))

    def _near(self, asked: _Asked) -> Iterator[tuple[FailureMode, str, str, str]]:
        """Failure mode, the one that the check names beside it, what they have in common, and the id to put into those words."""
        for near in sorted(asked.seen & self._modes.keys()):
            for mode in self._at[_seat(self._modes[near])]:
                yield mode, near, "{}, on the same part or setting, is seen there", near
        for near in sorted(asked.tried & self._modes.keys()):
            for mode in self._mended[_work(self._modes[near])]:
                yield mode, near, "{}, with the same remedy, is cured there", near
        for part, homes in self._laid_open(asked.check).items():
            for near in sorted(asked.named & self._modes.keys()):
                if homes & self._homes(_seat(self._modes[near])):
                    yield from ((mode, near, "the check lays open {}", part) for mode in self._at[part])

    @cached_property
    def _modes(self) -> Mapping[str, FailureMode]:
        """Those that it can have and that are mended by work; advice mends what the machine's user does."""
        modes = self.book.records.failure_modes
        here = (modes[id] for id in sorted(self.book.machines.modes[self.family.id]))
        return {mode.id: mode for mode in here if any(_work(mode))}

    @cached_property
    def _at(self) -> Mapping[str, list[FailureMode]]:
        return _grouped(self._modes.values(), _seat)

    @cached_property
    def _mended(self) -> Mapping[tuple[tuple[str, ...], ...], list[FailureMode]]:
        return _grouped(self._modes.values(), _work)

    def _laid_open(self, check: Check) -> dict[str, set[str]]:
        """Part that is behind nothing but what the check takes off -> its assemblies."""
        reach = set(check.reach)
        return {id: homes for id, (behind, homes) in self._covered.items() if behind <= reach} if reach else {}

    @cached_property
    def _covered(self) -> Mapping[str, tuple[set[str], set[str]]]:
        """Part that is behind others -> those, and its assemblies."""
        parts = self.built.parts
        behind = {id: {p for owner in owned for p in owner.value.behind if p in parts} for id, owned in parts.items()}
        return {id: (others, {owner.assembly for owner in parts[id]}) for id, others in behind.items() if others}

    def _homes(self, seat: str) -> set[str]:
        parts, settings = self.built.parts.get(seat, ()), self.built.settings.get(seat, ())
        return {part.assembly for part in parts} | {setting.assembly for setting in settings}


def _grouped(modes: Iterable[FailureMode], key: Callable[[FailureMode], K]) -> Mapping[K, list[FailureMode]]:
    found: dict[K, list[FailureMode]] = defaultdict(list)
    for mode in modes:
        found[key(mode)].append(mode)
    return found


def _seat(mode: FailureMode) -> str:
    return mode.part or mode.setting or ""


def _work(mode: FailureMode) -> tuple[tuple[str, ...], ...]:
    """What is renewed, set and cleaned."""
    return mode.remedy.renew, mode.remedy.set, mode.remedy.clean
