"""Which families a record reaches, in a book small enough to be read off by eye."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.bench.changes.reach import Reach
from generator.cross_references import CrossReferences
from generator.records.model import AssemblyUse, Outcome
from tests.bench.changes.small_book import book

EVERY = {"full", "plain", "slow"}
DRIVEN = {"full", "slow"}


@pytest.mark.parametrize(
    ("kind", "id", "reaches"),
    [
        ("family", "plain", {"plain"}),
        ("tally", "one", {"full"}),
        ("assembly", "drive", DRIVEN),
        ("assembly", "bar", EVERY),
        ("assembly", "stand", DRIVEN),
        ("failure-mode", "gear-cracked", DRIVEN),
        ("failure-mode", "timing-off", DRIVEN),
        ("failure-mode", "needle-bent", EVERY),
        ("failure-mode", "stand-worn", set()),
        ("failure-mode", "nowhere", set()),
        ("symptom", "skips", EVERY),
        ("symptom", "still", DRIVEN),
        ("check", "look", DRIVEN),
        ("check", "new-needle", EVERY),
        ("check", "only-still", DRIVEN),
        ("check", "open-ended", EVERY),
        ("check", "idle", set()),
        ("shop", "shop", EVERY),
        ("tool", "driver", set()),
        ("technique", "free-it", set()),
        *((kind, "gone", set()) for kind in ("family", "tally", "assembly", "failure-mode", "symptom", "check")),
    ],
)
def test_a_record_reaches_the_families_that_are_reckoned_from_it(kind: str, id: str, reaches: set[str]) -> None:
    assert set(Reach(CrossReferences(book())).families_of(kind, id)) == reaches


def test_a_proof_reaches_the_families_whose_settings_it_proves_as_written_or_as_they_have_it() -> None:
    reach = Reach(CrossReferences(book()))
    assert reach.proofs == {"full": {"sew"}, "plain": set(), "slow": {"sew", "hem"}}
    assert (set(reach.families_of("check", "sew")), set(reach.families_of("check", "hem"))) == (DRIVEN, {"slow"})


def test_a_check_without_an_outcome_for_all_else_bears_on_every_failure_mode() -> None:
    """What it names none of shows nothing of it, and a sound machine neither; with a good outcome the two differ."""
    made = book()
    named = replace(made.checks["look"], outcomes=(Outcome("Late", ("skips/hook",)), Outcome("In time", good=True)))
    reach = Reach(CrossReferences(replace(made, checks={**made.checks, "look": named})))
    assert reach.general == {"look"}
    assert set(reach.families_of("check", "look")) == EVERY


def test_a_failure_mode_is_named_by_the_trees_that_transfer_to_it_too() -> None:
    naming = Reach(CrossReferences(book())).naming
    assert {mode: naming[mode] for mode in ("gear-cracked", "lever-down", "needle-bent")} == {
        "gear-cracked": {"skips", "still"}, "lever-down": {"skips", "still"}, "needle-bent": {"skips"},
    }
    assert "stand-worn" not in naming


def test_a_family_may_name_an_assembly_that_is_no_record_any_more() -> None:
    made = book()
    plain = replace(made.families["plain"], assemblies=(AssemblyUse("bar"), AssemblyUse("lost")))
    reach = Reach(CrossReferences(replace(made, families={**made.families, "plain": plain})))
    assert set(reach.families_of("assembly", "lost")) == {"plain"}
    assert reach.proofs["plain"] == set()
