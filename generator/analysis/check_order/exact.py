"""The least expected minutes: AND-OR branch and bound over hypotheses left and parts open."""

from __future__ import annotations

from collections.abc import Iterable
from math import fsum

from generator.analysis.check_order.bounds import Lower
from generator.analysis.check_order.states import Move, State

NEGLIGIBLE = 1e-11
"Minutes below which two policies count as equal, so that rounding decides nothing."
ABOVE = 1e-9
"Part of the minutes of a known policy, above which the search must find it or one as good."

Ranked = tuple[float, float, str, Move, list[State]]
"Bound, cost, id of the action, the move, and the states that it may lead to."


class OutOfBudget(Exception):
    """The stated number of states has been expanded."""


class Search:
    """Depth-first search with bounds, each state's result remembered.

    `solved` holds the best move of every state whose least minutes are known.
    """

    def __init__(self, lower: Lower, budget: int) -> None:
        self._lower = lower
        self._states = lower.states
        self._budget = budget
        self.expanded = 0
        self._bounds: dict[State, float] = {}
        self.solved: dict[State, Move] = {}

    def run(self, reached: float) -> bool:
        """Search from the start, below the minutes that a policy is known to reach.

        Returns whether the search came to its end: if not, what is solved by then still stands.
        """
        try:
            self.value(self._states.start(), reached + ABOVE * max(1.0, reached))
        except OutOfBudget:
            return False
        return True

    def bound(self, state: State) -> float:
        """The best lower bound known; the least minutes (times mass) where the state is solved."""
        found = self._bounds.get(state)
        if found is None:
            found = self._bounds[state] = self._lower.bound(state)
        return found

    def value(self, state: State, limit: float) -> float:
        """The least minutes (times mass) if below `limit`; else a lower bound not below it."""
        known = self.bound(state)
        if state in self.solved or known >= limit or self._states.last(state[0]):
            return known
        if self.expanded >= self._budget:
            raise OutOfBudget
        self.expanded += 1
        return self._expand(state, limit)

    def _expand(self, state: State, limit: float) -> float:
        quick = [(self._lower.quick(move), move) for move in self._states.moves(state)]
        floor = min((bound for bound, _ in quick if bound >= limit), default=float("inf"))
        best = None
        for _, cost, _, move, then in self._ranked(move for bound, move in quick if bound < limit):
            total = self._follow(cost, then, limit)
            floor = min(floor, total)
            if total < limit - NEGLIGIBLE:
                best, limit = move, total
        if best is not None:
            self.solved[state] = best
        self._bounds[state] = max(floor, limit)
        return self._bounds[state]

    def _ranked(self, moves: Iterable[Move]) -> list[Ranked]:
        """Moves by their cost and the bounds of what follows."""
        scored = []
        for move in moves:
            then = self._states.then(move)
            total = move.cost + fsum([self.bound(state) for state in then])
            scored.append((total, move.cost, move.action.id, move, then))
        scored.sort(key=_rank)
        return scored

    def _follow(self, cost: float, then: list[State], limit: float) -> float:
        """The least minutes of a move if below `limit`; else a lower bound."""
        bounds = [self.bound(state) for state in then]
        total = cost + fsum(bounds)
        for state, before in zip(then, bounds, strict=True):
            if total >= limit - NEGLIGIBLE:
                break
            total += self.value(state, limit - (total - before)) - before
        return total


def _rank(scored: Ranked) -> tuple[float, float, str]:
    return scored[:3]
