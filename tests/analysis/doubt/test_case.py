"""What a doubtful case takes and refuses, each bound from both sides, and what its outcomes are signs of."""

from __future__ import annotations

import json
from dataclasses import replace
from math import inf, nan
from pathlib import Path

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import TRUST, UNLISTED, Doubt, Reading, plain, signs, unprovable
from generator.analysis.machine import Machine, Remedy

SCHEMA = Path(__file__).parents[3] / "schema"

MOTOR = Hypothesis("motor-worn", ("motor-worn",), 2, Remedy("renew:motor"))
BELT = Hypothesis("belt-loose", ("belt-loose",), 3, Remedy("set:belt"))
SLACK = Hypothesis("belt-slack", ("belt-slack",), 1, Remedy("set:belt"))
LOOK = Check("look", 1, (), ("burnt", "loose", "right"), {"motor-worn": 0, "belt-loose": 1, "belt-slack": 2})
LISTEN = Check("listen", 1, (), ("hums", "quiet"), {"motor-worn": 0, "belt-loose": 1, "belt-slack": 1})
TRY = Check("try", 1, (), ("cured", "knocks", "still there"), {"motor-worn": 1, "belt-loose": 0, "belt-slack": 0}, frozenset({0}))
CASE = Case((MOTOR, BELT, SLACK), (LOOK, LISTEN, TRY), Machine(), 2)


def refusal(**more: object) -> str:
    """The sentence of the case with this changed; empty where it is taken."""
    try:
        replace(plain(CASE), **more)
    except ValueError as fault:
        return str(fault)
    return ""


def read(check: str, **more: object) -> dict[str, Reading]:
    """The readings with one changed."""
    readings = plain(CASE).readings
    return {**readings, check: replace(readings[check], **more)}


@pytest.mark.parametrize(
    "more",
    [
        {"unlisted": 0.0},
        {"unlisted": 0.999},
        {"cures": 1.0},
        {"cures": 0.001},
        {"stop_minutes": 0.0},
        {"come_back_minutes": 0.5},
        {"dear": frozenset({"renew:motor"}), "no_sign": frozenset({"renew:motor", "set:belt"})},
        {"before": ("listen", "look"), "safe": frozenset({"look"}), "powered": frozenset({"try"})},
        {"before": ("listen", "look"), "powered": frozenset({"look"})},
        {"lost": (("look", "listen"), ("set:belt", "look"), ("try", "listen"))},
        {"before": ("listen", "look"), "lost": (("look", "listen"), ("try", "look"))},
        {"readings": read("look", trust=(0.001, 1.0, 0.5))},
        {"readings": read("look", sound=0)},
        {"readings": read("look", does=frozenset({"renew:motor", "set:belt"}))},
    ],
)
def test_a_case_at_its_bounds_is_taken(more: dict[str, object]) -> None:
    assert refusal(**more) == ""


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"unlisted": -0.001}, "The unlisted cause has the prior -0.001; it is 0 or more and below 1."),
        ({"unlisted": 1.0}, "The unlisted cause has the prior 1.0; it is 0 or more and below 1."),
        ({"cures": 0.0}, "A remedy cures with probability 0.0; it is more than 0 and at most 1."),
        ({"cures": 1.001}, "A remedy cures with probability 1.001; it is more than 0 and at most 1."),
        ({"stop_minutes": -0.1}, "Stopping to think takes -0.1 minutes; minutes are 0 or more."),
        ({"stop_minutes": inf}, "Stopping to think takes inf minutes; minutes are 0 or more."),
        ({"come_back_minutes": nan}, "A job that comes back takes nan minutes; minutes are 0 or more."),
        ({"dear": frozenset({"renew:lamp"})}, "'renew:lamp' is no remedy of the case."),
        ({"no_sign": frozenset({"renew:lamp"})}, "'renew:lamp' is no remedy of the case."),
        ({"readings": {}}, "Check 'look' does not say what a sound machine shows."),
        ({"readings": read("look", sound=3)}, "Check 'look' has no outcome 3 for a sound machine."),
        ({"readings": read("try", sound=0)}, "Check 'try' cannot cure a machine in which nothing that it mends is wrong."),
        ({"readings": read("look", trust=(1.0, 1.0))}, "Check 'look' needs a trust for each outcome, more than 0 and at most 1."),
        ({"readings": read("look", trust=(0.0, 1.0, 1.0))}, "Check 'look' needs a trust for each outcome, more than 0 and at most 1."),
        ({"readings": read("look", trust=(1.0, 1.1, 1.0))}, "Check 'look' needs a trust for each outcome, more than 0 and at most 1."),
        ({"readings": read("look", does=frozenset({"renew:lamp"}))}, "Check 'look' does 'renew:lamp', which is no remedy of the case."),
        ({"before": ("look",), "safe": frozenset({"listen"})}, "'listen' is said to be safe or powered, but is no such check of the case."),
        ({"powered": frozenset({"glance"})}, "'glance' is said to be safe or powered, but is no such check of the case."),
        ({"before": ("glance",)}, "'glance' is to come before all else, but is no check of the case."),
        ({"before": ("try",)}, "'try' is to come before all else, but is a trial that may end the job."),
        (
            {"before": ("look", "listen"), "safe": frozenset({"look"}), "powered": frozenset({"listen"})},
            "'listen' is to come before all else with power on, though power waits for what must be found sound.",
        ),
        ({"lost": (("glance", "look"),)}, "'glance' is said to destroy evidence, but is no check or remedy of the case."),
        ({"lost": (("look", "set:belt"),)}, "'set:belt' is said to lose its evidence, but is no check of the case."),
        ({"lost": (("look", "listen"), ("listen", "look"))}, "'listen' would have to come after itself."),
        ({"lost": (("look", "listen"), ("listen", "try"), ("try", "look"))}, "'listen' would have to come after itself."),
        ({"before": ("look", "listen"), "lost": (("look", "listen"),)}, "'listen' would have to come after itself."),
        ({"before": ("look",), "lost": (("look", "try"), ("look", "listen"))}, "'look' comes before all else, yet destroys what 'listen' reads."),
    ],
)
def test_what_cannot_be_reckoned_is_refused_in_one_sentence(more: dict[str, object], says: str) -> None:
    assert refusal(**more) == says


def test_a_sign_of_a_remedy_is_what_its_cause_shows_and_a_sound_machine_does_not() -> None:
    """At the look: burnt is the motor's, loose the belt's; right is a sound machine's, though a slack belt shows it, too."""
    assert [signs(CASE, LOOK, 2, outcome) for outcome in range(3)] == [{"renew:motor"}, {"set:belt"}, frozenset()]
    assert [signs(CASE, LOOK, 0, outcome) for outcome in range(3)] == [frozenset(), {"set:belt"}, {"set:belt"}]


def test_what_ends_the_job_proves_nothing() -> None:
    """At the trial the belt's causes end the job; what knocks is the motor."""
    assert [signs(CASE, TRY, 2, outcome) for outcome in range(3)] == [frozenset(), {"renew:motor"}, frozenset()]


def test_a_remedy_wants_a_proof_where_it_is_dear_and_nothing_excuses_it() -> None:
    doubt = plain(CASE, dear=frozenset({"renew:motor", "set:belt"}), no_sign=frozenset({"set:belt"}))
    assert doubt.needs_proof("renew:motor")
    assert not doubt.needs_proof("set:belt")
    assert not replace(doubt, dear=frozenset()).needs_proof("renew:motor")


def test_what_wants_a_proof_that_no_check_gives_is_named() -> None:
    """To listen proves the motor; nothing but the look proves the belt."""
    dear = frozenset({"renew:motor", "set:belt"})
    heard = Case(CASE.hypotheses, (LISTEN,), Machine(), 2)
    assert unprovable(plain(heard, dear=dear)) == ("set:belt",)
    assert unprovable(plain(heard, dear=dear, no_sign=frozenset({"set:belt"}))) == ()
    assert unprovable(plain(Case(CASE.hypotheses, (), Machine(), 2), dear=dear)) == ("renew:motor", "set:belt")
    assert unprovable(plain(CASE, dear=dear)) == ()


def test_a_plain_case_takes_the_last_outcome_that_does_not_cure_as_the_sound_one() -> None:
    ends = replace(TRY, id="end", outcomes=("knocks", "still there", "cured"), sees=dict.fromkeys(TRY.sees, 2), cured=frozenset({2}))
    doubt = plain(Case(CASE.hypotheses, (LOOK, TRY, ends), Machine(), 2), 0.7)
    assert doubt.readings == {
        "look": Reading(2, (0.7, 0.7, 0.7)), "try": Reading(2, (0.7, 0.7, 0.7)), "end": Reading(1, (0.7, 0.7, 0.7)),
    }  # fmt: skip
    only = replace(TRY, id="only", outcomes=("cured",), sees=dict.fromkeys(TRY.sees, 0))
    with pytest.raises(ValueError, match="'only' cannot cure a machine"):
        plain(Case(CASE.hypotheses, (only,), Machine(), 2))


def test_what_holds_where_nothing_is_said_is_what_the_schema_tells_the_author() -> None:
    check = json.loads((SCHEMA / "check.schema.json").read_text(encoding="utf-8"))
    shop = json.loads((SCHEMA / "shop.schema.json").read_text(encoding="utf-8"))
    assert (_default(check, "trust"), _default(shop, "unlisted")) == (TRUST, UNLISTED)
    assert Doubt(CASE, plain(CASE).readings).unlisted == UNLISTED
    assert plain(CASE).readings["look"].trust == (TRUST,) * 3


def _default(schema: object, name: str) -> float:
    """Of the property of that name, wherever it is defined."""
    found = [schema[name]["default"]] if isinstance(schema, dict) and "default" in schema.get(name, ()) else []
    below = schema.values() if isinstance(schema, dict) else schema if isinstance(schema, list) else ()
    return (found + [d for value in below if (d := _default(value, name)) is not None] or [None])[0]
