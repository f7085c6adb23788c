"""The way in against every linear extension, counted anew here (networkx lists them)."""

from __future__ import annotations

from itertools import permutations

import networkx as nx
import pytest

from generator.analysis.job import way_in as module
from generator.analysis.job.types import Practice, Weights
from generator.analysis.job.way_in import _Bench, _bench, _choices, _most_promising, _tasks, _undominated, way_in
from generator.analysis.machine import Machine, MachinePart
from tests.analysis.job.job_cases import (
    AS_IT_LIES,
    BACK,
    FACE,
    behind_graph,
    handled,
    machine_of,
    random_case,
)


def changes(order: list[str], practice: Practice) -> tuple[int, int]:
    """Turns of the machine and tools picked up, from upright with an empty hand."""
    lies, hand, turns, picked = "upright", None, 0, 0
    for part in order:
        handling = practice.parts[part]
        turns += handling.off_position not in (AS_IT_LIES, lies)
        lies = handling.off_position or lies
        for tool in handling.off_tools:
            picked += tool != hand
            hand = tool
    return turns, picked


def least(machine: Machine, practice: Practice, shop: Weights) -> int:
    def weight(order: list[str]) -> int:
        turns, picked = changes(order, practice)
        return turns * shop.position_change + picked * shop.tool_change

    return min(map(weight, nx.all_topological_sorts(behind_graph(machine))))


@pytest.mark.parametrize("shop", [Weights(), Weights(position_change=1, tool_change=1), Weights(position_change=1, tool_change=4)])
def test_the_weight_is_the_least_of_all_orders_on_300_small_machines(shop: Weights) -> None:
    for number in range(300):
        machine, practice, _ = random_case(number, parts=7)
        found = way_in(machine, machine.parts, practice, shop)
        weight = found.position_changes * shop.position_change + found.tool_changes * shop.tool_change
        assert found.exact
        assert (found.position_changes, found.tool_changes) == changes(list(found.parts), practice)
        assert weight == least(machine, practice, shop), number


def test_every_order_respects_what_is_behind_what() -> None:
    for number in range(200):
        machine, practice, _ = random_case(number)
        order = way_in(machine, machine.parts, practice, Weights()).parts
        place = {part: n for n, part in enumerate(order)}
        assert sorted(place) == sorted(machine.parts)
        assert all(place[a] < place[b] for a, b in nx.transitive_closure(behind_graph(machine)).edges)


def test_a_turn_of_the_machine_is_saved_before_a_tool() -> None:
    machine = machine_of([MachinePart("a"), MachinePart("b"), MachinePart("c")], [])
    practice = Practice(
        {"a": handled("upright", "key"), "b": handled(BACK, "key"), "c": handled("upright", "driver")}
    )
    found = way_in(machine, machine.parts, practice, Weights())
    assert found.parts == ("c", "a", "b")
    assert (found.position_changes, found.tool_changes) == (1, 2)


def test_a_part_taken_off_as_the_machine_lies_costs_no_turn() -> None:
    machine = machine_of([MachinePart("cover"), MachinePart("gear", ("cover",))], [])
    found = way_in(machine, machine.parts, Practice(), Weights())
    assert (found.position_changes, found.tool_changes) == (0, 0)


def test_ties_fall_by_id_whatever_the_order_of_the_records() -> None:
    for ids in permutations("dbca"):
        parts = [MachinePart(id) for id in ids]
        machine = machine_of(parts, [])
        assert way_in(machine, [p.id for p in parts], Practice(), Weights()).parts == ("a", "b", "c", "d")


def test_a_narrow_beam_says_that_it_is_not_exact_and_still_gives_a_valid_order() -> None:
    inexact = 0
    for number in range(100):
        machine, practice, _ = random_case(number)
        narrow = way_in(machine, machine.parts, practice, Weights(), width=1)
        exact = way_in(machine, machine.parts, practice, Weights())
        weights = [w.position_changes * 10 + w.tool_changes for w in (exact, narrow)]
        assert weights[0] <= weights[1]
        assert narrow.exact <= (weights[0] == weights[1])
        place = {part: n for n, part in enumerate(narrow.parts)}
        assert all(place[a] < place[b] for a, b in behind_graph(machine).edges)
        inexact += not narrow.exact
    assert inexact > 20


def test_on_60_parts_with_nothing_in_front_each_kind_is_done_in_one_go() -> None:
    """Without precedence the least is known: each position once, each tool once in a position."""
    kinds = [(lies, tool) for lies in ("upright", BACK, FACE) for tool in ("driver", "key", "spanner")]
    machine = machine_of([MachinePart(f"p{n:02}") for n in range(60)], [])
    practice = Practice({f"p{n:02}": handled(kinds[n % 9][0], kinds[n % 9][1]) for n in range(60)})
    found = way_in(machine, machine.parts, practice, Weights())
    assert (found.position_changes, found.tool_changes) == (2, 7)


def test_parts_that_wait_for_each_other_are_refused() -> None:
    machine = machine_of([MachinePart("a", ("b",)), MachinePart("b", ("a",))], [])
    with pytest.raises(ValueError, match="wait for each other"):
        way_in(machine, machine.parts, Practice(), Weights())


def test_a_way_in_that_leaves_out_what_is_in_front_is_refused() -> None:
    machine = machine_of([MachinePart("cover"), MachinePart("gear", ("cover",))], [])
    with pytest.raises(ValueError, match="no way in without cover"):
        way_in(machine, ["gear"], Practice(), Weights())


def bench_of(practice: Practice, *parts: MachinePart) -> _Bench:
    """By number: the parts in the order of their ids."""
    machine = machine_of(list(parts), [])
    return _bench(_tasks(machine, sorted(machine.parts), practice), Weights())


THREE = bench_of(
    Practice({"a": handled("upright", "driver"), "b": handled(BACK, "key"), "c": handled(FACE, "driver", "key")}),
    MachinePart("a"), MachinePart("b"), MachinePart("c"),
)  # fmt: skip
A, B, C = (task.bit for task in THREE.tasks)


@pytest.mark.parametrize(
    ("state", "turns", "tools"),
    [
        ((0, "upright", ""), 2, 2),
        ((A, "upright", "driver"), 2, 1),
        ((B, BACK, "key"), 2, 1),
        ((B, "upright", "driver"), 1, 1),
        ((B | C, FACE, "key"), 1, 1),
        ((A | B, BACK, "key"), 1, 1),
        ((A | C, FACE, "key"), 1, 0),
        ((B | C, "upright", "driver"), 0, 0),
        ((A | B | C, BACK, "key"), 0, 0),
    ],
)
def test_still_to_come_is_each_position_and_each_tool_that_is_not_there_yet_once(
    state: tuple[int, str, str], turns: int, tools: int
) -> None:
    """By hand: b alone lies on its back, c alone on its face; the driver is for a and c, the key for b and c."""
    assert THREE.at_least(state) == 10 * turns + tools


def test_what_is_still_to_come_at_the_least_is_never_above_the_best_of_all_orders() -> None:
    for number in range(60):
        machine, practice, _ = random_case(number, parts=6)
        bench = _bench(_tasks(machine, sorted(machine.parts), practice), Weights())
        assert bench.at_least((0, "upright", "")) <= least(machine, practice, Weights()), number


def test_a_part_that_costs_no_change_is_taken_alone_the_first_of_them_else_every_free_one() -> None:
    """d and e lie as the machine does and need no tool; f waits for b."""
    practice = Practice(
        {"a": handled("upright", "driver"), "b": handled(BACK, "key"), "d": handled(AS_IT_LIES), "e": handled(AS_IT_LIES)}
    )
    parts = [MachinePart("a"), MachinePart("b"), MachinePart("d"), MachinePart("e"), MachinePart("f", ("b",))]
    bench = bench_of(Practice({**practice.parts, "f": handled(BACK, "key")}), *parts)
    _, b, d, e, f = (task.bit for task in bench.tasks)
    assert list(_choices((0, "upright", ""), bench)) == [(2, 0)]
    assert list(_choices((d, "upright", ""), bench)) == [(3, 0)]
    assert list(_choices((d | e, "upright", ""), bench)) == [(0, 1), (1, 11)]
    assert list(_choices((b | d | e, BACK, "key"), bench)) == [(4, 0)]
    assert list(_choices((b | d | e | f, BACK, "driver"), bench)) == [(0, 10)]


def test_a_state_is_dropped_if_the_best_with_the_same_parts_off_can_be_brought_to_it_for_no_more() -> None:
    """By hand: the best of those with a off is 11, upright with the key. A tool is 1, a turn 10, both 11."""
    ways = {
        (A, "upright", "driver"): (12, (0,)),
        (A, BACK, "key"): (20, (1,)),
        (A, "upright", "key"): (11, (2,)),
        (A, FACE, "key"): (21, (3,)),
        (A, BACK, "driver"): (21, (4,)),
        (A, FACE, "driver"): (22, (5,)),
        (A, "upright", "hook"): (11, (6,)),
        (B, FACE, "driver"): (90, (7,)),
    }
    kept = [(A, BACK, "key"), (A, "upright", "key"), (A, BACK, "driver"), (A, "upright", "hook"), (B, FACE, "driver")]
    assert list(_undominated(ways, THREE)) == kept
    assert _undominated({(A, "upright", "key"): (11, (1,)), (A, "upright", "driver"): (11, (0,))}, THREE).keys() == {
        (A, "upright", "driver"), (A, "upright", "key"),
    }  # fmt: skip


def test_the_most_promising_are_those_of_least_weight_so_far_and_still_to_come(monkeypatch: pytest.MonkeyPatch) -> None:
    """By hand: a off, 1 and 21 to come; b off, 11 and 21 to come; c off, 3 and 21: three states, of which two are kept."""
    ways = {(B, BACK, "key"): (11, (1,)), (C, FACE, "key"): (3, (2,)), (A, "upright", "driver"): (1, (0,))}
    assert [THREE.at_least(state) for state in ways] == [21, 21, 21]
    monkeypatch.setattr(module, "BEAM", 2)
    assert list(_most_promising(ways, THREE, width=2)) == [(A, "upright", "driver"), (C, FACE, "key")]
    assert _most_promising(ways, THREE, width=3) == ways
    far = {(A, "upright", "driver"): (30, (0,)), (A | B, BACK, "key"): (35, (0, 1)), (A | B | C, FACE, "key"): (45, (0, 1, 2))}
    assert [THREE.at_least(state) for state in far] == [21, 11, 0]
    assert list(_most_promising(far, THREE, width=0)) == [(A | B | C, FACE, "key"), (A | B, BACK, "key")]


def test_an_order_is_proved_the_least_where_no_more_states_stand_than_may() -> None:
    """By hand: after the first of two parts, each with its own tool, either may be off: two states, and so at the end."""
    machine = machine_of([MachinePart("a"), MachinePart("b")], [])
    practice = Practice({"a": handled("upright", "driver"), "b": handled("upright", "key")})
    assert [way_in(machine, "ab", practice, Weights(), width).exact for width in (1, 2, 3)] == [False, True, True]
