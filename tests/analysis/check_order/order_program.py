"""A linear program that no policy can go below, solved by scipy (HiGHS).

Written from the rules of counting alone. Every hypothesis is done with some actions and pays for
their minutes, and for the parts that they need, each part once. One of the actions ends it; and for
every pair of hypotheses some action is done with both and shows the one or the other something
else, or ends the job for one of them. Any policy does all that.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from scipy.optimize import linprog
from scipy.sparse import csr_array

from generator.analysis.check_order.case import Case, Hypothesis
from tests.analysis.check_order.order_brute_force import off, remedy_parts


class Action(NamedTuple):
    minutes: float
    parts: set[str]
    shows: dict[str, int | str]
    "By hypothesis; where the job ends, its own id."

    def ends(self, hypothesis: str) -> bool:
        return self.shows[hypothesis] == hypothesis


class Program:
    """Costs of variables, and rows that say: the sum of the factors is at least so much."""

    def __init__(self) -> None:
        self.numbers: dict[tuple, int] = {}
        self.costs: list[float] = []
        self.rows: list[tuple[dict[int, float], float]] = []

    def variable(self, *name: object, cost: float = 0.0) -> int:
        if name not in self.numbers:
            self.numbers[name] = len(self.costs)
            self.costs.append(cost)
        return self.numbers[name]

    def at_least(self, factors: dict[int, float], floor: float = 0.0) -> None:
        self.rows.append((factors, floor))

    def least(self) -> float:
        cells = [(-f, n, v) for n, (row, _) in enumerate(self.rows) for v, f in row.items()]
        values, rows, columns = zip(*cells)
        matrix = csr_array((values, (rows, columns)), shape=(len(self.rows), len(self.costs)))
        solved = linprog(self.costs, A_ub=matrix, b_ub=[-floor for _, floor in self.rows], method="highs")
        assert solved.success
        return solved.fun


def program_minutes(case: Case) -> float:
    """The least cost, which is never above the expected minutes of a policy."""
    program, actions = Program(), list(_actions(case))
    for hypothesis in case.hypotheses:
        _end(program, actions, hypothesis, case)
    for one, other in combinations(case.hypotheses, 2):
        _part(program, actions, one.id, other.id)
    return program.least()


def _actions(case: Case) -> Iterator[Action]:
    for remedy in {h.remedy.id: h.remedy for h in case.hypotheses}.values():
        parts, settings = remedy_parts(case.machine, remedy)
        made = sum(case.machine.settings[s].minutes for s in settings)
        shows = {h.id: h.id if h.remedy.id == remedy.id else -1 for h in case.hypotheses}
        yield Action(made + remedy.minutes + case.proving_minutes, parts, shows)
    for check in case.checks:
        shows = {h: h if outcome in check.cured else outcome for h, outcome in check.sees.items()}
        yield Action(check.minutes, off(case.machine, set(check.reach)), shows)


def _end(program: Program, actions: list[Action], hypothesis: Hypothesis, case: Case) -> None:
    h, share = hypothesis.id, hypothesis.share
    done = [program.variable(n, h, cost=a.minutes * share) for n, a in enumerate(actions)]
    program.at_least({done[n]: 1.0 for n, a in enumerate(actions) if a.ends(h)}, 1.0)
    for part in case.machine.parts.values():
        users = [n for n, a in enumerate(actions) if part.id in a.parts]
        opened = program.variable(part.id, h, cost=share * (part.off_minutes + part.on_minutes))
        for n in users:
            if not actions[n].ends(h):
                program.at_least({opened: 1.0, done[n]: -1.0})
        program.at_least({opened: 1.0} | {done[n]: -1.0 for n in users if actions[n].ends(h)})


def _part(program: Program, actions: list[Action], one: str, other: str) -> None:
    parting = [n for n, a in enumerate(actions) if a.shows[one] != a.shows[other]]
    for n in parting:
        parted = program.variable(n, one, other)
        program.at_least({program.variable(n, one): 1.0, parted: -1.0})
        program.at_least({program.variable(n, other): 1.0, parted: -1.0})
    program.at_least({program.variable(n, one, other): 1.0 for n in parting}, 1.0)
