"""Tolls on pairs of hypotheses: the linear program that the lower bounds come from.

Whatever the policy, every hypothesis ends in an action, and every pair of hypotheses is parted by
an action done with both. For the pair, that action is charged a *toll*: of its minutes (times mass)
with the one, with the other, or some of each. No action can be charged more than its minutes with a
hypothesis, a *row*; but a row may also draw on the opening of a part that the action needs. A part
is opened once, so all such *claims* on one opening, and what is *kept* of it for the ending, share
its minutes. An *ending* is what tolls leave of the cheapest action that ends the hypothesis. All
tolls and endings together are a lower bound, by weak duality; `bounds` says why it holds from every
state. The best tolls are a linear program. Good ones take a few rounds of ascent in one ending,
toll or claim at a time, kept off the edge by a barrier, price x log(slack of each row), whose price
falls (Boyd and Vandenberghe, Convex Optimization, 2004, chapter 11).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import fsum

from generator.analysis.check_order.cost import Action, Board

ROUNDS = 12
"Rounds of the ascent."
DEAREST, CHEAPEST = 1e-2, 2e-4
"Minutes (times mass) that the barrier gives for an e-fold of slack, in the first and last round."
REACH = 0.95
"Part of the least slack that one step may use up."
NO_SLACK = 1e-9
"Minutes (times mass) that are not worth charging."


@dataclass(slots=True)
class Pair:
    """Two hypotheses that must part."""

    one: int
    other: int
    rows: list[tuple[int, int]]
    "Of every action that parts them: its row with the one and its row with the other."
    loads: list[float]
    "Of the toll, what the row with the one carries; by action."
    toll: float = 0.0


@dataclass(slots=True)
class Opening:
    """One part opened for one hypothesis."""

    part: int
    kept: float
    enders: list[int]
    "Rows of the actions that need it and end the hypothesis."
    users: list[int]
    "Rows of the other actions that need it."
    claims: list[float]
    "By user."


class Tolls:
    """Tolls, claims and endings for a board, and the slack that they leave in every row."""

    def __init__(self, board: Board, actions: Sequence[Action]) -> None:
        self.actions = actions
        self.size = len(board.groups)
        self._slack = [a.minutes * weight for a in actions for weight in board.mass.weights]
        self._enders = [[r for r in self._rows(h) if self._ends(r)] for h in range(self.size)]
        self._endings = [0.0] * self.size
        self.openings = [list(self._openings(board, h)) for h in range(self.size)]
        self.pairs = list(self._pairs())
        self._ascend()

    def action(self, row: int) -> Action:
        """Of a row."""
        return self.actions[row // self.size]

    def ender_minutes(self, hypothesis: int) -> Iterator[tuple[Action, float]]:
        """Every action that ends the hypothesis, and what tolls leave of its minutes, openings apart."""
        for row in self._enders[hypothesis]:
            kept = fsum(o.kept for o in self.openings[hypothesis] if row in o.enders)
            yield self.action(row), self._slack[row] + self._endings[hypothesis] - kept

    def claims(self) -> dict[tuple[int, int], list[float]]:
        """Number of the action and part -> what it claims of the part's opening, by hypothesis."""
        found: dict[tuple[int, int], list[float]] = {}
        for hypothesis, openings in enumerate(self.openings):
            for opening in openings:
                for row, claim in zip(opening.users, opening.claims, strict=True):
                    if claim:
                        by = found.setdefault((row // self.size, opening.part), [0.0] * self.size)
                        by[hypothesis] = claim
        return found

    def _rows(self, hypothesis: int) -> range:
        return range(hypothesis, len(self._slack), self.size)

    def _ends(self, row: int) -> bool:
        return bool(self.action(row).ends >> row % self.size & 1)

    def _openings(self, board: Board, hypothesis: int) -> Iterator[Opening]:
        """At first, all is kept for the ending."""
        for part, minutes in enumerate(board.opening.weights):
            kept = minutes * board.mass.weights[hypothesis]
            needed = [r for r in self._rows(hypothesis) if self.action(r).parts >> part & 1]
            enders = [row for row in needed if self._ends(row)]
            users = [row for row in needed if not self._ends(row)]
            for row in enders:
                self._slack[row] += kept
            yield Opening(part, kept, enders, users, [0.0] * len(users))

    def _pairs(self) -> Iterator[Pair]:
        """All but those that some action parts for nothing."""
        shown = [action.shown(self.size) for action in self.actions]
        for other in range(self.size):
            for one in range(other):
                parting = [n for n, seen in enumerate(shown) if seen[one] != seen[other]]
                rows = [(n * self.size + one, n * self.size + other) for n in parting]
                if all(self._slack[a] + self._slack[b] > NO_SLACK for a, b in rows):
                    yield Pair(one, other, rows, [0.0] * len(rows))

    def _ascend(self) -> None:
        claimed = [opening for openings in self.openings for opening in openings if opening.users]
        for price in _prices():
            for hypothesis in range(self.size):
                self._end(hypothesis, price)
            for pair in self.pairs:
                self._charge(pair, price)
            for opening in claimed:
                self._share(opening)

    def _end(self, hypothesis: int, price: float) -> None:
        """Take more, or less, of all rows that end the hypothesis."""
        rows, slack = self._enders[hypothesis], self._slack
        step = _step([slack[row] for row in rows], price)
        self._endings[hypothesis] += step
        for row in rows:
            slack[row] -= step

    def _charge(self, pair: Pair, price: float) -> None:
        """Raise or lower a toll, and leave the two rows of every action as even as may be.

        The inner loop of the ascent: plain steps, which run faster than `min` and `max`.
        """
        slack, loads = self._slack, pair.loads
        rooms = [slack[a] + slack[b] for a, b in pair.rows]
        step = max(_step(rooms, 2 * price), -pair.toll)
        if not step:
            return
        toll = pair.toll = pair.toll + step
        for n, (a, b) in enumerate(pair.rows):
            room = rooms[n] - step
            whole = slack[a] + loads[n]
            load = whole - room / 2
            if load < 0.0:
                load = 0.0
            elif load > toll:
                load = toll
            loads[n] = load
            slack[a] = whole - load
            slack[b] = room - slack[a]

    def _share(self, opening: Opening) -> None:
        """Even out the slack of every claimant with that of the endings that want the opening kept."""
        slack, claims = self._slack, opening.claims
        spare = self._spare(opening)
        for n, row in enumerate(opening.users):
            step = (spare - slack[row]) / 2
            if step < -claims[n]:
                step = -claims[n]
            if step:
                claims[n] += step
                slack[row] += step
                opening.kept -= step
                for ender in opening.enders:
                    slack[ender] -= step
                spare = self._spare(opening)

    def _spare(self, opening: Opening) -> float:
        """The one slack that gives way to a small claim as all that it is taken from do."""
        slacks = [opening.kept, *[self._slack[row] for row in opening.enders]]
        return 1 / fsum([1 / slack for slack in slacks]) if min(slacks) > NO_SLACK else 0.0


def _prices() -> list[float]:
    """Of the rounds: each the same part of the one before."""
    fall = (CHEAPEST / DEAREST) ** (1 / (ROUNDS - 1))
    return [DEAREST * fall**number for number in range(ROUNDS)]


def _step(slacks: Sequence[float], price: float) -> float:
    """A step of Newton's method to the most of: step + price x sum of log(slack - step)."""
    least = min(slacks)
    if least < NO_SLACK:
        return 0.0
    inverse = squares = 0.0
    for slack in slacks:
        part = 1 / slack
        inverse += part
        squares += part * part
    return min(inverse * (1 - price * inverse) / squares, REACH * least)
