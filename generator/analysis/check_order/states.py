"""What may be done from a state: hypotheses left and parts open."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.check_order.cost import Action, Board

State = tuple[int, int]
"Hypotheses left and parts open, in bits; only parts that still matter."


@dataclass(frozen=True, slots=True)
class Steps:
    """The actions worth doing while the same hypotheses are left, whatever is open."""

    actions: tuple[tuple[Action, tuple[int, ...]], ...]
    "Each with the sets of hypotheses that it may leave."
    parts: int
    "Parts that any of them needs: what else is open no longer matters."


@dataclass(frozen=True, slots=True)
class Move:
    """One action from one state."""

    cost: float
    "Minutes times the mass of the hypotheses left."
    action: Action
    then: tuple[State, ...]


class States:
    """The graph of states of a board."""

    def __init__(self, board: Board) -> None:
        self.board = board
        self._steps: dict[int, Steps] = {}
        self._moves: dict[State, tuple[Move, ...]] = {}

    def start(self) -> State:
        """Every hypothesis left; what is open already is no longer on the board."""
        return self.board.all, 0

    def steps(self, left: int) -> Steps:
        """Actions that tell, without those that another one makes pointless."""
        found = self._steps.get(left)
        if found is None:
            found = self._steps[left] = _steps(self.board, left)
        return found

    def state(self, left: int, open_parts: int) -> State:
        """The state with only the open parts that still matter."""
        return left, open_parts & self.steps(left).parts

    def remedy_that_ends(self, left: int) -> Action | None:
        """The one remedy that cures all that is left, if there is one: checking stops there."""
        for action in self.board.actions:
            if action.is_remedy and not left & ~action.ends:
                return action
        return None

    def moves(self, state: State) -> tuple[Move, ...]:
        """Every action worth doing from here, remedies by id, then checks by id."""
        found = self._moves.get(state)
        if found is None:
            left, parts = state
            actions = self.steps(left).actions
            found = self._moves[state] = tuple(self._move(left, parts, *a) for a in actions)
        return found

    def _move(self, left: int, parts: int, action: Action, leaves: tuple[int, ...]) -> Move:
        cost = self.board.mass[left] * self.board.cost(action, parts)
        opened = parts | action.parts
        return Move(cost, action, tuple(self.state(part, opened) for part in leaves))


def _steps(board: Board, left: int) -> Steps:
    kept: dict[tuple[int, ...], list[Action]] = {}
    for action in board.actions:
        if action.tells(left):
            leaves = sorted(c & left for c in action.classes if c & left)
            rivals = kept.setdefault(tuple(leaves), [])
            if not any(_no_dearer(rival, action) for rival in rivals):
                rivals[:] = [r for r in rivals if not _no_dearer(action, r)] + [action]
    actions = [(a, leaves) for leaves, rivals in kept.items() for a in rivals]
    parts = 0
    for action, _ in actions:
        parts |= action.parts
    return Steps(tuple(sorted(actions, key=lambda a: (not a[0].is_remedy, a[0].id))), parts)


def _no_dearer(one: Action, other: Action) -> bool:
    """Whether `one`, which leaves the same sets, makes `other` pointless in every state.

    A remedy is never pointless: it must be done where it alone remains, whatever trial is cheaper.
    """
    return (
        not other.is_remedy
        and one.minutes <= other.minutes
        and not one.parts & ~other.parts
    )
