"""Quantities: what people write is read exactly, and written back the same."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.standards.quantity import ALIASES, PATTERN, UNITS, Quantity


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("3/32 in", Fraction(3, 32), "in"),
        ("1 1/4 in", Fraction(5, 4), "in"),
        ("1-1/4 in", Fraction(5, 4), "in"),
        ('3/32"', Fraction(3, 32), "in"),
        ("0,7 mm", Fraction(7, 10), "mm"),
        (".035 in", Fraction(7, 200), "in"),
        ("-5 °C", Fraction(-5), "°C"),
        ("20 lbf in", Fraction(20), "lbf·in"),
        ("1 drop", Fraction(1), "drops"),
        (" 6 spi ", Fraction(6), "spi"),
        ("2.2mm", Fraction(11, 5), "mm"),
    ],
)
def test_reads_what_people_write(text: str, value: Fraction, unit: str) -> None:
    assert Quantity.parse(text) == Quantity(value, unit)


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        # 1 in = 25.4 mm exactly, 1 lbf = 4.4482216152605 N exactly: NIST SP 811, Appendix B (from memory).
        ("1 in", "mm", 25.4),
        ("1 lbf", "N", 4.4482216152605),
        ("1 gf", "cN", 0.980665),
        # NIST SP 811: 1 lbf·in = 1.129 848 E-01 N·m.
        ("1 lbf·in", "N·m", 0.1129848),
        # ISO 1144: denier = 9 tex.
        ("30 tex", "den", 270.0),
        ("1 turn", "deg", 360.0),
        # Worked: 25.4 mm / 10 mm.
        ("25.4 spi", "spcm", 10.0),
    ],
)
def test_converts_by_the_defined_factors(text: str, unit: str, expected: float) -> None:
    assert Quantity.parse(text).number(unit) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("text", ["", "mm", "3", "3/0 in", "1,000.5 mm", "3/32 in or so", "1 2 mm", "٣ mm"])
def test_refuses_with_an_example(text: str) -> None:
    with pytest.raises(ValueError, match="such as '3/32 in'"):
        Quantity.parse(text)


def test_a_near_unit_is_offered() -> None:
    with pytest.raises(ValueError, match="Did you mean 'turns'"):
        Quantity.parse("2 tunrs")


def test_a_length_is_no_torque() -> None:
    with pytest.raises(ValueError, match="is a length and cannot be given in 'N·m'"):
        Quantity.parse("2 mm").to("N·m")


@pytest.mark.parametrize("unit", [*UNITS, *ALIASES])
def test_every_unit_and_every_other_spelling_is_read(unit: str) -> None:
    assert Quantity.parse(f"2 {unit}").unit == ALIASES.get(unit, unit)


quantities = st.builds(Quantity, st.fractions(max_denominator=10_000), st.sampled_from(sorted(UNITS)))


@given(quantities)
def test_canonical_text_round_trips(quantity: Quantity) -> None:
    assert Quantity.parse(str(quantity)) == quantity


@given(quantities)
def test_the_schema_pattern_accepts_all_canonical_text(quantity: Quantity) -> None:
    assert re.search(PATTERN, str(quantity))


@given(st.text(max_size=12) | st.from_regex(PATTERN, fullmatch=True))
def test_the_schema_pattern_and_the_parser_agree(text: str) -> None:
    try:
        Quantity.parse(text)
        parsed = True
    except ValueError:
        parsed = False
    assert parsed == bool(re.search(PATTERN, text.strip()))


@given(quantities, st.sampled_from(sorted(UNITS)))
def test_converting_there_and_back_changes_nothing(quantity: Quantity, unit: str) -> None:
    if UNITS[unit][0] == quantity.dimension:
        assert quantity.to(unit).to(quantity.unit) == quantity


def test_inches_stay_fractions_and_millimetres_decimals() -> None:
    assert str(Quantity.parse("0.09375 in")) == "3/32 in"
    assert str(Quantity(Fraction(5, 4), "mm")) == "1.25 mm"
    assert str(Quantity(Fraction(1, 3), "mm")) == "1/3 mm"
