"""The order of settings against networkx, every order of small cases, and facts of the trade."""

from __future__ import annotations

from itertools import permutations

import networkx as nx
import pytest

from generator.analysis.job.plan import merged
from generator.analysis.job.precedence import earlier
from generator.analysis.job.settings import Making, Proving, refits_and_makings
from generator.analysis.job.types import Handling, Practice, SettingHandling
from generator.analysis.machine import Machine, MachinePart, MachineSetting, Proof, Remedy, Work
from tests.analysis.job.job_cases import (
    BACK,
    industrial_head,
    machine_of,
    needed_off,
    overlock,
    random_case,
    settings_graph,
    zigzag_domestic,
)


def makings(machine: Machine, made, parts_off, practice: Practice) -> tuple[Making, ...]:
    back = refits_and_makings(machine, made, sorted(parts_off), practice)
    return tuple(done for done in back.done if isinstance(done, Making))


def work_of(number: int) -> tuple[Machine, Practice, Work]:
    machine, practice, remedies = random_case(number)
    return machine, practice, machine.work(merged(remedies))


def made_on(machine: Machine, practice: Practice, *renew: str, set: tuple[str, ...] = ()) -> list[Making]:
    work = machine.work(Remedy("job", renew=renew, set=set))
    return list(makings(machine, work.settings, work.parts, practice))


def names(made: list[Making]) -> list[str]:
    return [m.setting for m in made]


def test_what_comes_earlier_is_what_networkx_calls_the_ancestors() -> None:
    for number in range(300):
        machine, _, work = work_of(number)
        graph = settings_graph(machine, set(work.settings))
        for setting, before in earlier(machine, work.settings).items():
            assert before == nx.ancestors(graph, setting) & work.settings


def test_the_order_is_topological_by_networkx() -> None:
    for number in range(300):
        machine, practice, work = work_of(number)
        made = names(list(makings(machine, work.settings, work.parts, practice)))
        assert sorted(made) == sorted(work.settings)
        closure = nx.transitive_closure(settings_graph(machine, set(made)))
        assert all(made.index(a) < made.index(b) for a, b in closure.edges if {a, b} <= set(made))


def parts_wrongly_off(machine: Machine, work: Work, order: tuple[str, ...]) -> int:
    """Pairs of a setting and a part off for it whose removal upsets it, by no wish of its own."""
    off = {s: needed_off(machine, s) for s in order}
    held = [set().union(*(off[s] for s in order[n:])) for n in range(len(order))]
    upset_by = {s: {p for p in work.parts if s in machine.parts[p].disturbs} for s in order}
    return sum(len(held[n] & upset_by[s] - off[s]) for n, s in enumerate(order))


def test_no_part_that_upsets_a_setting_is_off_for_it_if_any_order_of_all_avoids_that() -> None:
    avoidable = forced = 0
    for number in range(1200):
        machine, practice, work = work_of(number)
        if not 2 <= len(work.settings) <= 6:
            continue
        graph = nx.transitive_closure(settings_graph(machine, set(work.settings)))
        orders = [
            o for o in permutations(sorted(work.settings))
            if not any(graph.has_edge(b, a) for n, a in enumerate(o) for b in o[n + 1 :])
        ]  # fmt: skip
        best = min(parts_wrongly_off(machine, work, o) for o in orders)
        made = makings(machine, work.settings, work.parts, practice)
        told = sum(len(m.despite) for m in made)
        assert told == parts_wrongly_off(machine, work, tuple(m.setting for m in made))
        assert (told == 0) == (best == 0), number
        avoidable += best == 0 and len(orders) > 1
        forced += best > 0
    assert avoidable > 50 and forced > 50


def test_what_is_held_off_is_the_reach_of_this_setting_and_those_to_come() -> None:
    for number in range(200):
        machine, practice, work = work_of(number)
        made = makings(machine, work.settings, work.parts, practice)
        for n, making in enumerate(made):
            assert making.held_off == set().union(*(needed_off(machine, m.setting) for m in made[n:]))


def test_a_setting_without_reach_waits_until_the_covers_are_on() -> None:
    machine = machine_of(
        [MachinePart("cover"), MachinePart("gear", ("cover",), disturbs=("timing", "belt"))],
        [MachineSetting("belt"), MachineSetting("timing", reach=("cover",))],
    )
    made = made_on(machine, Practice(), "gear")
    assert [(m.setting, sorted(m.held_off)) for m in made] == [("timing", ["cover"]), ("belt", [])]


def test_of_two_settings_the_one_that_needs_the_same_off_and_more_is_made_first() -> None:
    machine = machine_of(
        [MachinePart("plate"), MachinePart("tray"), MachinePart("cover", ("tray",))],
        [MachineSetting("a", reach=("tray",)), MachineSetting("b", reach=("cover", "plate"))],
    )
    made = made_on(machine, Practice(), set=("a", "b"))
    assert [(m.setting, len(m.held_off)) for m in made] == [("b", 3), ("a", 1)]


def test_a_cover_waits_for_a_turn_that_comes_anyhow_but_a_needle_does_not() -> None:
    """Timing is read against the needle (common practice, no source)."""
    machine = machine_of(
        [MachinePart("top-cover"), MachinePart("needle")],
        [MachineSetting("belt", reach=("top-cover", "needle")), MachineSetting("timing", after=("belt",))],
    )
    handled = {"needle": Handling(wears=True), "top-cover": Handling()}
    practice = Practice(handled, {s: SettingHandling(BACK) for s in machine.settings})
    back = refits_and_makings(machine, ["belt", "timing"], ["needle", "top-cover"], practice, BACK)
    assert [getattr(done, "setting", done) for done in back.done] == ["belt", "top-cover", "needle", "timing"]
    covers = Practice({"needle": Handling()}, practice.settings)
    back = refits_and_makings(machine, ["belt", "timing"], ["needle", "top-cover"], covers, BACK)
    assert [getattr(done, "setting", done) for done in back.done] == ["belt", "timing", "top-cover", "needle"]


def test_a_setting_that_needs_a_part_off_is_made_before_one_measured_with_it_on() -> None:
    machine = machine_of(
        [MachinePart("plate", disturbs=("centring",))],
        [MachineSetting("centring"), MachineSetting("zz-gap", reach=("plate",))],
    )
    made = made_on(machine, Practice(), set=("zz-gap",))
    assert names(made) == ["zz-gap", "centring"]
    assert made[1].held_off == frozenset()


def test_a_part_off_that_upsets_a_setting_is_told_where_the_records_leave_no_choice() -> None:
    machine = machine_of(
        [MachinePart("plate", disturbs=("centring",))],
        [MachineSetting("centring"), MachineSetting("gap", after=("centring",), reach=("plate",))],
    )
    made = made_on(machine, Practice(), set=("gap",))
    assert [(m.setting, m.despite) for m in made] == [("centring", (("plate", "gap"),)), ("gap", ())]


def test_settings_free_to_be_made_are_made_as_the_machine_lies() -> None:
    machine = machine_of([], [MachineSetting("a"), MachineSetting("b"), MachineSetting("c"), MachineSetting("d", after=("b",))])
    practice = Practice(settings={s: SettingHandling(BACK) for s in ("a", "c")})
    assert names(made_on(machine, practice, set=("a", "b", "c", "d"))) == ["b", "d", "a", "c"]
    laid = Practice(settings={s: SettingHandling(BACK) for s in ("b", "d")})
    first = machine_of([], [MachineSetting("b"), MachineSetting("c", after=("b",)), MachineSetting("d", after=("b",))])
    assert names(made_on(first, laid, set=("b", "c", "d"))) == ["b", "d", "c"]


def test_a_setting_follows_another_through_one_that_is_not_made() -> None:
    machine = machine_of(
        [], [MachineSetting("a-gap", after=("timing",)), MachineSetting("timing", after=("height",)), MachineSetting("height")]
    )
    assert names(made_on(machine, Practice(), set=("a-gap", "height"))) == ["height", "a-gap"]


def test_a_setting_that_upsets_what_it_follows_is_refused_with_the_whole_round() -> None:
    machine = machine_of(
        [],
        [
            MachineSetting("timing"),
            MachineSetting("gap", after=("timing",)),
            MachineSetting("guard", after=("gap",), disturbs=("timing",)),
        ],
    )
    with pytest.raises(ValueError) as refused:
        made_on(machine, Practice(), set=("guard",))
    said = str(refused.value)
    assert said.startswith("settings wait for each other: ")
    hops = ("guard is made after gap", "gap is made after timing", "timing is upset by guard")
    assert all(hop in said for hop in hops)


def test_a_setting_not_made_upsets_nothing() -> None:
    machine = machine_of([], [MachineSetting("timing"), MachineSetting("gap", after=("timing",), disturbs=("timing",))])
    assert names(made_on(machine, Practice(), set=("timing",))) == ["timing"]


def test_what_is_made_under_power_comes_after_all_that_is_made_by_hand_unless_that_closes_a_round() -> None:
    """Until all is made by hand the machine may strike itself; ids sort the other way."""
    machine = machine_of([], [MachineSetting(s) for s in ("a-live", "b", "c-live", "d")])
    live = Practice(live=frozenset({"a-live", "c-live"}))
    assert names(made_on(machine, live, set=tuple(machine.settings))) == ["b", "d", "a-live", "c-live"]
    waits = machine_of([], [MachineSetting("a-live"), MachineSetting("b"), MachineSetting("d", after=("a-live",))])
    assert names(made_on(waits, live, set=("a-live", "b", "d"))) == ["b", "a-live", "d"]


def test_a_check_says_which_of_what_it_needs_on_is_off_and_of_what_it_needs_off_is_on() -> None:
    """Watch proves centring, made with the plate off for good: the plate upsets it. Of plate and foot only the plate is off."""
    machine = Machine(
        {"plate": MachinePart("plate", disturbs=("centring",)), "foot": MachinePart("foot")},
        {"centring": MachineSetting("centring"), "timing": MachineSetting("timing", after=("centring",), reach=("plate",))},
        {"watch": Proof("watch", on=("plate", "foot")), "look": Proof("look", reach=("foot",), on=("foot",))},
    )
    practice = Practice(settings={"centring": SettingHandling(proved_by="watch"), "timing": SettingHandling(proved_by="look")})
    back = refits_and_makings(machine, ["centring", "timing"], ["foot", "plate"], practice)
    proved = [done for done in back.done if isinstance(done, Proving)]
    assert proved == [Proving("watch", ("plate",)), Proving("look")]


# Facts of the trade: common practice, no source. The ids sort another way, so the order is no accident.


def test_needle_bar_height_before_hook_timing_before_gap_before_tension_on_a_domestic() -> None:
    machine, practice = zigzag_domestic()
    made = names(made_on(machine, practice, "needle-bar", "lower-shaft-gear", "tension-unit"))
    assert made[:2] == ["needle-bar-height", "hook-timing"]
    assert sorted(made[2:4]) == ["feed-timing", "hook-gap"]
    assert made[4:] == ["upper-tension"]


def test_tension_is_last_though_nothing_it_follows_directly_is_upset() -> None:
    machine, practice = zigzag_domestic()
    made = names(made_on(machine, practice, "tension-unit", set=("needle-centring",)))
    assert made == ["needle-centring", "upper-tension"]


def test_feed_timing_follows_hook_timing_when_a_belt_upsets_both() -> None:
    machine, practice = industrial_head()
    made = names(made_on(machine, practice, "timing-belt"))
    assert made.index("hook-timing") < made.index("feed-timing")
    assert made.index("hook-timing") < made.index("hook-gap") < made.index("needle-guard")


def test_an_overlock_is_set_from_the_lower_looper_up_and_tension_last() -> None:
    machine, practice = overlock()
    made = names(made_on(machine, practice, "lower-looper", "lower-knife", set=("balance-tension",)))
    assert made == ["lower-looper-timing", "upper-looper-crossing", "knives", "balance-tension"]


def test_moving_the_needle_bar_leaves_the_feed_alone() -> None:
    machine, practice = zigzag_domestic()
    made = names(made_on(machine, practice, "needle-bar"))
    assert "hook-timing" in made and not {"feed-timing", "feed-height"} & set(made)
