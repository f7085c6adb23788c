"""Jobs from records: plans proved right, minutes and money against sums done by hand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from generator.analysis.machine import Machine, Remedy
from generator.bench import Bench
from generator.bench.jobs import Job, rates, renewing, setting
from generator.bench.keys import keys
from generator.bench.recorded import Recorded
from generator.content_rules import load_checked
from generator.family_view import FamilyView
from generator.library import Library
from generator.records.model import Shop, Tally, Took
from tests.analysis.job.job_proof import faults

TESTS = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def bench() -> Bench:
    return Bench(Library(load_checked([TESTS / "fixtures" / "jobs"])[0]))


@pytest.fixture(scope="module")
def real(published) -> Bench:
    return published


def test_every_plan_of_the_published_content_is_proved_right_and_takes_the_minutes_told_elsewhere(real: Bench) -> None:
    for view in real.library.views:
        for mode, remedy in real.remedies(view).items():
            job = real.job(view, (remedy,))
            assert faults(job.plan, real.machine(view), job.remedies) == (), f"{view.id} {mode}"
            whole = real.whole_minutes(view, remedy) + minutes_of_parts_on_between(real.machine(view), job)
            assert job.plan.minutes == pytest.approx(whole), f"{view.id} {mode}"
            undone = [n for s in job.plan.steps for n in s.notes if n.startswith(("Made with", "Done with"))]
            assert undone == [], f"{view.id} {mode}"
            assert mode in job.modes


def minutes_of_parts_on_between(machine: Machine, job: Job) -> float:
    """Off and on of parts that are put on for a setting or a check and come off again after it."""
    often = Counter(s.part for s in job.plan.steps if s.do == "take off")
    return sum((n - 1) * (machine.parts[p].off_minutes + machine.parts[p].on_minutes) for p, n in often.items())


def test_several_remedies_of_the_published_content_make_one_proved_plan_that_takes_less_than_each_alone(real: Bench) -> None:
    for view in real.library.views:
        remedies = sorted(set(real.remedies(view).values()), key=lambda r: r.id)
        for several in zip(remedies[::7], remedies[3::7], remedies[5::7]):
            job = real.job(view, several)
            assert faults(job.plan, real.machine(view), job.remedies) == (), [r.id for r in several]
            assert job.plan.minutes < sum(real.whole_minutes(view, r) for r in several)


def test_a_gear_behind_two_parts_takes_its_way_in_and_out_the_upset_setting_and_the_closing_tests(bench: Bench) -> None:
    view = bench.library.for_family("probe-1")
    job = bench.job(view, (bench.remedies(view)["gear-cracked"],))
    needle, cover, gear, timing, sew = 0.5 + 0.5, 2 + 2, 6 + 6, 8, 7  # seven closing tests of a minute each
    assert job.plan.minutes == needle + cover + gear + timing + sew
    assert job.modes == ("gear-cracked", "gear-stripped")
    assert job.plan.settings == ("timing",)


def test_the_quote_follows_the_shop_from_the_plan_up_and_is_rounded_outward_to_its_amount(bench: Bench) -> None:
    view = bench.library.for_family("probe-1")
    quote = bench.job(view, (renewing("gear", view),)).quote
    assert quote.labour == (32, 40)  # 32 min at 60 an hour; a quarter over is 40
    assert quote.parts == (13, 27)  # 9 to 18 and a half: 13.5 to 27
    assert quote.total == (45, 70)  # 45 to 67, outward to fives


def test_there_is_no_quote_while_the_shop_gives_no_rate() -> None:
    records = load_checked([TESTS / "fixtures" / "jobs"])[0]
    bench = Bench(Library(replace(records, shop=Shop())))
    view = bench.library.for_family("probe-1")
    assert bench.job(view, (setting("pressure"),)).quote is None


def test_a_shop_that_writes_decimals_is_taken_at_its_word() -> None:
    got = rates(Shop(labour_rate=47.1, spread=0.1, margin=0.3, rounding=0.5))
    assert (got.labour, got.spread, got.margin, got.rounding) == (
        Fraction(471, 10),
        (1, Fraction(11, 10)),
        Fraction(3, 10),
        Fraction(1, 2),
    )


def test_tools_are_those_of_the_steps_the_remedies_and_the_proofs(bench: Bench) -> None:
    view = bench.library.for_family("probe-1")
    remedies = bench.remedies(view)
    assert bench.job(view, (remedies["gear-cracked"],)).tools == ("driver", "key", "loupe")
    assert bench.job(view, (remedies["lint-packed"],)).tools == ("brush", "driver")


def test_no_step_names_a_key_that_its_own_screws_do_not_take(real: Bench) -> None:
    """Common practice, no source: the nearest wrong key rounds a socket, 3/32 in in 2.5 mm before all."""
    for view in real.library.views:
        practice = real.practice(view)
        for part in view.parts.values():
            handled = practice.parts[part.id]
            assert keys_of(handled.off_tools) <= taken(view, (*part.joints, *part.off.slackens)), (view.id, part.id)
        for setting_of in view.settings.values():
            tools = practice.settings[setting_of.id].tools
            assert keys_of(tools) <= taken(view, setting_of.joints), (view.id, setting_of.id)
    steps = real.job(real.library.for_family("pellworth-f"), remedies_of(real, "pellworth-f", "upper-shaft-bush-worn")).plan.steps
    assert "hex-key-2-5" in {tool for step in steps for tool in step.tools}


def keys_of(tools: Iterable[str]) -> set[str]:
    return {tool for tool in tools if tool.startswith("hex-key-")}


def taken(view: FamilyView, joints: Iterable[str]) -> set[str]:
    return keys_of(tool for joint in joints for group in keys(view.fasteners[joint].drive or "") for tool in group)


def remedies_of(bench: Bench, family: str, mode: str) -> tuple[Remedy, ...]:
    return (bench.remedies(bench.library.for_family(family))[mode],)


def test_a_check_that_a_family_cannot_do_proves_none_of_its_settings(real: Bench) -> None:
    for view in real.library.views:
        for handling in real.practice(view).settings.values():
            assert not handling.proved_by or handling.proved_by in view.checks


def test_what_is_turned_by_hand_has_its_wheel_on_and_what_runs_has_its_guards_on() -> None:
    """Common practice, no source: no power with a guard off, and no turning by hand without the wheel."""
    records, _ = load_checked([TESTS.parent / "content"])
    bench = Bench(Library(records))
    for view in bench.library.views:
        machine = bench.machine(view)
        wheel = {p.id for p in view.parts.values() if p.by_hand}
        guards = {p.id for p in view.parts.values() if p.guards}
        for made in view.settings.values():
            on = set(machine.settings[made.id].on) | set(made.reach)
            assert made.power != "handwheel-only" or wheel <= on, (view.id, made.id)
            assert made.power != "on" or guards <= on, (view.id, made.id)


def recording(*shops_and_minutes: tuple[str | None, tuple[float, ...]]) -> Job:
    """The cracked gear's job in a book where shops wrote down what such jobs took them."""
    records = load_checked([TESTS / "fixtures" / "jobs"])[0]
    told = [
        Tally(f"t{n}", "probe-1", 40, (), shop=shop, took=(Took("gear-cracked", minutes),))
        for n, (shop, minutes) in enumerate(shops_and_minutes)
    ]
    bench = Bench(Library(replace(records, tallies={tally.id: tally for tally in told})))
    view = bench.library.for_family("probe-1")
    return bench.job(view, (bench.remedies(view)["gear-stripped"],))


def test_three_finished_jobs_of_the_shop_itself_carry_the_quote_instead_of_the_plan() -> None:
    job = recording(("Test bench", (70, 40)), (None, (60,)), ("Another shop", (5, 5, 5)))
    assert job.recorded == Recorded(3, 60)  # the middle of 40, 60 and 70; another shop's pace says nothing
    assert job.plan.minutes == 32
    assert (job.quote.minutes, job.quote.labour) == ((60, 75), (60, 75))  # 60 an hour; a quarter over


def test_two_finished_jobs_carry_no_quote() -> None:
    job = recording(("Test bench", (70, 40)), ("Another shop", (60,)))
    assert job.recorded is None
    assert job.quote.labour == (32, 40)
