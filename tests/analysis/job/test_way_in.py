"""The way in against every linear extension, counted anew here (networkx lists them)."""

from __future__ import annotations

from itertools import permutations

import networkx as nx
import pytest

from generator.analysis.job.types import Practice, Weights
from generator.analysis.job.way_in import way_in
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
