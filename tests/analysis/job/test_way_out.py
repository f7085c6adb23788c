"""The way out on machines of two or three parts: each order and its price by hand, rule by rule."""

from __future__ import annotations

import pytest

from generator.analysis.job.needs import Needs
from generator.analysis.job.types import Handling, Practice, SettingHandling
from generator.analysis.job.way_out import WayOut, is_cover, rank, way_out
from generator.analysis.machine import Machine, MachinePart, MachineSetting
from tests.analysis.job.job_cases import AS_IT_LIES, BACK, machine_of

NOTHING = Needs({}, {}, {})


def told(out: WayOut | None) -> list[str]:
    """The tasks, a part that comes off marked with a minus."""
    assert out is not None
    return [f"-{task.id}" if task.do == "take off" else task.id for task in out.tasks]


def settings(*made: MachineSetting) -> Machine:
    return machine_of([], list(made))


def laid(*on_its_back: str, live: tuple[str, ...] = (), **proved_by: str) -> Practice:
    """Settings made with the machine on its back, the others upright, and the check that proves each."""
    ids = {*on_its_back, *proved_by}
    made = {s: SettingHandling(BACK if s in on_its_back else "upright", (), proved_by.get(s, "")) for s in ids}
    return Practice(settings=made, live=frozenset(live))


def in_turn(machine: Machine, later: dict[str, set[str]], practice: Practice) -> WayOut | None:
    """Settings alone, nothing off and nothing needed."""
    return way_out(machine, (), (), Needs({}, {}, later), practice)


def test_what_came_off_goes_on_again_in_reverse_and_only_that() -> None:
    """Gear behind cover, both behind a frame that does not move in this job; the lid was left on."""
    machine = machine_of(
        [MachinePart("cover", ("frame",)), MachinePart("gear", ("cover",)), MachinePart("lid"), MachinePart("frame")], []
    )
    out = way_out(machine, ("cover", "lid", "gear"), ("cover", "gear"), NOTHING, Practice())
    assert told(out) == ["gear", "cover"]
    assert (out.extra, out.turns) == (0, 0)
    assert told(way_out(machine, ("cover", "lid", "gear"), machine.parts.keys() - {"frame"}, NOTHING, Practice())) == ["gear", "lid", "cover"]
    assert told(way_out(machine, ("cover",), ("cover",), NOTHING, Practice(), BACK)) == ["cover"]


def test_each_turn_counts_and_the_machine_ends_upright() -> None:
    """From its back upright for the gear, or as it lies and then upright for the sew: one turn each time."""
    machine = machine_of([MachinePart("gear")], [])
    for lies in ("upright", AS_IT_LIES):
        out = way_out(machine, ("gear",), ("gear",), NOTHING, Practice({"gear": Handling(on_position=lies)}), BACK)
        assert (told(out), out.turns) == (["gear"], 1)
    out = way_out(machine, ("gear",), ("gear",), NOTHING, Practice({"gear": Handling(on_position=BACK)}))
    assert (told(out), out.turns) == (["gear"], 2)


CENTRED = {"centring": {"timing"}, "timing": set()}
PLATE = frozenset({"plate"})
IN_THE_HOLE = Needs({("set", "timing"): PLATE}, {("set", "centring"): PLATE}, CENTRED)
"The needle is centred in the plate's hole, and timing is made with the plate off (common practice, no source)."


@pytest.mark.parametrize(("off", "on", "extra"), [(1.5, 0.25, 17_500), (2, 8, 100_000), (0, 0, 1), (0.0001, 0, 1), (0.00004, 0.00004, 1), (0.0002, 0.0003, 5)])
def test_a_part_off_and_on_once_more_costs_its_minutes_in_ten_thousandths_and_never_nothing(off: float, on: float, extra: int) -> None:
    plate = MachinePart("plate", (), off, on, ("feed",))
    machine = machine_of(
        [plate], [MachineSetting("centring", on=("plate",)), MachineSetting("timing", reach=("plate",)), MachineSetting("feed")]
    )
    out = way_out(machine, ("plate",), PLATE, IN_THE_HOLE, Practice())
    assert told(out) == ["plate", "centring", "-plate", "timing", "plate"]
    assert (out.extra, out.turns) == (extra, 0)
    left_on = way_out(machine, ("plate",), (), IN_THE_HOLE, Practice())
    assert told(left_on) == ["centring", "-plate", "timing", "plate"]
    assert left_on.extra == 0


def test_no_part_comes_off_again_that_would_upset_what_is_made() -> None:
    """The plate upsets the centring that needs it on first: no way, and one where it upsets the timing still to come."""
    made = [MachineSetting("centring", on=("plate",)), MachineSetting("timing", reach=("plate",))]
    upsets_centring = machine_of([MachinePart("plate", disturbs=("centring",))], made)
    assert way_out(upsets_centring, ("plate",), PLATE, IN_THE_HOLE, Practice()) is None
    upsets_timing = machine_of([MachinePart("plate", disturbs=("timing",))], made)
    assert told(way_out(upsets_timing, ("plate",), (), IN_THE_HOLE, Practice())) == ["centring", "-plate", "timing", "plate"]


def test_the_sew_needs_everything_on_and_settings_only_what_they_name() -> None:
    machine = machine_of([MachinePart("lid"), MachinePart("plate")], [MachineSetting("timing", on=("plate",))])
    needs = Needs({}, {("set", "timing"): PLATE}, {"timing": set()})
    lid_on_its_back = Practice({"lid": Handling(on_position=BACK)})
    assert told(way_out(machine, ("lid", "plate"), ("lid", "plate"), needs, lid_on_its_back)) == ["plate", "timing", "lid"]


def test_settings_come_in_the_trades_order_then_by_id_unless_one_waits() -> None:
    """Two come before gap, one before timing; height and belt stand first, by id."""
    machine = settings(
        MachineSetting("belt"), MachineSetting("height"), MachineSetting("timing", after=("height",)), MachineSetting("gap", after=("timing",))
    )
    assert [rank(machine, s) for s in ("belt", "height", "timing", "gap")] == [0, 0, 1, 2]
    free: dict[str, set[str]] = {s: set() for s in ("gap", "timing", "height", "belt")}
    assert told(in_turn(machine, free, Practice())) == ["belt", "height", "timing", "gap"]
    assert told(in_turn(machine, free | {"timing": {"belt"}, "gap": {"height"}}, Practice())) == ["timing", "belt", "gap", "height"]


def test_what_can_be_made_as_the_machine_lies_is_made_before_it_is_turned() -> None:
    three = settings(MachineSetting("a"), MachineSetting("b"), MachineSetting("c"))
    out = in_turn(three, {"a": set(), "b": set(), "c": set()}, laid("a", "c"))
    assert (told(out), out.turns) == (["b", "a", "c"], 2)
    out = in_turn(three, {"a": {"b"}, "b": {"c"}, "c": set()}, laid("a", "c"))
    assert (told(out), out.turns) == (["a", "b", "c"], 4)


A, B, C = MachineSetting("a"), MachineSetting("b"), MachineSetting("c")
FREE: dict[str, set[str]] = {"a": set(), "b": set(), "c": set()}


def test_a_check_follows_at_once_the_last_setting_that_it_proves() -> None:
    assert told(in_turn(settings(A, B, C), FREE, laid(a="look", b="look"))) == ["a", "b", "look", "c"]
    assert told(in_turn(settings(A, B, C), FREE, laid(a="look"))) == ["a", "look", "b", "c"]
    assert told(in_turn(settings(A, B, C), FREE, laid(a="look", c="listen"))) == ["a", "look", "b", "c", "listen"]


def test_a_check_under_power_waits_for_all_that_is_set_by_hand_and_not_for_what_is_set_under_power() -> None:
    assert told(in_turn(settings(A, B, C), FREE, laid(a="run", live=("run",)))) == ["a", "b", "c", "run"]
    assert told(in_turn(settings(A, B, C), FREE | {"a": {"c"}, "b": {"c"}}, laid(a="run", live=("run", "c")))) == ["a", "b", "run", "c"]


def test_a_check_under_power_waits_even_for_what_is_made_after_the_setting_that_it_proves() -> None:
    assert told(in_turn(settings(A, B, C), FREE | {"a": {"b"}}, laid(a="run", live=("run",)))) == ["a", "b", "c", "run"]


def test_a_check_comes_before_what_is_made_after_its_setting_even_at_the_price_of_a_turn() -> None:
    """a on its back, look upright, b on its back, sew upright: four turns; free of a, b needs no third and fourth."""
    practice = Practice(laid("a", "b", a="look").parts, laid("a", "b", a="look").settings, {"look": "upright"})
    out = in_turn(settings(A, B), {"a": {"b"}, "b": set()}, practice)
    assert (told(out), out.turns) == (["a", "look", "b"], 4)
    out = in_turn(settings(A, B), {"a": set(), "b": set()}, practice)
    assert (told(out), out.turns) == (["a", "b", "look"], 2)


def test_a_check_of_two_settings_comes_before_what_is_made_after_both_only() -> None:
    """b follows a, not c: look, upright, need not come between. Where b follows both it must."""
    practice = Practice(settings=laid("a", "b", "c", a="look", c="look").settings, proofs={"look": "upright"})
    out = in_turn(settings(A, B, C), FREE | {"a": {"b"}}, practice)
    assert (told(out), out.turns) == (["a", "b", "c", "look"], 2)
    out = in_turn(settings(A, B, C), FREE | {"a": {"b"}, "c": {"b"}}, practice)
    assert (told(out), out.turns) == (["a", "c", "look", "b"], 4)


@pytest.mark.parametrize(
    ("handled", "disturbs", "cover"),
    [
        (Handling(), (), True),
        (Handling(wears=True), (), False),
        (Handling(oil=("race",)), (), False),
        (Handling(), ("timing",), False),
        (Handling(wears=True, oil=("race",)), ("timing",), False),
    ],
)
def test_a_cover_neither_wears_nor_is_oiled_nor_upsets_anything(handled: Handling, disturbs: tuple[str, ...], cover: bool) -> None:
    machine = machine_of([MachinePart("part", disturbs=disturbs)], [MachineSetting("timing")])
    assert is_cover(machine, Practice({"part": handled}), "part") == cover


@pytest.mark.parametrize(
    ("wears", "on", "order", "turns"),
    [
        (True, (), ["part", "timing"], 3),
        (False, (), ["timing", "part"], 1),
        (True, ("foot",), ["timing", "part"], 1),
    ],
)
def test_what_wears_goes_on_before_timing_at_the_price_of_turns_unless_timing_says_what_it_is_made_with(
    wears: bool, on: tuple[str, ...], order: list[str], turns: int
) -> None:
    """On its back after the work: upright for the part, on its back for timing, upright to sew, three; else only the last."""
    machine = machine_of([MachinePart("part"), MachinePart("foot")], [MachineSetting("timing", on=on)])
    practice = Practice({"part": Handling(wears=wears)}, {"timing": SettingHandling(BACK)})
    out = way_out(machine, ("part",), ("part",), Needs({}, {}, {"timing": set()}), practice, BACK)
    assert (told(out), out.turns) == (order, turns)
