"""Minutes that no policy can go below, from any state.

Three sums that cannot overlap, each over the hypotheses left:

*endings*: a hypothesis ends in a remedy or a trial that cures it, whose minutes and openings from
here it pays at least once;

*partings*: before it ends, it pays for what tells it from others. Give each pair of hypotheses
that must part a toll. When no action, done with any of the hypotheses left, takes more tolls off
than it costs those who do not end in it, the sum of all tolls is a lower bound (by induction over
the policy). With tolls w(g) w(h) rate, the most that an action may take off a pair is its
minutes x mass that does not end / sum of w(g) w(h) over the pairs that it parts: this rate only
rises as fewer hypotheses are left. For independent remedies it is exact: the p / c rule of Kadane
and Simon (1977), sum over pairs of min(w(g) c(h), w(h) c(g));

*openings*: hypotheses which nothing tells apart without opening something pay the least of what
must be opened to go on, but for parts that their own ending opens anyway.
"""

from __future__ import annotations

from collections.abc import Iterable

from generator.analysis.check_order.cost import Action, Mass
from generator.analysis.check_order.states import Move, State, States


class Lower:
    """Lower bounds on the expected minutes (times mass) from the states of a board."""

    def __init__(self, states: States) -> None:
        self.states = states
        self._board = states.board
        bits = range(len(self._board.groups))
        self._enders = [[a for a in self._board.actions if a.ends >> h & 1] for h in bits]
        self._foreign = _foreign(self._enders, len(self._board.opening.weights))
        self._alike = _alike(self._board.actions)
        self._endings: dict[int, Mass] = {}
        self._partings: dict[int, float] = {}

    def quick(self, move: Move) -> float:
        """A bound for a move that takes little to reckon: its cost and the endings after it."""
        ending = self._ending(move.opened)
        return move.cost + sum(ending[leaf] for leaf in move.leaves)

    def bound(self, state: State) -> float:
        """The sum of the three; exact where one remedy cures all that is left."""
        left, parts = state
        last = self.states.last(left)
        if last is not None:
            return self._board.mass[left] * self._board.cost(last, parts)
        return self._ending(parts)[left] + self._parting(left) + self._opening(left, parts)

    def _ending(self, parts: int) -> Mass:
        """Least minutes of what ends each hypothesis, times its mass, to be added up."""
        found = self._endings.get(parts)
        if found is None:
            least = (min(self._board.cost(a, parts) for a in enders) for enders in self._enders)
            weights = zip(self._board.mass.weights, least)
            found = self._endings[parts] = Mass(tuple(w * minutes for w, minutes in weights))
        return found

    def _parting(self, left: int) -> float:
        """Tolls of all pairs: the least rate among the actions that part them, times w(g) w(h)."""
        found = self._partings.get(left)
        if found is None:
            alike = [both for a in self._alike if (both := a & left) & (both - 1)]
            cells, found = [left], 0.0
            for rate, _, sets in sorted(self._rates(left)):
                found += rate * sum(self._parted(cell, sets, alike) for cell in cells)
                cells = _refine(cells, sets)
                if not cells:
                    break
            self._partings[left] = found
        return found

    def _rates(self, left: int) -> list[tuple[float, int, tuple[int, ...]]]:
        """The inner loop of the search: plain loops, which run twice as fast as sums of generators."""
        mass = self._board.mass
        rates = []
        for order, (action, leaves) in enumerate(self.states.steps(left).actions):
            going = pairs = 0.0
            for part in leaves:
                weight = mass[part]
                pairs += going * weight
                going += weight
            ends = action.ends & left
            if ends:
                pairs += mass[ends] * going
                leaves = (*leaves, ends)
            if pairs > 0:
                rates.append((going * action.minutes / pairs, order, leaves))
        return rates

    def _parted(self, cell: int, sets: tuple[int, ...], alike: list[int]) -> float:
        """Sum of w(g) w(h) over pairs in a cell that the sets part, but for pairs ended alike."""
        parts = [part for s in sets if (part := cell & s)]
        if len(parts) < 2:
            return 0.0
        mass = self._board.mass
        before = pairs = 0.0
        for part in parts:
            weight = mass[part]
            pairs += before * weight
            before += weight
        for a in alike:
            if a & cell:
                pairs -= _pairs([mass[part & a] for part in parts])
        return max(pairs, 0.0)

    def _opening(self, left: int, parts: int) -> float:
        cells, shut = [left], []
        for action, leaves in self.states.steps(left).actions:
            if action.parts & ~parts:
                shut.append(action)
            else:
                cells = _refine(cells, leaves)
                if not cells:
                    return 0.0
        return sum(self._least_opening(cell, shut, parts) for cell in cells)

    def _least_opening(self, cell: int, shut: list[Action], parts: int) -> float:
        least = float("inf")
        for action in shut:
            if action.tells(cell):
                to_open = action.parts & ~parts
                least = min(least, self._foreign_opening(cell, to_open))
                if not least:
                    break
        return least

    def _foreign_opening(self, cell: int, to_open: int) -> float:
        """Minutes times mass of opening parts for hypotheses whose ending does not open them."""
        opening, mass = self._board.opening.weights, self._board.mass
        return sum(
            minutes * mass[cell & self._foreign[part]]
            for part, minutes in enumerate(opening)
            if to_open >> part & 1
        )


def _foreign(enders: list[list[Action]], parts: int) -> list[int]:
    """For each part, the hypotheses for which nothing that ends them needs it."""
    return [
        sum(1 << h for h, ends in enumerate(enders) if not any(a.parts >> part & 1 for a in ends))
        for part in range(parts)
    ]


def _alike(actions: tuple[Action, ...]) -> list[int]:
    """The largest sets of two or more hypotheses that one action ends: they need not part."""
    sets = {a.ends for a in actions if a.ends & (a.ends - 1)}
    return sorted(s for s in sets if not any(s != other and not s & ~other for other in sets))


def _pairs(masses: Iterable[float]) -> float:
    """Sum of the products of all pairs."""
    before = pairs = 0.0
    for mass in masses:
        pairs += before * mass
        before += mass
    return pairs


def _refine(cells: list[int], sets: tuple[int, ...]) -> list[int]:
    """Cells cut by the sets, without those of one hypothesis."""
    return [cut for cell in cells for s in sets if (cut := cell & s) & (cut - 1)]
