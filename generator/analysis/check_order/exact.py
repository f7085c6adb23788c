"""The policy of least expected minutes: AND-OR branch and bound over hypotheses left and parts open."""

from __future__ import annotations

from generator.analysis.check_order.bounds import Lower
from generator.analysis.check_order.heuristic import Rollout
from generator.analysis.check_order.states import Move, State

NEGLIGIBLE = 1e-11
"Minutes below which two policies count as equal, so that rounding decides nothing."


class OutOfBudget(Exception):
    """The stated number of states has been expanded."""


class Search:
    """Depth-first search with bounds, each state's result remembered."""

    def __init__(self, lower: Lower, rollout: Rollout, budget: int) -> None:
        self._lower = lower
        self._states = lower.states
        self._rollout = rollout
        self._budget = budget
        self.expanded = 0
        self._bounds: dict[State, float] = {}
        self.solved: dict[State, Move] = {}

    def bound(self, state: State) -> float:
        """The best lower bound known; the least minutes (times mass) where the state is solved."""
        found = self._bounds.get(state)
        if found is None:
            found = self._bounds[state] = self._lower.bound(state)
        return found

    def value(self, state: State, limit: float) -> float:
        """The least minutes (times mass) if below `limit`; else a lower bound not below it."""
        known = self.bound(state)
        if state in self.solved or known >= limit or self._states.remedy_that_ends(state[0]):
            return known
        if self.expanded >= self._budget:
            raise OutOfBudget
        self.expanded += 1
        return self._expand(state, limit)

    def _expand(self, state: State, limit: float) -> float:
        best, floor = None, float("inf")
        for move in self._ranked(state):
            total = self._follow(move, limit)
            floor = min(floor, total)
            if total < limit - NEGLIGIBLE:
                best, limit = move, total
        if best is not None:
            self.solved[state] = best
        self._bounds[state] = limit if best is not None else max(floor, limit)
        return self._bounds[state]

    def _ranked(self, state: State) -> list[Move]:
        moves = self._states.moves(state)
        scored = [(m.cost + sum(map(self.bound, m.then)), m.cost, m.action.id, m) for m in moves]
        return [found[-1] for found in sorted(scored, key=lambda found: found[:-1])]

    def _follow(self, move: Move, limit: float) -> float:
        """The least minutes of a move if below `limit`; else a lower bound."""
        total = move.cost + sum(map(self.bound, move.then))
        for state in move.then:
            if total >= limit - NEGLIGIBLE:
                break
            before = self.bound(state)
            total += self.value(state, limit - (total - before)) - before
        return total
