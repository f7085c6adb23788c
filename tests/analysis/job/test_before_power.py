"""What runs under power, and what stands before it."""

from __future__ import annotations

import pytest

from generator.analysis.job.before_power import is_live, with_tests
from generator.analysis.job.types import Step

LIVE = {"belt-tension", "run-slowly"}


@pytest.mark.parametrize(
    ("do", "part", "live"),
    [
        ("sew", "", True),
        ("set", "belt-tension", True),
        ("check", "run-slowly", True),
        ("set", "hook-timing", False),
        ("check", "watch-hook", False),
        ("refit", "belt-tension", False),
        ("remedy", "run-slowly", False),
    ],
)
def test_the_machine_runs_in_the_sew_and_in_settings_and_checks_that_are_made_under_power(do: str, part: str, live: bool) -> None:
    assert is_live(Step(do, part, "prove"), LIVE) == live


def test_the_mains_tests_stand_before_the_first_step_under_power_as_the_machine_then_lies() -> None:
    steps = [Step("refit", "motor", "way-out"), Step("check", "run-slowly", "prove", position="on-its-back"), Step("sew", "", "prove")]
    tested = with_tests(steps, 6, LIVE)
    assert [(s.do, s.minutes, s.position) for s in tested[1:3]] == [("test", 6, "on-its-back"), ("check", 0, "on-its-back")]
    assert [s.do for s in tested] == ["refit", "test", "check", "sew"]
    assert with_tests(steps, None, LIVE) == tuple(steps)
