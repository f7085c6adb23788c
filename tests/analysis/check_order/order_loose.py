"""Bounds that know next to nothing, so that what is found without their help can be seen."""

from __future__ import annotations

from generator.analysis.check_order.bounds import Lower
from generator.analysis.check_order.states import Move, State


class Loose(Lower):
    """Lower bounds on the expected minutes (times mass): nothing, but where one remedy cures all that is left."""

    def quick(self, move: Move) -> float:
        """What the move itself costs."""
        return move.cost

    def bound(self, state: State) -> float:
        """Exact where one remedy cures all that is left."""
        return super().bound(state) if self.states.last(state[0]) else 0.0
