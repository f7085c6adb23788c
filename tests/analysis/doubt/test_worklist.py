"""A policy as a list of cards: every check of it once, every outcome a row, every row a way on; and one list by hand.

Weights (motor, belt, unlisted) by Bayes' rule from 0.36, 0.54, 0.1 and trust 0.95:

- brushes worn: 0.342, 0.027, 0.005, together 0.374; brushes good: 0.018, 0.513, 0.095, together 0.626;
- then loose: 0.0009, 0.48735, 0.00475, together 0.493; or right: 0.0171, 0.02565, 0.09025, together 0.133.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import plain
from generator.analysis.doubt.order import order
from generator.analysis.doubt.standing import start
from generator.analysis.doubt.table import Table
from generator.analysis.doubt.worklist import Ending, Item, Row, Trial, Worklist, worklist
from generator.analysis.doubt.written import written
from generator.analysis.machine import Machine, Remedy
from generator.analysis.policy import (
    BeyondNode,
    Branch,
    CheckNode,
    Node,
    RemedyNode,
    StopNode,
    nodes,
    share_and_minutes,
)
from tests.analysis.doubt.doubt_by_hand import doubtful
from tests.analysis.doubt.doubt_cases import bench_doubt, small_doubt

CARDS, WORTH = 0.04, 0.1
"Four jobs in a hundred have a card; a tenth of what an outcome leaves is named."


@pytest.fixture(scope="module", params=[*range(0, 60, 3), 1001, 1002])
def asked(request):
    number = request.param
    doubt = bench_doubt(number - 1000, 10, 9) if number > 1000 else small_doubt(number)
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


def about(value: float) -> float:
    return pytest.approx(value)


CASE = doubtful().doubt.case
MOTOR, BELT = CASE.hypotheses
"With their shares as the case scales them."
STOP = StopNode(0.0662, 20.0, 0.0612, ())
RENEW, SET = RemedyNode("renew:motor", (), 39.0, 0.3078, STOP), RemedyNode("set:belt", (), 7.0, 0.0231, replace(STOP, share=0.1099))
BEYOND = BeyondNode(0.493, 9.0, "set:belt")
BELT_LOOKED_AT = CheckNode("look-belt", (), 1.0, (Branch(0, "loose", 0.493, BEYOND), Branch(1, "right", 0.133, SET)))
POLICY = CheckNode("look-motor", ("cover",), 4.5, (Branch(0, "brushes worn", 0.374, RENEW), Branch(1, "brushes good", 0.626, BELT_LOOKED_AT)))


def rows(policy: Node, *more: Check, item: int = 0) -> tuple[Row, ...]:
    """Of one card."""
    return worklist(doubtful(*more).doubt, policy).items[item].rows


def test_a_list_by_hand() -> None:
    """Both cards whole. After the look at the belt: 9 x 0.493 + 7 x 0.133 + 20 x 0.1099, and 1 itself; before it, the motor's as well.

    Without the look at the motor the belt is looked at, 1 over 0.54; without that too, brushes good, the belt is set.
    """
    belt_minutes = 0.626 + 9 * 0.493 + 7 * 0.133 + 20 * 0.1099
    motor_minutes = 4.5 + 39 * 0.374 + 20 * 0.0662 + belt_minutes
    worn = Row(
        outcome=0, says="brushes worn", share=about(0.374), unlikely=False, strange=False, left=((MOTOR, about(0.342 / 0.374)),),
        cured=False, trials=(Trial("renew:motor", (), 39.0, (MOTOR,)),), again=None, then=None, ending=Ending(STOP, None),
    )  # fmt: skip
    good = Row(
        outcome=1, says="brushes good", share=about(0.626), unlikely=False, strange=False,
        left=((BELT, about(0.513 / 0.626)), (None, about(0.095 / 0.626))), cured=False, trials=(), again=None, then=2, ending=None,
    )  # fmt: skip
    loose = Row(
        outcome=0, says="loose", share=about(0.493 / 0.626), unlikely=False, strange=False, left=((BELT, about(0.48735 / 0.493)),),
        cured=False, trials=(), again=None, then=None, ending=Ending(None, BEYOND),
    )  # fmt: skip
    right = Row(
        outcome=1, says="right", share=about(0.133 / 0.626), unlikely=False, strange=False,
        left=((None, about(0.09025 / 0.133)), (BELT, about(0.02565 / 0.133)), (MOTOR, about(0.0171 / 0.133))), cured=False,
        trials=(Trial("set:belt", (), 7.0, (BELT,)),), again=None, then=None, ending=Ending(SET.otherwise, None),
    )  # fmt: skip
    assert worklist(doubtful().doubt, POLICY) == Worklist((), (
        Item(1, "look-motor", ("cover",), 4.5, about(1), about(motor_minutes), frozenset(), (worn, good), "look-belt"),
        Item(2, "look-belt", (), 1.0, about(0.626), about(belt_minutes / 0.626), frozenset({"cover"}), (loose, right), "set:belt"),
    ))  # fmt: skip


def test_a_remedy_before_the_first_check_is_no_card_and_leaves_its_parts_open() -> None:
    found = worklist(doubtful().doubt, RemedyNode("renew:motor", ("cover",), 43.0, 0.324, BELT_LOOKED_AT))
    assert found.trials == (Trial("renew:motor", ("cover",), 43.0, (MOTOR,)),)
    assert [(i.number, i.open_parts, round(i.share, 9)) for i in found.items] == [(1, {"cover"}, 0.676)]


def test_few_jobs_have_no_card() -> None:
    """Four in a hundred have one, and fewer are named by their next step."""
    for share, cards in ((0.04, 2), (0.039, 1)):
        few = CheckNode("look-belt", (), 1.0, (Branch(0, "loose", share, None),))
        found = worklist(doubtful().doubt, CheckNode("look-motor", (), 4.5, (Branch(0, "brushes worn", 0.96, None), Branch(1, "brushes good", share, few))))
        assert len(found.items) == cards


def test_what_no_listed_cause_shows_nor_a_sound_machine_is_strange_and_a_trial_that_cures_ends_the_job() -> None:
    odd = Check("listen", 1, (), ("knocks", "hums", "silent"), {"motor-worn": 1, "belt-loose": 1})
    node = CheckNode("listen", (), 1.0, tuple(Branch(n, says, 1 / 3, STOP) for n, says in enumerate(odd.outcomes)))
    assert [r.strange for r in rows(node, odd)] == [True, False, False]
    trial = Check("tighten", 1.5, (), ("cured", "still there"), {"motor-worn": 1, "belt-loose": 0}, frozenset({0}))
    node = CheckNode("tighten", (), 1.5, (Branch(0, "cured", 0.513, None), Branch(1, "still there", 0.487, STOP)))
    assert [(r.cured, r.ending) for r in rows(node, trial)] == [(True, None), (False, Ending(STOP, None))]


def again(check: str, outcome: int, then: Node, unlikely: bool = True, first: tuple[str, int] | None = None) -> Trial | None:
    """What a card says of looking again at one outcome, on the first card or after another."""
    node = CheckNode(check, (), 1.0, (Branch(outcome, "seen", 1.0, then, unlikely),))
    if first:
        node = CheckNode(first[0], (), 1.0, (Branch(first[1], "seen", 1.0, node),))
    return worklist(doubtful().doubt, node).items[-1].rows[0].again


def test_an_unlikely_outcome_is_looked_at_again_and_its_own_remedy_follows_where_it_stands() -> None:
    """Twice loose: 0.0009, 0.48735, 0.00025; the belt is 7 over nearly 1. Twice worn: the motor, cover off, is 39 over nearly 1."""
    assert again("look-belt", 0, STOP) == Trial("set:belt", (), 7.0, (BELT,))
    assert again("look-motor", 0, STOP) == Trial("renew:motor", (), 39.0, (MOTOR,))


def test_what_is_likely_or_has_its_remedy_already_is_not_looked_at_again() -> None:
    assert again("look-belt", 0, STOP, unlikely=False) is None
    assert again("look-belt", 0, SET) is None


def test_where_a_second_look_leads_to_something_else_than_what_it_shows_none_is_told() -> None:
    """Twice right: the motor is looked at next. Right and then twice good: the belt is set, 7 over 0.22, but good is no sign of it."""
    assert again("look-belt", 1, STOP) is None
    assert again("look-motor", 1, STOP, first=("look-belt", 1)) is None


def weighed(*weights: float, unlisted: float) -> tuple[tuple[str, float], ...]:
    """What a look that tells nothing leaves, of causes c, b, a in this order; all of them have one remedy."""
    told = tuple(Hypothesis(i, (i,), w, Remedy("mend", minutes=3)) for i, w in zip("cba", weights, strict=True))
    look = Check("look", 1, (), ("other", "same"), dict.fromkeys("cba", 1))
    doubt = plain(Case(told, (look,), Machine(), 2), 1.0, unlisted=unlisted)
    node = CheckNode("look", (), 1.0, (Branch(1, "same", 1.0, RemedyNode("mend", (), 5.0, 1.0, None)),))
    (row,) = worklist(doubt, node).items[0].rows
    assert [h.id for h in row.trials[0].cures] == [i for _, i in sorted(zip(weights, "cba"), key=lambda c: -c[0])]
    return tuple((h.id if h else "", share) for h, share in row.left)


def test_what_is_left_is_told_likeliest_first_and_from_a_tenth_on_and_ties_go_by_id() -> None:
    """Of equal shares something else comes first. What a remedy cures is told likeliest first, ties as they stand."""
    assert weighed(2, 1, 1, unlisted=0.0) == (("c", 0.5), ("a", 0.25), ("b", 0.25))
    assert weighed(1, 1, 2, unlisted=0.5) == (("", 0.5), ("a", 0.25), ("b", 0.125), ("c", 0.125))
    assert weighed(1, 1, 2, unlisted=0.2) == (("a", 0.4), ("", 0.2), ("b", 0.2), ("c", 0.2))
    assert weighed(1, 1, 8, unlisted=0.0) == (("a", 0.8), ("b", 0.1), ("c", 0.1))
    assert weighed(1, 1, 8, unlisted=0.01) == (("a", about(0.792)),)
