"""Every plan obeys the laws: each sheet, pairs of a family's remedies, machines made up; and each law can be broken.

The laws are the trade's own, common practice; the earth and insulation tests are those that local rules
ask for after work on a mains part (IEC 60335 and the codes for repaired appliances, from memory).
The development command `python -m tests.laws --pairs --random 10000` holds all of them.
"""

from __future__ import annotations

import itertools
import random

import pytest

from generator.analysis.job.plan import plan
from generator.analysis.job.types import Plan, Step
from generator.analysis.machine import Remedy
from generator.bench import Bench
from generator.bench.jobs import joints_worked
from generator.bench.keys import keys
from tests.laws.facts import Facts, PartFacts, WorkFacts, of_family
from tests.laws.laws import LAWS, broken, unsaid
from tests.laws.made_up import made_up


def test_every_sheet_of_the_content_obeys_every_law(published: Bench) -> None:
    for view in published.library.views:
        facts = of_family(view)
        for remedy in set(published.remedies(view).values()):
            found = list(broken(facts, published.job(view, (remedy,)).plan, (remedy,)))
            assert found == [], (view.id, remedy.id)


def test_pairs_of_remedies_of_a_family_obey_every_law(published: Bench) -> None:
    chance = random.Random(7)
    for view in published.library.views:
        facts = of_family(view)
        pairs = list(itertools.combinations(sorted(set(published.remedies(view).values()), key=lambda r: r.id), 2))
        for two in chance.sample(pairs, 40):
            assert list(broken(facts, published.job(view, two).plan, two)) == [], (view.id, [r.id for r in two])


def test_every_fastener_of_a_sheet_is_on_the_chart_and_its_key_among_the_tools(published: Bench) -> None:
    for view in published.library.views:
        for remedy in set(published.remedies(view).values()):
            job = published.job(view, (remedy,))
            for joint in joints_worked(view, job.plan):
                assert joint in view.fasteners, (view.id, joint)
                for group in keys(view.fasteners[joint].drive or ""):
                    assert set(group) & set(job.tools), (view.id, remedy.id, joint)


def test_machines_made_up_obey_every_law_or_say_where_no_order_can() -> None:
    for number in range(300):
        machine, practice, remedies, facts = made_up(number)
        assert unsaid(facts, plan(machine, practice, remedies), remedies) == [], number


PARTS = {
    "cover": PartFacts(guards=True),
    "needle": PartFacts(),
    "hook": PartFacts(("cover",), ("timing",), needle_out=True, joints=("hook-screws",), nips=("hook-screws",)),
    "switch": PartFacts(mains=True),
    "wheel": PartFacts(by_hand=True),
}
MACHINE = Facts(
    PARTS,
    {"timing": WorkFacts(("cover",), ("needle",), "handwheel-only", joints=("hook-screws",))},
    {"watch": WorkFacts(power="on"), "look": WorkFacts(on=("cover",))},
)
OFF, ON = "take off", "refit"
GOOD = (
    *((OFF, part) for part in ("cover", "needle", "hook")), (ON, "hook"), (ON, "needle"),
    ("set", "timing"), (ON, "cover"), ("check", "look"), ("check", "watch"), ("sew", ""),
)  # fmt: skip
FAULTS = {
    "no_power_while_open": [(OFF, "cover"), ("check", "watch"), (ON, "cover")],
    "no_power_while_lying": [("renew", "switch"), ("check", "watch")],
    "no_power_while_loose": [*GOOD[:3], (ON, "hook"), (ON, "needle"), (ON, "cover"), ("sew", "")],
    "no_power_while_out_of_time": [*GOOD[:3], (ON, "hook"), (ON, "needle"), (ON, "cover"), ("sew", "")],
    "mains_tested_before_power": [("renew", "switch"), ("sew", "")],
    "needle_out_first": [(OFF, "cover"), (OFF, "hook"), (ON, "hook"), ("set", "timing"), (ON, "cover")],
    "in_place": [(OFF, "cover"), ("check", "look"), (ON, "cover")],
    "out_of_the_way": [("set", "timing")],
    "turned_by_hand": [(OFF, "wheel"), *GOOD[:-1], (ON, "wheel")],
    "nothing_in_front": [(OFF, "needle"), (OFF, "hook"), *GOOD[3:5]],
    "nipped_as_the_records_say": [(OFF, "cover"), (ON, "cover")],
    "joints_end_tight": [*GOOD[:5], (ON, "cover")],
    "settings_end_good": [*GOOD[:5], (ON, "cover")],
    "parts_end_on": [(OFF, "cover")],
}


def _plan(done: list[tuple[str, str]]) -> Plan:
    nips = {"hook": ("hook-screws",), "cover": ("cover-screw",) if len(done) == 2 else ()}
    steps = tuple(
        Step(do, part, "work", position="on-its-back" if do == "renew" else "", nips=nips.get(part, ()) if do == ON else ())
        for do, part in done
    )
    return Plan(steps, (), 0, (), (), (), (), 0, 0, True)


def test_a_plan_that_is_right_breaks_no_law() -> None:
    assert list(broken(MACHINE, _plan(list(GOOD)), ())) == []


@pytest.mark.parametrize("law", FAULTS)
def test_each_law_finds_what_breaks_it(law: str) -> None:
    remedies = (Remedy("r", renew=("switch",)),) if law.startswith("mains") else ()
    assert law in {found for found, _ in broken(MACHINE, _plan(FAULTS[law]), remedies)}


def test_no_law_is_without_a_case() -> None:
    ends = {"joints_end_tight", "settings_end_good", "parts_end_on"}
    assert {law.__name__.strip("_") for law in LAWS} | ends == FAULTS.keys()
