"""What may be done from a state, on a board drawn by hand: three hypotheses, a cover of 2 minutes and a plate of 8."""

from __future__ import annotations

import pytest

from generator.analysis.check_order.cost import Action, Board, Mass
from generator.analysis.check_order.states import Move, States

ALONE = (0b001, 0b010, 0b100)
COVER, PLATE = 0b01, 0b10
R0 = Action("r0", True, 3, 0, 0b001, (0b110,))
R1 = Action("r1", True, 5, COVER, 0b010, (0b101,))
R2 = Action("r2", True, 2, COVER | PLATE, 0b100, (0b011,))
DEAR = Action("dear", False, 2, COVER, 0, ALONE)
FREE = Action("free", False, 4, 0, 0, ALONE)
HALF = Action("half", False, 1, PLATE, 0, (0b011, 0b100))
LOOK = Action("look", False, 1, COVER, 0, ALONE)
SAME = Action("same", False, 1, COVER, 0, (0b100, 0b001, 0b010))
TRIAL = Action("trial", False, 2, 0, 0b001, (0b110,))
TRIAL_DEAR = Action("trial-dear", False, 2.5, PLATE, 0b001, (0b110,))
TRIAL_TOO_DEAR = Action("trial-too-dear", False, 4, 0, 0b001, (0b110,))
WIDE = Action("wide", False, 3, COVER, 0, ALONE)


def states() -> States:
    actions = (R0, R1, R2, DEAR, FREE, HALF, LOOK, SAME, TRIAL, TRIAL_DEAR, TRIAL_TOO_DEAR, WIDE)
    groups = ((), (), ())
    return States(Board(groups, {"cover": COVER, "plate": PLATE}, Mass((2.0, 8.0)), Mass((0.5, 0.25, 0.25)), actions))


def ids(steps) -> list[str]:
    return [action.id for action, _ in steps.actions]


def test_all_is_left_and_nothing_open_at_the_start() -> None:
    assert states().start() == (0b111, 0)


def test_of_those_that_leave_the_same_the_pointless_are_dropped_but_never_a_remedy() -> None:
    """Look makes dear, same and wide pointless, which take no less and need its cover; not free, which needs none.

    Trial takes less than the remedy that leaves the same, which stays; it makes trial-dear pointless,
    and the remedy makes trial-too-dear so.
    """
    steps = states().steps(0b111)
    assert ids(steps) == ["r0", "r1", "r2", "free", "half", "look", "trial"]
    assert dict(steps.actions)[LOOK] == (0b001, 0b010, 0b100)
    assert steps.parts == COVER | PLATE


def test_with_less_left_what_tells_nothing_goes_and_with_it_the_parts_that_it_needs() -> None:
    """h0 and h1: r2 and half leave both together. Each other step leaves at most one of them, or one apart from the other."""
    steps = states().steps(0b011)
    assert [(action.id, leaves) for action, leaves in steps.actions] == [
        ("r0", (0b010,)), ("r1", (0b001,)), ("free", (0b001, 0b010)), ("look", (0b001, 0b010)), ("trial", (0b010,)),
    ]  # fmt: skip
    assert steps.parts == COVER


def test_with_one_left_only_what_ends_it_is_worth_doing() -> None:
    for left, only, parts in ((0b001, ["r0", "trial"], 0), (0b010, ["r1"], COVER), (0b100, ["r2"], COVER | PLATE)):
        steps = states().steps(left)
        assert (ids(steps), steps.parts) == (only, parts)
        assert all(leaves == () for _, leaves in steps.actions)


def test_steps_are_the_same_whichever_larger_set_they_are_taken_from() -> None:
    straight, through = states(), states()
    (half,) = [move for move in through.moves(through.start()) if move.action is HALF]
    through.then(half)
    assert through.steps(0b011) == straight.steps(0b011)
    assert through.steps(0b011) is through.steps(0b011)


@pytest.mark.parametrize(("left", "last"), [(0b001, R0), (0b010, R1), (0b100, R2), (0b011, None), (0b110, None), (0b111, None)])
def test_the_last_remedy_cures_all_that_is_left_and_no_trial_counts(left: int, last: Action | None) -> None:
    now = states()
    assert now.last(left) is last
    assert now.last(left) is last


def test_a_move_costs_its_minutes_and_what_it_opens_times_the_mass_left() -> None:
    """By hand, h0 and h1, 0.75 of the whole, with the cover open: r0 3, r1 5, free 4, look 1, trial 2; shut, 2 more for r1 and look."""
    now = states()
    opened = {m.action.id: (m.cost, m.opened) for m in now.moves((0b011, COVER))}
    shut = {m.action.id: (m.cost, m.opened) for m in now.moves((0b011, 0))}
    assert opened == {i: (0.75 * m, COVER) for i, m in (("r0", 3), ("r1", 5), ("free", 4), ("look", 1), ("trial", 2))}
    assert shut == {
        "r0": (2.25, 0), "r1": (5.25, COVER), "free": (3.0, 0), "look": (2.25, COVER), "trial": (1.5, 0),
    }  # fmt: skip
    assert now.moves((0b011, 0))[0] == Move(0b011, 2.25, R0, (0b010,), 0)
    assert now.moves((0b011, 0)) is now.moves((0b011, 0))


def test_a_move_leads_to_what_is_left_with_the_open_parts_that_still_matter() -> None:
    """The plate, open for half, matters to h2 alone; for h0 and h1 only the cover does; for h0 by itself nothing does."""
    now = states()
    moves = {m.action.id: m for m in now.moves((0b111, COVER))}
    assert moves["half"].opened == COVER | PLATE
    assert now.then(moves["half"]) == [(0b011, COVER), (0b100, COVER | PLATE)]
    assert now.then(moves["look"]) == [(0b001, 0), (0b010, COVER), (0b100, COVER)]
    (r1,) = [m for m in now.moves((0b010, 0)) if m.action is R1]
    assert now.then(r1) == []
