"""Which records a part of two books holds: all that its families rest on in one state or the other, and no more of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from generator.bench.changes.parts import touched
from generator.cross_references import CrossReferences
from generator.records.model import (
    AssemblyUse,
    FailureMode,
    Family,
    Fastener,
    Outcome,
    Records,
    RemedySpec,
    Symptom,
    Tally,
)
from tests.bench.changes.small_book import book
from tests.building import by_id, gate

NAMED = ("assemblies", "symptoms", "failure_modes", "checks", "tallies", "fasteners")
PLAIN = {
    "assemblies": ["bar"],
    "symptoms": ["skips"],
    "failure_modes": ["gear-cracked", "lever-down", "needle-bent", "needle-worn", "timing-off"],
    "checks": ["new-needle", "open-ended"],
    "tallies": [],
    "fasteners": ["plain"],
}
"Of the trees the one that names a needle, whole; of the checks those that tell of one."


def _book() -> Records:
    made = book()
    return replace(made, fasteners={family: (Fastener("plate", "screw"),) for family in made.families})


def _touched(before: Records, now: Records, *changed: tuple[str, str]) -> list[tuple[Records, Records]]:
    return list(touched(CrossReferences(before), CrossReferences(now), changed))


def _held(part: Records) -> dict[str, list[str]]:
    return {name: list(getattr(part, name)) for name in NAMED}


def _with(records: Records, group: str, *more: object) -> Records:
    held: Mapping[str, object] = getattr(records, group)
    return replace(records, **{group: dict(sorted({**held, **by_id(*more)}.items()))})


def test_a_part_holds_its_families_and_what_they_rest_on_in_the_order_of_the_book() -> None:
    made = _book()
    ((before, now),) = _touched(made, made, ("family", "plain"))
    assert list(before.families) == list(now.families) == ["plain"]
    assert _held(before) == _held(now) == PLAIN
    assert all(getattr(now, name)[id] is getattr(made, name)[id] for name in NAMED for id in getattr(now, name))


def test_a_part_holds_what_proves_a_setting_what_counts_a_family_and_whose_parts_are_the_same() -> None:
    """Nobody has a stand, whose gear is the drive's. To hem proves the timing of "slow" alone; to idle nothing."""
    made = _book()
    ((slow, _),) = _touched(made, made, ("family", "slow"))
    assert _held(slow) == {
        "assemblies": ["bar", "drive", "stand"],
        "symptoms": ["skips", "still"],
        "failure_modes": PLAIN["failure_modes"],
        "checks": ["look", "new-needle", "only-still", "open-ended", "hem", "sew"],
        "tallies": [],
        "fasteners": ["slow"],
    }
    ((full, _),) = _touched(made, made, ("family", "full"))
    assert _held(full) == {**_held(slow), "checks": [c for c in _held(slow)["checks"] if c != "hem"], "tallies": ["one", "two"], "fasteners": ["full"]}


def test_a_part_holds_every_check_that_bears_on_all() -> None:
    made = _book()
    look = replace(made.checks["look"], outcomes=(Outcome("Late", ("skips/hook",)), Outcome("In time", good=True)))
    ((part, _),) = _touched(*[_with(made, "checks", look)] * 2, ("family", "plain"))
    assert list(part.checks) == ["look", "new-needle", "open-ended"]


def test_lists_and_settings_of_the_shop_stand_in_every_part() -> None:
    made = _book()
    ((part, _),) = _touched(made, made, ("family", "plain"))
    assert (part.features, part.shop) == (made.features, made.shop) and made.features


def test_a_part_holds_the_trees_that_its_own_lead_to_and_theirs_with_all_that_they_name() -> None:
    """The needle's tree leads through a gate within a gate to a tree of the drive, and that to another."""
    advice = RemedySpec(advise="Try it.")
    made = _with(_book(), "failure_modes", FailureMode("lint", "Lint", 5, advice, part="cover"), FailureMode("dust", "Dust", 5, advice, part="cover"))
    odd = Symptom("odd", "Odd", ("it is odd",), gate("any", "needle-bent", gate("any", "lever-down", "deep/low")))
    deep = Symptom("deep", "Deep", ("it is deep",), gate("any", gate("any", "gear-cracked", id="low"), "deeper/far", "lint"))
    deeper = Symptom("deeper", "Deeper", ("it is deeper",), gate("any", gate("any", "timing-off", id="far"), "dust"))
    made = _with(made, "symptoms", odd, deep, deeper, Symptom("apart", "Apart", ("it is apart",), gate("any", "dust")))
    ((part, _),) = _touched(made, made, ("family", "plain"))
    assert list(part.symptoms) == ["deep", "deeper", "odd", "skips"]
    assert {"lint", "dust"} <= part.failure_modes.keys()


def test_each_side_of_a_part_holds_what_either_state_needs() -> None:
    """Of what stands in one state alone, that side has it alone."""
    made = _book()
    driven = _with(made, "families", replace(made.families["plain"], assemblies=(AssemblyUse("bar"), AssemblyUse("drive"))))
    driven = _with(driven, "symptoms", Symptom("new", "New", ("it is new",), gate("any", "lever-down", "skips/hook")))
    driven = _with(driven, "tallies", Tally("three", "plain", 10, ()))
    ((before, now),) = _touched(made, driven, ("family", "plain"))
    assert list(before.assemblies) == list(now.assemblies) == ["bar", "drive", "stand"]
    assert (list(before.symptoms), list(now.symptoms)) == (["skips", "still"], ["new", "skips", "still"])
    assert (list(before.tallies), list(now.tallies)) == ([], ["three"])
    ((back, forth),) = _touched(driven, made, ("family", "plain"))
    assert (back, forth) == (now, before)


def test_a_family_of_one_state_and_an_assembly_of_none_are_passed_over_in_the_other() -> None:
    made = _book()
    new = _with(made, "families", Family("new", "New", "domestic", "New.", (AssemblyUse("bar"), AssemblyUse("lost"))))
    ((before, now),) = _touched(made, new, ("family", "new"))
    assert (list(before.families), list(now.families)) == ([], ["new"])
    assert list(now.assemblies) == ["bar"]


def test_families_come_twenty_at_a_time_each_once_by_their_ids() -> None:
    made = _book()
    many = _with(made, "families", *(replace(made.families["plain"], id=f"p-{n:02}") for n in range(38)))
    parts = _touched(many, many, ("shop", "shop"), ("failure-mode", "needle-bent"))
    assert [len(now.families) for _, now in parts] == [20, 20, 1]
    assert [id for _, now in parts for id in now.families] == sorted(many.families)
    assert _touched(many, many, ("tool", "driver")) == []
