"""What may be done from a state: hypotheses left and parts open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from generator.analysis.check_order.cost import Action, Board

State = tuple[int, int]
"Hypotheses left and parts open, in bits; only parts that still matter."
Step = tuple[Action, tuple[int, ...]]
"An action, and the sets of hypotheses that it may leave."


@dataclass(frozen=True, slots=True)
class Steps:
    """The actions worth doing while the same hypotheses are left, whatever is open."""

    actions: tuple[Step, ...]
    "Remedies by id, then checks by id."
    parts: int
    "Parts that any of them needs: what else is open no longer matters."


@dataclass(frozen=True, slots=True)
class Move:
    """One action from one state."""

    left: int
    "Hypotheses left before it."
    cost: float
    "Minutes times the mass of the hypotheses left."
    action: Action
    leaves: tuple[int, ...]
    "Sets of hypotheses that may be left after it."
    opened: int
    "Parts open after it."


class States:
    """The graph of states of a board."""

    def __init__(self, board: Board) -> None:
        self.board = board
        first = tuple((action, action.classes) for action in board.actions)
        self._steps: dict[int, Steps] = {board.all: _steps(first, board.all)}
        self._last: dict[int, Action | None] = {}
        self._moves: dict[State, tuple[Move, ...]] = {}

    def start(self) -> State:
        """Every hypothesis left; what is open already is no longer on the board."""
        return self.board.all, 0

    def steps(self, left: int) -> Steps:
        """Actions that tell, but for those that another one makes pointless."""
        found = self._steps.get(left)
        if found is None:
            found = self._steps[left] = _steps(self._steps[self.board.all].actions, left)
        return found

    def last(self, left: int) -> Action | None:
        """The one remedy that cures all that is left, if there is one: checking stops there."""
        if left not in self._last:
            remedies = (a for a in self.board.actions if a.is_remedy)
            self._last[left] = next((r for r in remedies if not left & ~r.ends), None)
        return self._last[left]

    def moves(self, state: State) -> tuple[Move, ...]:
        """Every action worth doing from here."""
        found = self._moves.get(state)
        if found is None:
            found = self._moves[state] = tuple(self._moves_from(*state))
        return found

    def _moves_from(self, left: int, parts: int) -> Iterator[Move]:
        mass = self.board.mass[left]
        for action, leaves in self.steps(left).actions:
            cost = mass * self.board.cost(action, parts)
            yield Move(left, cost, action, leaves, parts | action.parts)

    def then(self, move: Move) -> list[State]:
        """The states that a move may lead to, with only the open parts that still matter."""
        states = []
        for leaf in move.leaves:
            steps = self._steps.get(leaf)
            if steps is None:
                steps = self._steps[leaf] = _steps(self.steps(move.left).actions, leaf)
            states.append((leaf, move.opened & steps.parts))
        return states


def _steps(wider: Iterable[Step], left: int) -> Steps:
    """Steps of a set of hypotheses, from the steps of a set that holds it."""
    rivals: dict[tuple[int, ...], list[Action]] = {}
    parts = 0
    for action, classes in wider:
        leaves = [leaf for c in classes if (leaf := c & left)]
        if leaves and leaves[0] == left:
            continue
        leaves.sort()
        same = rivals.get(key := tuple(leaves))
        if same is None:
            rivals[key] = [action]
        elif not any(_no_dearer(rival, action) for rival in same):
            same[:] = [rival for rival in same if not _no_dearer(action, rival)]
            same.append(action)
    actions = [(action, leaves) for leaves, same in rivals.items() for action in same]
    actions.sort(key=_order)
    for action, _ in actions:
        parts |= action.parts
    return Steps(tuple(actions), parts)


def _order(step: Step) -> tuple[bool, str]:
    return not step[0].is_remedy, step[0].id


def _no_dearer(one: Action, other: Action) -> bool:
    """Whether `one`, which leaves the same sets, makes `other` pointless in every state.

    A remedy is never pointless: it must be done where it alone remains, whatever trial is cheaper.
    """
    return (
        not other.is_remedy
        and one.minutes <= other.minutes
        and not one.parts & ~other.parts
    )
