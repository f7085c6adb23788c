"""What one family has, has not, and does otherwise."""

from __future__ import annotations

from dataclasses import replace

from generator.library import Library
from generator.records.model import AssemblyUse, Caution, Move
from generator.wording.links import Links
from tests.building import two_families


def view(family: str):
    return Library(two_families()).for_family(family)


def test_a_family_has_the_failure_modes_of_its_parts_and_settings():
    assert set(view("full").failure_modes) == {"gear-cracked", "lever-down", "needle-bent", "needle-worn", "timing-off"}
    assert set(view("plain").failure_modes) == {"needle-bent", "needle-worn"}


def test_what_a_family_lacks_is_said_in_words():
    assert view("plain").not_here["gear-cracked"] == "this family has no gear"
    assert view("slow").not_here["lever-down"] == "this family has no drop-feed lever"


def test_parts_that_the_family_lacks_fall_out_of_behind():
    assert view("full").parts["gear"].behind == ("cover", "needle")


def test_changes_are_laid_over_key_by_key():
    gear = view("slow").parts["gear"]
    assert (gear.off.minutes, gear.on.minutes) == (9, 6)


def test_without_takes_a_part_away():
    assert "lever" not in view("slow").parts


def test_reach_of_a_check_names_only_parts_that_are_there():
    assert view("full").checks["look"].reach == ("cover",)


def test_a_family_is_offered_no_row_of_what_it_cannot_have_and_always_what_a_sound_machine_shows():
    rows = {f: {c.id: [o.says for o in c.outcomes] for c in view(f).checks.values()} for f in ("full", "plain")}
    assert rows["full"]["look"] == ["Late", "In time"] and rows["plain"]["look"] == ["In time"]
    assert rows["full"]["open-ended"] == ["Cracked", "Sharp"] and rows["plain"]["open-ended"] == ["Sharp"]
    assert rows["plain"]["new-needle"] == ["Cured", "Still"]


def test_a_symptom_is_a_familys_only_if_it_can_come_about():
    assert set(view("full").symptoms) == {"skips", "still"}
    assert set(view("plain").symptoms) == {"skips"}


def test_the_familys_own_rate_stands_above_the_records():
    assert view("full").seen("gear-cracked") == 50
    assert view("slow").seen("gear-cracked") == 20


def test_a_reference_fits_modes_by_mode_gate_part_setting_and_assembly():
    library = Library(two_families())
    assert library.fitted("needle-bent") == {"needle-bent"}
    assert library.fitted("skips/hook") == library.fitted("hook") == {"gear-cracked", "timing-off"}
    assert library.fitted("needle") == {"needle-bent", "needle-worn"}
    assert library.fitted("timing") == {"timing-off"}
    assert library.fitted("drive") == {"gear-cracked", "lever-down", "timing-off"}


def test_a_caution_about_what_a_family_says_it_lacks_is_spared_and_in_doubt_it_stays():
    records = two_families()
    lever = Caution("lever", "The lever bites", "Mind it.", "caution", needs=("drop_feed_lever",))
    needle = replace(records.assemblies["bar"].parts["needle"], cautions=("lever",), off=Move(minutes=1, cautions=("lever",)))
    bar = replace(records.assemblies["bar"], parts={"needle": needle}, cautions=("lever",))
    checks = {i: replace(c, cautions=("lever",)) for i, c in records.checks.items()}
    library = Library(replace(records, cautions={"lever": lever}, assemblies={**records.assemblies, "bar": bar}, checks=checks))
    for family, kept in (("full", ("lever",)), ("plain", ()), ("slow", ("lever",))):
        view = library.for_family(family)
        part = view.assemblies["bar"].parts["needle"]
        shown = (view.assemblies["bar"].cautions, part.cautions, part.off.cautions, view.checks["look"].cautions)
        assert shown == (kept,) * 4
        assert view.needed(("lever",)) == kept


def test_a_family_may_call_a_mechanism_by_another_title():
    records = two_families()
    slow = replace(records.families["slow"], assemblies=(AssemblyUse("bar"), AssemblyUse("drive", title="Belt drive")))
    library = Library(replace(records, families={**records.families, "slow": slow}))
    own, other = library.for_family("slow"), library.for_family("full")
    assert (own.assemblies["drive"].title, other.assemblies["drive"].title) == ("Belt drive", "Drive")
    titles = [Links(library, "x.html", view).title("assembly", "drive") for view in (own, other, None)]
    assert titles == ["Belt drive", "Drive", "Drive"]
