"""Thread tables against the standards, and the notation that people write."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.standards.notation import parse_thread, threads_like
from generator.standards.threads import COARSE_PITCH, THREADS, TRADE, UNIFIED, UNIFIED_PITCHES

# ASME B1.1: size, threads per inch coarse and fine. #12 and 7/16 from memory.
ASME_B1_1 = """0 - 80; 1 64 72; 2 56 64; 3 48 56; 4 40 48; 5 40 44; 6 32 40; 8 32 36; 10 24 32; 12 24 28;
1/4 20 28; 5/16 18 24; 3/8 16 24; 7/16 14 20; 1/2 13 20"""

# ASME B1.1, basic major diameters in inches, as tabled (from memory).
MAJOR_INCH = {"0-80": 0.0600, "4-40": 0.1120, "6-32": 0.1380, "8-32": 0.1640, "10-32": 0.1900, "12-24": 0.2160, "1/4-20": 0.25}

# ISO 261 coarse pitches.
ISO_261 = {"M1.6": 0.35, "M2": 0.4, "M2.5": 0.45, "M3": 0.5, "M4": 0.7, "M5": 0.8, "M6": 1, "M8": 1.25, "M10": 1.5, "M12": 1.75}

# Sewing trade threads, common practice (the withdrawn JIS B 0226 listed such threads); mm worked from the notation.
TRADE_MM = {
    "3/32-56": (2.381, 0.4536),
    "1/8-44": (3.175, 0.5773),
    "9/64-40": (3.572, 0.635),
    "11/64-40": (4.366, 0.635),
    "3/16-28": (4.763, 0.9071),
    "15/64-28": (5.953, 0.9071),
}


@pytest.mark.parametrize("row", ASME_B1_1.split(";"))
def test_unified_pitches_are_those_of_asme_b1_1(row: str) -> None:
    size, *pitches = row.split()
    listed = [str(int(t.threads_per_inch)) for t in UNIFIED if t.name.rpartition("-")[0] == size]
    assert listed == [p for p in pitches if p != "-"]


@pytest.mark.parametrize(("name", "inches"), MAJOR_INCH.items())
def test_unified_major_diameters_are_those_of_asme_b1_1(name: str, inches: float) -> None:
    assert float(THREADS[name].diameter_mm) == pytest.approx(inches * 25.4, abs=1e-9)


@pytest.mark.parametrize(("name", "pitch"), ISO_261.items())
def test_a_bare_m_size_means_the_coarse_pitch_of_iso_261(name: str, pitch: float) -> None:
    thread = parse_thread(name)
    assert (float(thread.pitch_mm), thread.source, thread.memory) == (pitch, "iso-261", False)


@pytest.mark.parametrize(("name", "mm"), TRADE_MM.items())
def test_trade_threads_in_millimetres(name: str, mm: tuple[float, float]) -> None:
    thread = parse_thread(name)
    assert (float(thread.diameter_mm), float(thread.pitch_mm)) == pytest.approx(mm, abs=6e-4)
    assert (thread.series, thread.source) == ("trade", "common-practice")


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("10-32", "10-32"),
        ("#8-32 UNC", "8-32"),
        ("#8 - 32", "8-32"),
        ("No. 10-24", "10-24"),
        ("no 10-24 UNC-2A", "10-24"),
        ("1/4-20", "1/4-20"),
        ('1/4"-20 unc', "1/4-20"),
        ("1/4 in-28", "1/4-28"),
        ("2/8-20", "1/4-20"),
        ("M4", "M4"),
        ("m4", "M4"),
        ("M4x0.7", "M4"),
        ("M4 × 0,7", "M4"),
        ("M4-0.7", "M4"),
        ("M4x0.5", "M4x0.5"),
        ("M4 x .5 mm", "M4x0.5"),
        ("11/64-40", "11/64-40"),
        ("9/64 x 40", "9/64-40"),
        ('3/32"-56', "3/32-56"),
        ("10-28", "10-28"),
        ("1-1/8-7", "1 1/8-7"),
    ],
)
def test_one_name_for_every_way_of_writing_it(text: str, name: str) -> None:
    assert parse_thread(text).name == name


def test_a_trade_thread_is_exact() -> None:
    thread = parse_thread("11/64-40")
    assert thread.diameter_mm == Fraction(11, 64) * Fraction("25.4")
    assert thread.threads_per_inch == 40


def test_a_thread_in_no_table_says_so() -> None:
    thread = parse_thread("10-28")
    assert (thread.series, thread.source) == ("unknown", "")
    # Worked: 3/16-28 has the same pitch and is 1.3 % thinner.
    assert threads_like(thread)[0].name == "3/16-28"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "write it like '10-32'"),
        ("M", "write it like '10-32'"),
        ("11/64-4O", "Near ones: '11/64-40'"),
        ("#10", "write '10-24' or '10-32'"),
        ("1/4", "write '1/4-20' or '1/4-28'"),
        ("6/32", "for size 6, 32 to the inch, write '6-32'"),
        ("8-32 UNF", "the UNF thread of that size is '8-36'"),
        ("0-80 UNC", "that size has no UNC thread"),
        ("M4.3", "did you mean 'M4.5'"),
        ("M4x5", "less than the diameter"),
        ("M4x0", "at least 0.05 mm"),
        ("0/4-20", "less than the diameter"),
        ("M400x5", "at most 100 mm thick"),
        ("10-0", "no turns to the inch"),
        ("99-32", "number sizes end at 30"),
    ],
)
def test_a_bad_notation_is_told_how_to_mend(text: str, says: str) -> None:
    with pytest.raises(ValueError, match=says) as caught:
        parse_thread(text)
    assert repr(text) in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("name", sorted(THREADS))
def test_every_listed_name_reads_back_as_its_row(name: str) -> None:
    assert parse_thread(name) == THREADS[name]


inch_names = st.builds(
    lambda size, per_inch: f"{size}-{per_inch}",
    st.integers(0, 30).map(str) | st.fractions(Fraction(1, 16), 2, max_denominator=64).map(str).filter(lambda s: "/" in s),
    st.integers(45, 120),
)
metric_names = st.builds(
    lambda diameter, pitch: f"M{diameter / 10}x{pitch / 100}", st.integers(10, 200), st.integers(20, 90)
)


@given(inch_names | metric_names)
def test_canonical_text_round_trips(text: str) -> None:
    thread = parse_thread(text)
    assert parse_thread(thread.name) == thread


@given(st.text(alphabet="M#No.0123456789/-x× \"UNCF", max_size=12))
def test_any_text_is_a_thread_or_one_clear_sentence(text: str) -> None:
    try:
        thread = parse_thread(text)
    except ValueError as error:
        assert str(error).endswith((".", "?")) and "\n" not in str(error)
    else:
        assert 0 < thread.pitch_mm < thread.diameter_mm


def test_no_name_is_listed_twice() -> None:
    assert len(THREADS) == len(UNIFIED) + len(TRADE) + sum(t.is_metric for t in THREADS.values())


def test_the_coarse_pitch_is_the_coarsest_of_iso_261() -> None:
    listed = [t for t in THREADS.values() if t.source == "iso-261"]
    for diameter, pitch in COARSE_PITCH.items():
        assert pitch == max(t.pitch_mm for t in listed if t.diameter_mm == diameter)


def test_fine_is_finer_than_coarse() -> None:
    assert all(coarse is None or coarse < fine for coarse, fine in UNIFIED_PITCHES.values())
