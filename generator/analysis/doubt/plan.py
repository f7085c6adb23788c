"""The order of checks under doubt: the best policy, or the best found with a bound that holds."""

from __future__ import annotations

from dataclasses import dataclass, replace

from generator.analysis.doubt.case import Doubt
from generator.analysis.doubt.exact import Search
from generator.analysis.doubt.grow import Grower
from generator.analysis.doubt.known_cause import KnownCause
from generator.analysis.doubt.next_step import next_move
from generator.analysis.doubt.outlook import outlook
from generator.analysis.doubt.policy import Node, cut, expected_minutes
from generator.analysis.doubt.relaxed import certain_bound
from generator.analysis.doubt.rollout import Rollout
from generator.analysis.doubt.standing import start
from generator.analysis.doubt.table import Table

SMALL = 9
"Checks and remedies together up to which every policy is searched."
BUDGET = 20_000
"Standings expanded before the search gives up."
FOLLOWED = 0.001
"Share of the jobs down to which a policy is added up; below it the outlook stands."
WRITTEN = 0.01
"Share of the jobs down to which a policy is written out."


@dataclass(frozen=True, slots=True)
class Plan:
    """A policy under doubt and what is known of it."""

    policy: Node
    expected_minutes: float
    exact: bool
    "Whether no policy takes fewer, of all that keep to the rules of the case."
    lower_bound: float
    "Minutes that no policy can go below."
    standings: int
    "Standings expanded."


def plan(doubt: Doubt, budget: int = BUDGET) -> Plan:
    """The policy of least expected minutes that keeps to the rules of the case.

    Searched, where checks and remedies are no more than `SMALL` together: every policy that does each
    of them at most once, what must come before before, no unproved remedy that wants a proof. Where
    there are more of them, or the search takes more than `budget` standings, the policy of `rollout`:
    its minutes are summed down to a share of `FOLLOWED` and estimated below, and the bound is the
    higher of `known_cause` and `relaxed`.

    >>> from generator.analysis.check_order.case import Case, Check, Hypothesis
    >>> from generator.analysis.doubt.case import plain
    >>> from generator.analysis.machine import Machine, Remedy
    >>> motor = Hypothesis("worn", ("worn",), 1, Remedy("renew:motor", minutes=40))
    >>> look = Check("look", 0.5, (), ("burnt", "clean"), {"worn": 0})
    >>> found = plan(plain(Case((motor,), (look,), Machine(), 2), dear=frozenset({"renew:motor"})))
    >>> found.policy.check, [type(b.then).__name__ for b in found.policy.branches], found.exact
    ('look', ['RemedyNode', 'StopNode'], True)
    """
    table = Table(doubt)
    search = Search(table, budget)
    if len(table.checks) + len(table.remedies) <= SMALL and search.run(start(table)):
        policy = Grower(table, search.move).policy(start(table))
        minutes = expected_minutes(policy)
        return Plan(cut(policy, WRITTEN), minutes, True, minutes, search.expanded)
    rollout = Rollout(table)
    policy = Grower(table, rollout.move, FOLLOWED, outlook).policy(start(table))
    minutes = expected_minutes(policy)
    bound = max(KnownCause(table).bound(start(table)), certain_bound(doubt))
    return Plan(cut(policy, WRITTEN), minutes, False, min(minutes, bound), search.expanded)


def price_of_caution(doubt: Doubt) -> float:
    """Minutes that wanting proof of dear remedies adds to what the next step's rule expects."""
    if doubt.dear <= doubt.no_sign:
        return 0.0
    return _by_next_step(doubt) - _by_next_step(replace(doubt, dear=frozenset(), no_sign=frozenset()))


def _by_next_step(doubt: Doubt) -> float:
    table = Table(doubt)
    return expected_minutes(Grower(table, next_move, FOLLOWED, outlook).policy(start(table)))
