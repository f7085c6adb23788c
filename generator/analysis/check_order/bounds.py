"""Minutes that no policy can go below, from any state.

With the tolls of the start (see `tolls`), for the hypotheses left and the parts open:

    bound = tolls of all pairs left + endings, from here, of the hypotheses left - spent claims

An *ending* from here is the least, over the actions that end the hypothesis, of what tolls leave of
the action's minutes, with what is kept of the openings that it still needs. *Spent claims* are those
on parts that are open, by actions that still tell something.

No action lowers the bound by more than it costs. Of a hypothesis that goes on, the tolls that come
off are covered by the row: the action's minutes and its claims. Its claims on parts that were open
are spent no longer, as it tells nothing more. A part that it opens takes off what is kept of that
and the claims of other actions, which with its own claim are no more than the opening. Of a
hypothesis that ends, tolls and ending are covered by the row in the same way. So, by induction over
what follows, the bound is never above the minutes of any policy.
"""

from __future__ import annotations

from math import fsum

from generator.analysis.check_order.cost import Mass
from generator.analysis.check_order.dual_prices import Tolls
from generator.analysis.check_order.states import Move, State, States


class PairTolls(dict[int, float]):
    """Tolls of all pairs in a set of hypotheses."""

    def __init__(self, tolls: Tolls) -> None:
        super().__init__({0: 0.0})
        rows = [[0.0] * tolls.size for _ in range(tolls.size)]
        for pair in tolls.pairs:
            rows[pair.other][pair.one] = pair.toll
        self._rows = [Mass(tuple(row)) for row in rows]

    def __missing__(self, left: int) -> float:
        top = left.bit_length() - 1
        rest = left ^ 1 << top
        found = self[left] = self[rest] + self._rows[top][rest]
        return found


class Lower:
    """Lower bounds on the expected minutes (times mass) from the states of a board."""

    def __init__(self, states: States) -> None:
        self.states = states
        self._board = states.board
        tolls = Tolls(self._board, [action for action, _ in states.steps(self._board.all).actions])
        self._openings = tolls.openings
        self._enders = [list(tolls.ender_minutes(h)) for h in range(tolls.size)]
        self._claims = [
            (1 << part, tolls.actions[number], Mass(tuple(claims)))
            for (number, part), claims in tolls.claims().items()
        ]
        self._tolls = PairTolls(tolls)
        self._unspent: dict[int, Mass] = {}

    def quick(self, move: Move) -> float:
        """A bound for a move that takes little to reckon: as if every action told something after it."""
        ending = self._ending(move.opened)
        return move.cost + fsum([ending[leaf] + self._tolls[leaf] for leaf in move.leaves])

    def bound(self, state: State) -> float:
        """Exact where one remedy cures all that is left."""
        left, parts = state
        last = self.states.last(left)
        if last is not None:
            return self._board.mass[left] * self._board.cost(last, parts)
        bound = self._tolls[left] + self._ending(parts)[left]
        for part, action, claims in self._claims:
            if parts & part and not action.tells(left):
                bound += claims[left]
        return bound

    def _ending(self, parts: int) -> Mass:
        """Endings with the parts open, less every claim on them."""
        found = self._unspent.get(parts)
        if found is None:
            minutes = (self._ending_of(h, parts) for h in range(len(self._enders)))
            found = self._unspent[parts] = Mass(tuple(minutes))
        return found

    def _ending_of(self, hypothesis: int, parts: int) -> float:
        kept, claimed = [], 0.0
        for opening in self._openings[hypothesis]:
            if parts >> opening.part & 1:
                claimed += fsum(opening.claims)
            else:
                kept.append((1 << opening.part, opening.kept))
        least = min(
            own + fsum([minutes for part, minutes in kept if action.parts & part])
            for action, own in self._enders[hypothesis]
        )
        return least - claimed
