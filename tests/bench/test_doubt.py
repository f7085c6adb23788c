"""A complaint's doubts as its records give them."""

from __future__ import annotations

from dataclasses import replace

from generator.analysis.doubt.case import unprovable
from generator.analysis.doubt.order import order
from generator.bench.doubt import NONE_OF_THESE
from generator.records.model import Records, RemedySpec, Shop
from tests.building import bench, by_id, two_families


def _doubt(records: Records, symptom: str = "skips", shop: Shop | None = None):
    made = bench(replace(records, shop=shop) if shop else records)
    return made.complaint(made.library.for_family("full"), symptom).doubt


def _with_good(records: Records) -> Records:
    """'Late' is what a sound machine shows."""
    look = records.checks["look"]
    outcomes = (replace(look.outcomes[0], good=True), look.outcomes[1])
    return replace(records, checks={**records.checks, "look": replace(look, outcomes=outcomes)})


def test_a_sound_machine_shows_what_is_otherwise() -> None:
    assert _doubt(two_families()).readings["look"].sound == 1


def test_a_good_outcome_goes_before_otherwise() -> None:
    assert _doubt(_with_good(two_families())).readings["look"].sound == 0


def test_where_no_outcome_is_good_or_otherwise_a_sound_machine_shows_none_of_them() -> None:
    found = _doubt(two_families())
    check = next(c for c in found.case.checks if c.id == "open-ended")
    assert check.outcomes[found.readings["open-ended"].sound] == NONE_OF_THESE
    assert len(found.readings["open-ended"].trust) == len(check.outcomes)


def test_a_remedy_is_dear_from_the_shops_minutes() -> None:
    """Renewing the gear: cover, needle and belt off and on, the gear, timing made again."""
    assert _doubt(two_families()).dear == {"renew:gear", "set:timing"}
    assert _doubt(two_families(), shop=Shop(dear_minutes=1000)).dear == frozenset()


def test_a_part_of_the_shops_dear_price_is_dear_whatever_the_minutes() -> None:
    dear = _doubt(two_families(), shop=Shop(dear_minutes=1000, dear_price=20, prices={"needle": "5..20"})).dear
    assert {d for d in dear if "needle" in d} == dear != frozenset()
    assert not _doubt(two_families(), shop=Shop(dear_minutes=1000, prices={"needle": "5..19"})).dear


def test_a_mode_that_says_no_sign_excuses_its_remedy() -> None:
    records = two_families()
    silent = replace(records.failure_modes["timing-off"], no_sign="Nothing tells.")
    found = _doubt(replace(records, failure_modes={**records.failure_modes, "timing-off": silent}))
    assert found.no_sign == {"set:timing"}
    assert not found.needs_proof("set:timing")
    assert found.needs_proof("renew:gear")


def test_a_dear_remedy_that_only_looks_sound_is_not_to_be_proved() -> None:
    """'Late' alone shows the timing; where a sound machine looks late too, nothing proves it."""
    assert unprovable(_doubt(two_families())) == ()
    assert "set:timing" in unprovable(_doubt(_with_good(two_families())))


def test_the_plan_of_a_complaint_names_only_its_checks_and_remedies() -> None:
    found = order(_doubt(two_families()))
    assert 0 < found.lower_bound <= found.expected_minutes


def test_a_remedy_of_advice_costs_its_minutes_and_the_proving_sew() -> None:
    records = two_families()
    long = replace(records.failure_modes["lever-down"], remedy=RemedySpec(advise="Wait.", minutes=20))
    found = _doubt(replace(records, failure_modes={**records.failure_modes, **by_id(long)}), "still")
    assert "advise:lever-down" in found.dear


def _with_checks(records: Records, **changes: dict[str, object]) -> Records:
    """Some checks with other keys, underscores for hyphens."""
    changed = {id.replace("_", "-"): keys for id, keys in changes.items()}
    return replace(records, checks={**records.checks, **{id: replace(records.checks[id], **keys) for id, keys in changed.items()}})


def test_the_unlisted_cause_is_the_familys_else_the_shops() -> None:
    records = two_families()
    assert _doubt(records, shop=Shop(unlisted=0.1)).unlisted == 0.1
    own = replace(records.families["full"], unlisted=0)
    assert _doubt(replace(records, families={**records.families, "full": own}), shop=Shop(unlisted=0.1)).unlisted == 0


def test_stopping_to_think_takes_the_shops_minutes() -> None:
    assert _doubt(two_families(), shop=Shop(stop_and_think_minutes=25)).stop_minutes == 25


def test_a_check_does_the_remedies_of_the_modes_that_it_names() -> None:
    readings = _doubt(_with_checks(two_families(), open_ended={"does": ("needle-bent",)})).readings
    assert readings["open-ended"].does == {"renew:needle"}
    assert readings["look"].does == frozenset()


def test_two_faults_together_are_done_only_where_both_are_named() -> None:
    both = {"needle-worn", "lever-down"}
    one = _doubt(_with_checks(two_families(), look={"does": ("needle-worn",)}))
    assert one.readings["look"].does == frozenset()
    assert _doubt(_with_checks(two_families(), look={"does": tuple(both)})).readings["look"].does == {
        h.remedy.id for h in one.case.hypotheses if set(h.causes) == both
    }


def test_what_comes_first_and_what_is_lost_are_of_the_checks_that_the_case_has() -> None:
    records = _with_checks(two_families(), look={"evidence_lost_by": ("new-needle", "only-still")})
    skips = replace(records.symptoms["skips"], before=("only-still", "look"))
    found = _doubt(replace(records, symptoms={**records.symptoms, "skips": skips}))
    assert found.before == ("look",)
    assert found.lost == (("new-needle", "look"),)
