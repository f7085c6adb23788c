"""A policy as a list of cards: every check of it once, every outcome a row, every row a way on."""

from __future__ import annotations

import pytest

from generator.analysis.doubt.order import order
from generator.analysis.doubt.standing import start
from generator.analysis.doubt.table import Table
from generator.analysis.doubt.worklist import CARDS, WORTH, Worklist, worklist
from generator.analysis.doubt.written import written
from generator.analysis.policy import CheckNode, RemedyNode, nodes, share_and_minutes
from tests.analysis.doubt.doubt_cases import bench_doubt, small_doubt


@pytest.fixture(scope="module", params=[*range(0, 60, 3), 1001, 1002])
def asked(request):
    number = request.param
    doubt = bench_doubt(number - 1000, 16, 14) if number > 1000 else small_doubt(number)
    policy, table = order(doubt).policy, Table(doubt)
    return doubt, written(table, policy, start(table), CARDS), worklist(doubt, policy)


def test_every_check_of_the_policy_is_a_card_with_its_minutes_still_to_expect(asked) -> None:
    _, policy, found = asked
    checks = [n for n in nodes(policy) if isinstance(n, CheckNode)]
    assert sorted(i.check for i in found.items) == sorted(n.check for n in checks)
    assert [i.number for i in found.items] == list(range(1, len(checks) + 1))
    told = sorted((i.check, round(i.share, 9), round(i.expected * i.share, 6)) for i in found.items)
    assert told == sorted((n.check, round((s := share_and_minutes(n))[0], 9), round(s[1], 6)) for n in checks)


def test_no_row_is_dropped_and_each_leads_on(asked) -> None:
    doubt, _, found = asked
    outcomes = {c.id: c.outcomes for c in doubt.case.checks}
    for item in found.items:
        assert sum(r.share for r in item.rows) == pytest.approx(1)
        possible = [n for n in range(len(outcomes[item.check])) if n in {r.outcome for r in item.rows} or _can_be(doubt, item.check, n)]
        assert [r.outcome for r in item.rows] == possible
        for row in item.rows:
            assert row.cured or row.then or row.ending
            assert all(share >= WORTH for _, share in row.left)
        assert item.instead != item.check


def _can_be(doubt, check_id: str, outcome: int) -> bool:
    """Whether doubt leaves an outcome any chance whatever is wrong: with every trust below 1 it does."""
    check = next(c for c in doubt.case.checks if c.id == check_id)
    return outcome not in check.cured and all(t < 1 for t in doubt.readings[check_id].trust)


def test_the_likeliest_line_of_answers_is_numbered_without_a_gap(asked) -> None:
    _, _, found = asked
    for item in found.items:
        likeliest = max(item.rows, key=lambda r: (r.share, -r.outcome))
        assert likeliest.then in (None, item.number + 1)


def test_remedies_of_the_policy_are_told_once_each_where_they_stand(asked) -> None:
    _, policy, found = asked
    told = [t.remedy for t in _trials(found)]
    assert sorted(told) == sorted(n.remedy for n in nodes(policy) if isinstance(n, RemedyNode))


def _trials(found: Worklist):
    yield from found.trials
    for item in found.items:
        for row in item.rows:
            yield from row.trials
