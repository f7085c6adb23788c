"""The best policy for a case, or a good one with a proven bound."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.analysis.check_order.bounds import Lower
from generator.analysis.check_order.case import Case, Check
from generator.analysis.check_order.cost import Action, Board, board
from generator.analysis.check_order.exact import Search
from generator.analysis.check_order.heuristic import Rollout
from generator.analysis.check_order.policy import grow
from generator.analysis.check_order.rules import PLAIN_RULES
from generator.analysis.check_order.situation import Situation
from generator.analysis.check_order.states import State, States
from generator.analysis.machine import Remedy
from generator.analysis.policy import Node, expected_minutes

BUDGET = 4000
"States expanded before the search gives up."


@dataclass(frozen=True, slots=True)
class Solution:
    """A policy and what is proven of it."""

    policy: Node
    expected_minutes: float
    exact: bool
    "Whether no policy takes fewer expected minutes."
    lower_bound: float
    "Minutes that no policy can go below."
    states: int
    "States expanded."


def solve(case: Case, budget: int = BUDGET) -> Solution:
    """The policy of least expected minutes from a closed machine.

    AND-OR branch and bound with memory, over hypotheses left and parts open. Where more than
    `budget` states would be expanded, the best policy found, and a proven lower bound.

    >>> from generator.analysis.check_order.case import Hypothesis
    >>> from generator.analysis.machine import Machine
    >>> needle = Hypothesis("dull", ("dull",), 0.6, Remedy("renew-needle", minutes=1))
    >>> timing = Hypothesis("late", ("late",), 0.4, Remedy("set-timing", minutes=20))
    >>> look = Check("look", 1, (), ("point dull", "point sharp"), {"dull": 0, "late": 1})
    >>> solution = solve(Case((needle, timing), (look,), Machine(), 2))
    >>> solution.policy.check, round(solution.expected_minutes, 9), solution.exact
    ('look', 11.6, True)
    """
    return solve_from(case, [h.id for h in case.hypotheses], (), budget)


def solve_from(
    case: Case, left: Iterable[str], open_parts: Iterable[str], budget: int = BUDGET
) -> Solution:
    """The same with only the hypotheses in `left` (ids), shares scaled again, and parts open.

    Raises ValueError for an unknown id or nothing left.
    """
    opened = frozenset(open_parts)
    solver = _Solver(case, board(case, left, opened), budget)
    kept = tuple(h for group in solver.board.groups for h in group)
    kept = tuple(h for h in case.hypotheses if h in kept)
    return solver.solution(Situation(case, kept, opened))


class _Solver:
    """The stages of one solution."""

    def __init__(self, case: Case, bits: Board, budget: int) -> None:
        self.board = bits
        self._states = States(bits)
        self._lower = Lower(self._states)
        self._rollout = Rollout(self._lower)
        self._search = Search(self._lower, budget)
        self._remedies = {h.remedy.id: h.remedy for h in case.hypotheses}
        self._checks = {c.id: c for c in case.checks}

    def solution(self, start: Situation) -> Solution:
        """Search, then write the policy out."""
        exact = self._search.run(self._rollout.best(self._states.start())[0])
        rules = (self._rule,) if exact else (self._rule, *PLAIN_RULES)
        policy = min((grow(start, rule) for rule in rules), key=expected_minutes)
        minutes = expected_minutes(policy)
        bound = min(self._search.bound(self._states.start()), minutes)
        return Solution(policy, minutes, exact, bound, self._search.expanded)

    def _rule(self, now: Situation) -> Check | Remedy:
        action = self._action(self._state(now))
        return (self._remedies if action.is_remedy else self._checks)[action.id]

    def _action(self, state: State) -> Action:
        move = self._search.solved.get(state) or self._rollout.best(state)[1]
        assert move is not None
        return move.action

    def _state(self, now: Situation) -> State:
        ids = {h.id for h in now.left}
        left = sum(1 << bit for bit, group in enumerate(self.board.groups) if group[0].id in ids)
        parts = sum({self.board.parts[p] for p in now.open_parts if p in self.board.parts})
        return left, parts & self._states.steps(left).parts
