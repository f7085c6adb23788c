"""Drills by the workshop rules against tabled drills."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.fasteners.drills import clearance_drill, tapping_drill
from generator.standards.notation import parse_thread
from generator.standards.threads import THREADS


@pytest.mark.parametrize(
    ("thread", "mm"),
    [
        # ISO 2306, drills for tapping coarse threads (from memory).
        ("M2", 1.6), ("M3", 2.5), ("M4", 3.3), ("M5", 4.2), ("M6", 5.0), ("M8", 6.8), ("M10", 8.5),
        # Tap drill charts for 75 % thread (from memory): No. 36, 29, 21, 7 drills.
        ("6-32", 0.1065 * 25.4), ("8-32", 0.1360 * 25.4), ("10-32", 0.1590 * 25.4), ("1/4-20", 0.2010 * 25.4),
    ],
)  # fmt: skip
def test_the_tapping_rule_lands_on_the_tabled_drill(thread: str, mm: float) -> None:
    assert float(tapping_drill(parse_thread(thread)).mm) == pytest.approx(mm, abs=0.1)


@pytest.mark.parametrize(("thread", "mm"), [("M3", 3.4), ("M4", 4.5), ("M5", 5.5), ("M6", 6.6), ("M8", 9), ("M10", 11)])
def test_the_clearance_rule_lands_near_the_medium_series_of_iso_273(thread: str, mm: float) -> None:
    # ISO 273, medium series, from memory.
    assert float(clearance_drill(parse_thread(thread)).mm) == pytest.approx(mm, abs=0.2)


@given(st.sampled_from(sorted(THREADS)))
def test_tapping_drill_is_under_the_screw_and_clearance_drill_over_it(name: str) -> None:
    thread = THREADS[name]
    # The hole is never smaller than the basic minor diameter, D - 1.0825 P (ISO 68-1).
    assert float(thread.diameter_mm) - 1.0826 * float(thread.pitch_mm) < tapping_drill(thread).mm < thread.diameter_mm
    assert thread.diameter_mm < clearance_drill(thread).mm


def test_drills_are_given_in_inches_too() -> None:
    assert tapping_drill(parse_thread("1/4-20")).inches == pytest.approx(0.2)
