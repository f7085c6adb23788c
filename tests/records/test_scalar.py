"""Plain scalars against the tables of YAML 1.2.2, section 10.3.2 (core schema; from memory)."""

import pytest

from generator.records.scalar import resolve

CORE_SCHEMA = [
    ("null", None), ("Null", None), ("NULL", None), ("~", None), ("", None),
    ("true", True), ("True", True), ("TRUE", True), ("false", False), ("False", False), ("FALSE", False),
    ("0", 0), ("-19", -19), ("+12", 12), ("0o14", 12), ("0xC", 12), ("012", 12),
    ("0.", 0.0), ("-0.0", -0.0), (".5", 0.5), ("+12e03", 12000.0), ("-2E+05", -200000.0), ("12e3", 12000.0),
]  # fmt: skip

STRINGS_IN_1_2 = [
    "y", "n", "yes", "no", "on", "off", "On", "OFF", "Yes", "NO",  # booleans in YAML 1.1
    "1:30", "190:20:30",  # sexagesimal in YAML 1.1
    "1_000", "0b101", "+0x1F", "-0o7",  # numbers in YAML 1.1
    "2025-01-31", "2001-12-14t21:59:43.10-05:00",  # timestamps in YAML 1.1
    "<<", "=", "9..18", "1/4 in", "3/32", "10-32", "1.2.3", "e3", ".", "-", "tRUE", "nULL",
]  # fmt: skip


@pytest.mark.parametrize(("text", "value"), CORE_SCHEMA)
def test_the_core_schema_resolves_as_the_standard_says(text: str, value: object) -> None:
    assert resolve(text) == value
    assert type(resolve(text)) is type(value)


@pytest.mark.parametrize("text", STRINGS_IN_1_2)
def test_what_only_yaml_1_1_takes_for_more_stays_text(text: str) -> None:
    assert resolve(text) == text


@pytest.mark.parametrize("text", [".inf", "-.INF", ".nan", ".NaN", "1e999", "9" * 5000, "1" * 400])
def test_a_number_without_a_finite_value_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="number"):
        resolve(text)
