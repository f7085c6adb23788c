"""A good policy without search: look one step ahead, follow the few best steps to their end."""

from __future__ import annotations

from bisect import insort
from math import fsum

from generator.analysis.check_order.bounds import Lower
from generator.analysis.check_order.states import Move, State

LOOK = 3
"Steps followed to their end from each state."


class Rollout:
    """Policies by one-step look-ahead on lower bounds, made better by one round of roll-out."""

    def __init__(self, lower: Lower) -> None:
        self._lower = lower
        self._states = lower.states
        self._greedy: dict[State, float] = {}
        self._best: dict[State, tuple[float, Move | None]] = {}

    def _first(self, state: State, count: int) -> list[Move]:
        """The moves with the least cost and bounds of what follows, the least first."""
        best: list[tuple[float, float, str, Move]] = []
        for quick, move in self._by_quick_bound(state):
            if len(best) == count and quick > best[-1][0]:
                break
            score = move.cost + fsum(self._lower.bound(s) for s in self._states.then(move))
            insort(best, (score, move.cost, move.action.id, move), key=lambda found: found[:3])
            del best[count:]
        return [found[3] for found in best]

    def _by_quick_bound(self, state: State) -> list[tuple[float, Move]]:
        moves = [(self._lower.quick(move), move) for move in self._states.moves(state)]
        return sorted(moves, key=lambda found: found[0])

    def greedy(self, state: State) -> float:
        """Minutes (times mass) when the first move is always made."""
        if state not in self._greedy:
            self._greedy[state] = self._follow(state)
        return self._greedy[state]

    def _follow(self, state: State) -> float:
        if self._states.last(state[0]):
            return self._lower.bound(state)
        (move,) = self._first(state, 1)
        return move.cost + fsum(self.greedy(s) for s in self._states.then(move))

    def best(self, state: State) -> tuple[float, Move | None]:
        """Minutes (times mass) and the move to make; None where only the last remedy remains."""
        if state not in self._best:
            self._best[state] = self._improve(state)
        return self._best[state]

    def _improve(self, state: State) -> tuple[float, Move | None]:
        if self._states.last(state[0]):
            return self._lower.bound(state), None
        moves = self._first(state, LOOK)
        rolled = [m.cost + fsum(self.greedy(s) for s in self._states.then(m)) for m in moves]
        move = moves[rolled.index(min(rolled))]
        return move.cost + fsum(self.best(s)[0] for s in self._states.then(move)), move
