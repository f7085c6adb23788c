"""A case in bits: what each action costs from here and which hypotheses it leaves.

A set of hypotheses or of parts is an integer, one bit for each. Remedies and checks are the same
thing here: an *action* ends the job for some hypotheses and parts the others into classes. A
remedy ends the job for those it cures and leaves all others together.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import fsum

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.machine import Machine
from generator.analysis.minutes import but_for_opening
from generator.analysis.minutes import opening as opening_minutes


class Mass(dict[int, float]):
    """Mass of a set of hypotheses, added up from the highest bit so that it never varies."""

    def __init__(self, weights: tuple[float, ...]) -> None:
        super().__init__({0: 0.0})
        self.weights = weights

    def __missing__(self, hypotheses: int) -> float:
        mass, rest = 0.0, hypotheses
        while rest:
            top = rest.bit_length() - 1
            mass += self.weights[top]
            rest ^= 1 << top
        self[hypotheses] = mass
        return mass


@dataclass(frozen=True, slots=True)
class Action:
    """A check or a remedy."""

    id: str
    is_remedy: bool
    minutes: float
    "Without opening shared parts; a remedy's settings and proving sew are in it."
    parts: int
    "Shared parts that it needs open."
    ends: int
    "Hypotheses for which the job ends here."
    classes: tuple[int, ...]
    "The other hypotheses, parted by what is seen; none of the classes is empty."

    def tells(self, left: int) -> bool:
        """Whether doing it changes what is left."""
        return all(left & ~c for c in self.classes)

    def shown(self, size: int) -> list[int]:
        """What each hypothesis shows; those for which the job ends go each their own way."""
        seen = [-1 - bit for bit in range(size)]
        for number, shows in enumerate(self.classes):
            for bit in range(size):
                if shows >> bit & 1:
                    seen[bit] = number
        return seen


@dataclass(frozen=True, slots=True)
class Board:
    """A case in bits. Hypotheses that no check separates and one remedy cures share a bit."""

    groups: tuple[tuple[Hypothesis, ...], ...]
    "By bit."
    parts: Mapping[str, int]
    "The bit of every part that several actions need."
    opening: Mass
    "Off and on minutes of a set of parts."
    mass: Mass
    actions: tuple[Action, ...]
    "Remedies by id, then checks by id."

    @property
    def all(self) -> int:
        """Every hypothesis."""
        return (1 << len(self.groups)) - 1

    def cost(self, action: Action, open_parts: int) -> float:
        """Minutes of an action from here."""
        return action.minutes + self.opening[action.parts & ~open_parts]


def board(
    case: Case, left: Iterable[str] | None = None, open_parts: Iterable[str] = ()
) -> Board:
    """The case in bits, for the hypotheses in `left` (all of them if None) and parts open already.

    A part that one action alone needs goes into that action's minutes; parts that are always
    needed together share a bit. Raises ValueError for an unknown id or nothing left.
    """
    groups = _groups(case, _kept(case, left))
    drafts = [d for d in _drafts(case, groups) if d.tells(len(groups))]
    already = frozenset(open_parts)
    for unknown in sorted(already - case.machine.parts.keys()):
        raise ValueError(f"'{unknown}' is no part of the machine.")
    own, shared = _split_parts(case.machine, drafts, already)
    bits = {part: 1 << bit for bit, parts in enumerate(shared) for part in parts}
    actions = tuple(d.action(own[d.id, d.is_remedy], bits) for d in drafts)
    whole = fsum(h.share for group in groups for h in group)
    mass = Mass(tuple(fsum(h.share for h in group) / whole for group in groups))
    opening = Mass(tuple(opening_minutes(case.machine, parts) for parts in shared))
    return Board(groups, bits, opening, mass, actions)


def _kept(case: Case, left: Iterable[str] | None) -> list[Hypothesis]:
    if left is None:
        return list(case.hypotheses)
    wanted = set(left)
    for unknown in sorted(wanted - {h.id for h in case.hypotheses}):
        raise ValueError(f"'{unknown}' is no hypothesis of the case.")
    if not wanted:
        raise ValueError("No hypothesis is left to look for.")
    return [h for h in case.hypotheses if h.id in wanted]


def _groups(case: Case, kept: list[Hypothesis]) -> tuple[tuple[Hypothesis, ...], ...]:
    """Hypotheses that no check separates and one remedy cures, together."""
    found: dict[tuple[str, ...], list[Hypothesis]] = {}
    for hypothesis in kept:
        shown = (str(check.sees[hypothesis.id]) for check in case.checks)
        found.setdefault((hypothesis.remedy.id, *shown), []).append(hypothesis)
    return tuple(tuple(group) for group in found.values())


@dataclass(frozen=True, slots=True)
class _Draft:
    """An action whose parts still have names."""

    id: str
    is_remedy: bool
    minutes: float
    parts: frozenset[str]
    ends: int
    classes: tuple[int, ...]

    def tells(self, groups: int) -> bool:
        whole = (1 << groups) - 1
        return all(whole & ~c for c in self.classes)

    def action(self, own_minutes: float, bits: Mapping[str, int]) -> Action:
        parts = sum({bits[p] for p in self.parts if p in bits})
        minutes = self.minutes + own_minutes
        return Action(self.id, self.is_remedy, minutes, parts, self.ends, self.classes)


def _drafts(case: Case, groups: tuple[tuple[Hypothesis, ...], ...]) -> Iterator[_Draft]:
    whole = (1 << len(groups)) - 1
    remedies = {group[0].remedy.id: group[0].remedy for group in groups}
    for remedy in sorted(remedies.values(), key=lambda r: r.id):
        ends = _bits(group[0].remedy.id == remedy.id for group in groups)
        rest = tuple(c for c in (whole & ~ends,) if c)
        work = case.machine.work(remedy)
        own = but_for_opening(case.machine, remedy, work, case.proving_minutes)
        yield _Draft(remedy.id, True, own, work.parts, ends, rest)
    for check in sorted(case.checks, key=lambda c: c.id):
        ends, classes = _seen(check, groups)
        parts = case.machine.way_in(check.reach)
        yield _Draft(check.id, False, check.minutes, parts, ends, classes)


def _bits(flags: Iterable[bool]) -> int:
    return sum(1 << bit for bit, flag in enumerate(flags) if flag)


def _seen(check: Check, groups: tuple[tuple[Hypothesis, ...], ...]) -> tuple[int, tuple[int, ...]]:
    shown = [check.sees[group[0].id] for group in groups]
    masks = {n: _bits(s == n for s in shown) for n in sorted(set(shown))}
    ends = sum(mask for n, mask in masks.items() if n in check.cured)
    return ends, tuple(mask for n, mask in masks.items() if n not in check.cured)


def _split_parts(
    machine: Machine, drafts: list[_Draft], already: frozenset[str]
) -> tuple[dict[tuple[str, bool], float], list[list[str]]]:
    """Minutes of the parts that one action alone needs, by action; and parts that go together."""
    users: dict[str, tuple[tuple[str, bool], ...]] = {}
    for part in sorted(frozenset().union(*(d.parts for d in drafts)) - already):
        users[part] = tuple((d.id, d.is_remedy) for d in drafts if part in d.parts)
    together: dict[tuple[tuple[str, bool], ...], list[str]] = {}
    for part, needed_by in users.items():
        if opening_minutes(machine, [part]) > 0:
            together.setdefault(needed_by, []).append(part)
    own = {(d.id, d.is_remedy): 0.0 for d in drafts}
    for needed_by, parts in together.items():
        if len(needed_by) == 1:
            own[needed_by[0]] = opening_minutes(machine, parts)
    return own, [parts for needed_by, parts in together.items() if len(needed_by) > 1]
