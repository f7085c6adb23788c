"""Which setting waits for which, on rounds and chains that can be followed with a finger."""

from __future__ import annotations

import pytest

from generator.analysis.job.precedence import earlier
from generator.analysis.machine import Machine, MachineSetting


def machine(*settings: MachineSetting) -> Machine:
    return Machine(settings={s.id: s for s in settings})


CHAIN = machine(
    MachineSetting("height", disturbs=("timing",)),
    MachineSetting("timing", after=("height",)),
    MachineSetting("gap", after=("timing",), disturbs=("guard",)),
    MachineSetting("guard"),
    MachineSetting("tension"),
)


def test_a_setting_waits_for_all_that_it_follows_and_all_made_that_upsets_it() -> None:
    """By hand: guard is upset by gap, which follows timing, which follows height."""
    assert earlier(CHAIN, ["tension", "guard", "gap", "timing", "height"]) == {
        "height": frozenset(),
        "timing": {"height"},
        "gap": {"timing", "height"},
        "guard": {"gap", "timing", "height"},
        "tension": frozenset(),
    }


def test_a_setting_not_made_is_followed_through_but_upsets_nothing() -> None:
    """Without gap made, guard waits for none of them; gap follows height through timing, made or not."""
    assert earlier(CHAIN, ["guard", "height", "timing"])["guard"] == frozenset()
    assert earlier(CHAIN, ["gap", "height"]) == {"gap": {"height"}, "height": frozenset()}


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ([MachineSetting("a", after=("a",))], "a is made after a"),
        ([MachineSetting("a", disturbs=("a",))], "a is upset by a"),
        ([MachineSetting("a", after=("b",)), MachineSetting("b", after=("a",))], "a is made after b, b is made after a"),
        (
            [MachineSetting("a", disturbs=("c",)), MachineSetting("b", after=("c",)), MachineSetting("c"),
             MachineSetting("d", after=("b",), disturbs=("a",))],
            "a is upset by d, d is made after b, b is made after c, c is upset by a",
        ),
        (
            [MachineSetting("a", after=("b", "c")), MachineSetting("b", after=("d",)), MachineSetting("c", after=("a",)),
             MachineSetting("d", after=("a",))],
            "a is made after c, c is made after a",
        ),
    ],
    ids=["itself", "upsets-itself", "two", "four", "the-shorter-of-two"],
)  # fmt: skip
def test_a_round_is_told_hop_by_hop_from_its_first_id_by_the_shortest_way(settings: list[MachineSetting], said: str) -> None:
    with pytest.raises(ValueError) as refused:
        earlier(machine(*settings), [s.id for s in settings])
    assert str(refused.value) == f"settings wait for each other: {said}"


def test_a_setting_that_waits_for_a_round_but_stands_outside_of_it_is_not_blamed() -> None:
    """z-gap follows the round of a and b, and the round does not come back to it."""
    round_of_two = [MachineSetting("a-first", after=("m", "n")), MachineSetting("m", after=("n",)), MachineSetting("n", after=("m",))]
    with pytest.raises(ValueError, match="^settings wait for each other: m is made after n, n is made after m$"):
        earlier(machine(*round_of_two), [s.id for s in round_of_two])
