"""A good policy without search: look one step ahead, follow the few best steps to their end."""

from __future__ import annotations

from generator.analysis.check_order.bounds import Lower
from generator.analysis.check_order.states import Move, State

LOOK = 5
"Steps followed to their end from each state."


class Rollout:
    """Policies by one-step look-ahead on lower bounds, made better by one round of roll-out."""

    def __init__(self, lower: Lower) -> None:
        self._lower = lower
        self._states = lower.states
        self._greedy: dict[State, float] = {}
        self._best: dict[State, tuple[float, Move | None]] = {}

    def ranked(self, state: State) -> list[tuple[float, Move]]:
        """Moves with their cost and the bounds of what follows, the least first."""
        moves = self._states.moves(state)
        scored = [(m.cost + sum(self._lower.bound(s) for s in m.then), m) for m in moves]
        return sorted(scored, key=lambda found: (found[0], found[1].cost, found[1].action.id))

    def greedy(self, state: State) -> float:
        """Minutes (times mass) when the first move of the ranking is always made."""
        if state not in self._greedy:
            self._greedy[state] = self._follow(state)
        return self._greedy[state]

    def _follow(self, state: State) -> float:
        if self._states.remedy_that_ends(state[0]):
            return self._lower.bound(state)
        move = self.ranked(state)[0][1]
        return move.cost + sum(self.greedy(s) for s in move.then)

    def best(self, state: State) -> tuple[float, Move | None]:
        """Minutes (times mass) and the move to make; None where only the last remedy remains."""
        if state not in self._best:
            self._best[state] = self._improve(state)
        return self._best[state]

    def _improve(self, state: State) -> tuple[float, Move | None]:
        if self._states.remedy_that_ends(state[0]):
            return self._lower.bound(state), None
        moves = [move for _, move in self.ranked(state)[:LOOK]]
        ends = [(m.cost + sum(self.greedy(s) for s in m.then), n) for n, m in enumerate(moves)]
        move = moves[min(ends)[1]]
        return move.cost + sum(self.best(s)[0] for s in move.then), move
