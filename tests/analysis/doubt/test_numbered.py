"""A case in numbers: every row worked out by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.analysis.doubt.case import Reading
from generator.analysis.doubt.numbered import chance
from generator.analysis.doubt.table import Table
from tests.analysis.doubt.doubt_brute_force import seen
from tests.analysis.doubt.doubt_cases import small_doubt
from tests.analysis.doubt.doubt_rows import BLOW, DOUBT, IDS, LISTEN, LOOK, TABLE, TURN, check


def test_causes_have_four_fifths_of_their_shares_and_the_unlisted_one_the_rest() -> None:
    assert TABLE.prior == pytest.approx((0.16, 0.24, 0.32, 0.08, 0.2))
    assert (TABLE.unlisted, TABLE.remedy_of) == (4, (0, 1, 1, 2))
    assert sum(TABLE.prior) == pytest.approx(1)


def test_remedies_take_their_settings_their_own_minutes_and_a_proving_sew() -> None:
    """Motor 30 + 2, timing 20 + 2, hook 5 + 2. To listen is the motor's sign; to turn, the timing's; to blow cures, and so shows none."""
    motor, timing, hook = TABLE.remedies
    assert (motor.id, motor.minutes, motor.parts, motor.causes, motor.proofs) == ("renew:motor", 32, 0b011, (0,), (0,))
    assert (timing.id, timing.minutes, timing.parts, timing.causes, timing.proofs) == ("set:timing", 22, 0, (1, 2), (1,))
    assert (hook.id, hook.minutes, hook.parts, hook.causes, hook.proofs) == ("clean:hook", 7, 0b100, (3,), ())
    assert [r.needs_proof for r in TABLE.remedies] == [True, False, False]
    assert (TABLE.unproved, TABLE.proofs) == (0b001, 0b0001)
    assert TABLE.causes == ((0,), (1, 2), (3,))
    assert [r.after for r in TABLE.remedies] == [0, 0b1000, 0]


def test_checks_by_what_they_open_and_when_they_may_come() -> None:
    assert [c.id for c in TABLE.checks] == ["listen", "turn", "blow", "look"]
    assert [(c.minutes, c.parts) for c in TABLE.checks] == [(1, 0), (2, 0b011), (4, 0b100), (3, 0b100)]
    assert [c.safe for c in TABLE.checks] == [True, False, False, False]
    assert [c.powered for c in TABLE.checks] == [False, True, False, False]
    assert [c.after for c in TABLE.checks] == [0, 0b0001, 0b0011, 0]
    assert TABLE.before == (0b0001,)


def test_steps_are_checks_and_above_them_remedies_each_with_the_checks_that_it_waits_for() -> None:
    """Four checks and three remedies. To turn and to blow wait, and so does the timing, the second remedy."""
    assert TABLE.every == 0b1111111
    assert TABLE.waiting == ((0b10, 0b0001), (0b100, 0b0011), (0b100000, 0b1000))
    assert (TABLE.powered, TABLE.first) == (0b0010, 0b0001)


def test_a_check_can_give_a_proof_of_any_remedy_that_wants_one() -> None:
    wanting = Table(replace(DOUBT, no_sign=frozenset()))
    assert (wanting.unproved, wanting.proofs) == (0b011, 0b0011)


def test_checks_by_what_they_show_and_prove() -> None:
    """The unlisted cause shows what a sound machine does. A trial that cures proves nothing."""
    listen, turn, blow, look = TABLE.checks
    assert (listen.sees, listen.sound, listen.outcomes, listen.proves) == ((0, 2, 2, 2, 2), 2, (0, 1, 2), (0b001, 0, 0))
    assert (turn.sees, turn.sound, turn.outcomes, turn.proves) == ((2, 0, 1, 2, 2), 2, (0, 1, 2), (0b010, 0b010, 0))
    assert (blow.sees, blow.sound, blow.outcomes, blow.proves) == ((1, 1, 1, 0, 1), 1, (1,), (0, 0))
    assert (look.sees, look.sound, look.outcomes, look.proves) == ((1, 1, 1, 1, 1), 1, (0, 1), (0, 0))
    assert (blow.cured, look.cured) == ({0}, frozenset())


def test_a_check_does_what_its_record_says_and_a_trial_what_it_would_cure() -> None:
    """To turn does the timing, but is no trial: it is not over with it."""
    assert [c.does for c in TABLE.checks] == [0, 0b010, 0b100, 0]
    assert TABLE.trials == ((0b0100, 0b100),)
    idle = Table(replace(DOUBT, case=replace(DOUBT.case, checks=(LISTEN, TURN, replace(BLOW, sees=dict.fromkeys(IDS, 1)), LOOK))))
    assert idle.trials == ()


def test_a_check_tells_its_own_causes_and_those_of_what_waits_for_it() -> None:
    """To blow waits for turning and listening, to turn for listening, the timing for the look, which by itself tells nothing."""
    assert [c.tells for c in TABLE.checks] == [(0, 1, 2, 3), (1, 2, 3), (3,), (1, 2)]
    alone = Table(replace(DOUBT, lost=()))
    assert [c.tells for c in alone.checks] == [(0,), (1, 2), (3,), ()]
    chain = Table(replace(DOUBT, lost=(("turn", "look"), ("clean:hook", "turn"))))
    assert [c.tells for c in chain.checks] == [(0,), (1, 2, 3), (3,), (1, 2, 3)]


def test_sets_are_the_sums_of_their_bits_each_once_and_what_is_no_check_is_none_among_checks() -> None:
    assert TABLE.part_ids == ("arm", "bed", "lid")
    assert (TABLE.parts(["lid", "arm", "lid"]), TABLE.part_names(0b101), TABLE.part_names(0b010)) == (0b101, ("arm", "lid"), ("bed",))
    assert TABLE.check_bits(["look", "listen", "look", "set:timing"]) == 0b1001
    assert TABLE.remedy_bits(["clean:hook", "clean:hook", "turn"]) == 0b100


def test_a_reading_is_right_as_often_as_its_trust_says_and_what_is_left_is_spread_evenly() -> None:
    """Three outcomes: 0.9, and 0.05 each for the others; of a trial, nothing goes to the outcome that ends the job."""
    listen = DOUBT.readings["listen"]
    assert [chance(LISTEN, listen, outcome, 0) for outcome in range(3)] == pytest.approx([0.9, 0.05, 0.05])
    assert [chance(LISTEN, listen, outcome, 2) for outcome in range(3)] == pytest.approx([0.15, 0.15, 0.7])
    wide = check("wide", (0, 1, 2, 3), 4, 1, cured=(1,))
    trust = Reading(3, (0.9, 0.8, 0.7, 0.6))
    assert [chance(wide, trust, outcome, 0) for outcome in range(4)] == pytest.approx([0.9, 0, 0.05, 0.05])
    assert [chance(wide, trust, outcome, 1) for outcome in range(4)] == pytest.approx([0.2 / 3, 0.8, 0.2 / 3, 0.2 / 3])
    assert TABLE.checks[0].chances[1] == pytest.approx((0.05, 0.15, 0.15, 0.15, 0.15))


def test_where_no_other_outcome_is_left_a_reading_is_sure() -> None:
    """A trial that does not cure can show nothing else; one that cures may be taken for one that does not."""
    blow = DOUBT.readings["blow"]
    assert [chance(BLOW, blow, outcome, 1) for outcome in range(2)] == [0.0, 1.0]
    assert [chance(BLOW, blow, outcome, 0) for outcome in range(2)] == pytest.approx([0.9, 0.1])


def test_the_chances_are_those_of_brute_force_and_are_whole() -> None:
    for number in range(60):
        doubt = small_doubt(number)
        for row, told in zip(Table(doubt).checks, doubt.case.checks, strict=True):
            causes = [*(h.id for h in doubt.case.hypotheses), ""]
            assert list(map(list, zip(*row.chances))) == [pytest.approx(seen(doubt, told, cause)) for cause in causes]
            assert [sum(column) for column in zip(*row.chances)] == pytest.approx([1.0] * len(causes))
