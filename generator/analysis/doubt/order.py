"""The order of checks under doubt: the best policy, or the best found with a bound that holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from generator.analysis.doubt.case import Doubt
from generator.analysis.doubt.exact import Search
from generator.analysis.doubt.grow import DIGITS, Grower, Rule
from generator.analysis.doubt.known_cause import KnownCause
from generator.analysis.doubt.next_step import next_move
from generator.analysis.doubt.outlook import outlook
from generator.analysis.doubt.relaxed import certain_bound
from generator.analysis.doubt.rollout import Rollout
from generator.analysis.doubt.rules import record_order
from generator.analysis.doubt.standing import start
from generator.analysis.doubt.table import Table
from generator.analysis.doubt.written import written
from generator.analysis.policy import Node, expected_minutes

SMALL = 9
"Checks and remedies together up to which every policy is searched."
BUDGET = 20_000
"Standings expanded before the search gives up."
FOLLOWED = 0.003
"Share of the jobs down to which a policy is added up; below it the outlook stands."
WRITTEN = 0.02
"Share of the jobs down to which a policy is written out."


@dataclass(frozen=True, slots=True)
class Order:
    """A policy under doubt and what is known of it."""

    policy: Node
    expected_minutes: float
    exact: bool
    "Whether no policy takes fewer, of all that keep to the rules of the case."
    lower_bound: float
    "Minutes that no policy can go below."
    next_step_minutes: float
    "Of the plain rule of the next step: most chance for its minutes."


def order(case: Doubt | Table, budget: int = BUDGET) -> Order:
    """The policy of least expected minutes that keeps to the rules of the case.

    Searched, where checks and remedies are no more than `SMALL` together: every policy that does each
    of them at most once, what must come before before, no unproved remedy that wants a proof. Where
    there are more of them, or the search takes more than `budget` standings, the best of `rollout`, of the same
    with ties the other way, and of the rule of the next step: minutes are summed down to a share of `FOLLOWED`
    and estimated below, and the bound is the higher of `known_cause` and `relaxed`.

    >>> from generator.analysis.check_order.case import Case, Check, Hypothesis
    >>> from generator.analysis.doubt.case import plain
    >>> from generator.analysis.machine import Machine, Remedy
    >>> motor = Hypothesis("worn", ("worn",), 1, Remedy("renew:motor", minutes=40))
    >>> look = Check("look", 0.5, (), ("burnt", "clean"), {"worn": 0})
    >>> found = order(plain(Case((motor,), (look,), Machine(), 2), dear=frozenset({"renew:motor"})))
    >>> found.policy.check, [type(b.then).__name__ for b in found.policy.branches], found.exact
    ('look', ['RemedyNode', 'StopNode'], True)
    """
    table = _table(case)
    search = Search(table, budget)
    if _small(table) and search.run(start(table)):
        policy = Grower(table, search.move).policy(start(table))
        minutes = expected_minutes(policy)
        return Order(written(table, policy, start(table), WRITTEN), minutes, True, minutes, _by(next_move, table)[1])
    next_step = _by(next_move, table)
    policy, minutes = min((*_rolled(table), next_step), key=lambda way: round(way[1], DIGITS))
    bound = max(KnownCause(table).bound(start(table)), certain_bound(table.doubt))
    return Order(written(table, policy, start(table), WRITTEN), minutes, False, min(minutes, bound), next_step[1])


def price_of_caution(doubt: Doubt, found: Order) -> float:
    """Minutes that wanting proof of dear remedies adds to what the rule of the next step expects."""
    if doubt.dear <= doubt.no_sign:
        return 0.0
    careless = Table(replace(doubt, dear=frozenset(), no_sign=frozenset()))
    return found.next_step_minutes - _by(next_move, careless)[1]


def record_order_minutes(case: Doubt | Table) -> float:
    """Expected minutes of the checks as the records have them, a remedy as soon as it is likelier than not."""
    return _by(record_order, _table(case))[1]


def _table(case: Doubt | Table) -> Table:
    """The table of a case: what it has reckoned already serves again."""
    return case if isinstance(case, Table) else Table(case)


def _rolled(table: Table) -> Iterator[tuple[Node, float]]:
    """By roll-out, and where it met ties, once more with these the other way."""
    rollout = Rollout(table)
    yield _by(rollout.move, table)
    if rollout.tied:
        yield _by(rollout.last_move, table)


def _small(table: Table) -> bool:
    return len(table.checks) + len(table.remedies) <= SMALL


def _by(rule: Rule, table: Table) -> tuple[Node, float]:
    """The rule's policy and its minutes, small cases to their ends."""
    policy = Grower(table, rule, 0.0 if _small(table) else FOLLOWED, outlook).policy(start(table))
    return policy, expected_minutes(policy)
