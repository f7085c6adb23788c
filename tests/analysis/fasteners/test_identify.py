"""An unknown screw: what it may be and what it is taken for."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.fasteners.lookalikes import lookalikes
from generator.standards.notation import parse_thread
from generator.standards.threads import THREADS
from tests.vectors.identify import identify, under_size


@pytest.mark.parametrize(
    ("diameter", "pitch", "name"),
    [
        # Readings a little under nominal, as used screws give (common practice, no source).
        (4.30, 0.635, "11/64-40"),
        (3.50, 0.635, "9/64-40"),
        (4.75, 0.794, "10-32"),
        (3.92, 0.7, "M4"),
        (2.90, 0.5, "M3"),
        (5.88, 0.907, "15/64-28"),
        (2.32, 0.454, "3/32-56"),
    ],
)
def test_a_worn_screw_is_known_again(diameter: float, pitch: float, name: str) -> None:
    best = identify(diameter, pitch)[0]
    assert (best.thread.name, best.fits) == (name, True)
    assert best.diameter_error_mm < 0


@pytest.mark.parametrize(
    ("pitch", "limit"),
    [
        # Least major diameter under nominal: ISO 965 6g M4 3.838, M6 5.794; ASME B1.1 2A 8-32 .1571 in, 1/4-20 .2408 in
        # (all from memory); wear of 0.05 mm comes on top.
        (0.7, 4 - 3.838), (1.0, 6 - 5.794), (25.4 / 32, (0.1640 - 0.1571) * 25.4), (25.4 / 20, (0.25 - 0.2408) * 25.4),
    ],
)  # fmt: skip
def test_the_allowance_is_the_standards_tolerance_and_wear(pitch: float, limit: float) -> None:
    assert under_size(pitch) - 0.05 == pytest.approx(limit, abs=0.01)


@given(st.sampled_from(sorted(THREADS)), st.floats(0, 1))
def test_every_listed_thread_anywhere_in_its_allowance_fits(name: str, worn: float) -> None:
    thread = THREADS[name]
    reading = float(thread.diameter_mm) - worn * under_size(float(thread.pitch_mm)) * 0.999
    found = {c.thread.name: c.fits for c in identify(reading, float(thread.pitch_mm), count=len(THREADS))}
    assert found[name]


@given(st.floats(1, 13), st.floats(0.2, 0.99))
def test_candidates_come_best_first(diameter: float, share: float) -> None:
    found = identify(diameter, diameter * share)
    assert [c.misfit for c in found] == sorted(c.misfit for c in found)


def test_a_screw_in_no_table_fits_nothing_but_the_nearest_is_still_shown() -> None:
    found = identify(5.4, 0.3)
    assert found and not any(candidate.fits for candidate in found)


@pytest.mark.parametrize(("diameter", "pitch"), [(0, 0), (4, 0), (4, 5), (4, -1), (float("nan"), 1), (float("inf"), 1)])
def test_readings_no_screw_has_are_refused(diameter: float, pitch: float) -> None:
    with pytest.raises(ValueError, match="No screw measures"):
        identify(diameter, pitch)


@pytest.mark.parametrize(
    ("one", "other"),
    # Pairs that start and do not belong: common practice, no source.
    [("11/64-40", "M4.5"), ("9/64-40", "M3.5"), ("10-32", "M5"), ("8-32", "M4"), ("3/16-32", "10-32"), ("3/16-28", "3/16-32")],
)
def test_pairs_that_start_and_do_not_belong_warn_both_ways(one: str, other: str) -> None:
    assert other in [found.thread.name for found in lookalikes(parse_thread(one))]
    assert one in [found.thread.name for found in lookalikes(parse_thread(other))]


def test_the_warning_says_how_it_goes_wrong() -> None:
    says = {found.thread.name: found.says for found in lookalikes(parse_thread("11/64-40"))}
    # Worked: 0.75 - 0.635 = 0.115 mm a turn.
    assert "part by 0.12 mm at each turn" in says["M4.5"]
    loose = {found.thread.name: found.says for found in lookalikes(parse_thread("M5"))}
    # Worked: 5 - 4.826 = 0.174 mm.
    assert "0.17 mm thinner" in loose["10-32"]


@given(st.sampled_from(sorted(THREADS)))
def test_a_thread_is_not_its_own_lookalike(name: str) -> None:
    assert name not in [found.thread.name for found in lookalikes(THREADS[name])]
