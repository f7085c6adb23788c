"""Hex keys against the standards, and records against hex keys."""

from fractions import Fraction

import pytest

from generator.standards.agreement import disagreement, kind_of, socket_size
from generator.standards.keys import INCH_KEYS, KEY_SERIES, METRIC_KEYS, key_for, why_no_key
from generator.standards.notation import parse_thread

# ASME B18.3, key sizes in inches, decimals as tabled; the cap screw 1/2 from memory.
B18_3_SET = {
    "0-80": 0.028, "1-72": 0.035, "2-56": 0.035, "3-48": 0.050, "4-40": 0.050, "5-40": 0.0625, "6-32": 0.0625,
    "8-32": 0.0781, "10-32": 0.0938, "10-24": 0.0938, "1/4-20": 0.125, "5/16-18": 0.1562, "3/8-16": 0.1875,
    "7/16-14": 0.2188, "1/2-13": 0.25,
}  # fmt: skip
B18_3_CAP = {
    "0-80": 0.050, "1-72": 0.0625, "2-56": 0.0781, "3-48": 0.0781, "4-40": 0.0938, "5-40": 0.0938, "6-32": 0.1094,
    "8-32": 0.1406, "10-32": 0.1562, "1/4-28": 0.1875, "5/16-18": 0.25, "3/8-16": 0.3125, "7/16-20": 0.375, "1/2-13": 0.375,
}  # fmt: skip
# ISO 4026 to 4029 (set screws), ISO 4762 (cap screws), mm.
ISO_SET = {"M1.6": 0.7, "M2": 0.9, "M2.5": 1.3, "M3": 1.5, "M4": 2, "M5": 2.5, "M6": 3, "M8": 4, "M10": 5, "M12": 6}
ISO_CAP = {"M1.6": 1.5, "M2": 1.5, "M2.5": 2, "M3": 2.5, "M4": 3, "M5": 4, "M6": 5, "M8": 6, "M10": 8, "M12": 10}


@pytest.mark.parametrize(("thread", "inches"), B18_3_SET.items())
def test_set_screw_keys_are_those_of_asme_b18_3(thread: str, inches: float) -> None:
    key = key_for(parse_thread(thread), "set")
    assert key.mm / 25.4 == pytest.approx(inches, abs=6e-5)
    assert (key.source, key.inferred) == ("asme-b18.3", False)


@pytest.mark.parametrize(("thread", "inches"), B18_3_CAP.items())
def test_cap_screw_keys_are_those_of_asme_b18_3(thread: str, inches: float) -> None:
    key = key_for(parse_thread(thread), "cap")
    assert key.mm / 25.4 == pytest.approx(inches, abs=6e-5)
    assert key.memory == thread.startswith("1/2")


@pytest.mark.parametrize(("thread", "mm"), ISO_SET.items())
def test_set_screw_keys_are_those_of_iso_4026(thread: str, mm: float) -> None:
    key = key_for(parse_thread(thread), "set")
    assert (key.mm, key.source) == (mm, "iso-4026")


@pytest.mark.parametrize(("thread", "mm"), ISO_CAP.items())
def test_cap_screw_keys_are_those_of_iso_4762(thread: str, mm: float) -> None:
    key = key_for(parse_thread(thread), "cap")
    assert (key.mm, key.source) == (mm, "iso-4762")


@pytest.mark.parametrize(
    ("thread", "screw", "key"),
    [
        # Nearest listed size by arithmetic: 11/64 = .172 (#8 .164), 9/64 = .141 (#6 .138), 15/64 = .234 (1/4 .250).
        ("11/64-40", "8", "5/64 in"),
        ("9/64-40", "6", "1/16 in"),
        ("15/64-28", "1/4", "1/8 in"),
        ("1/8-44", "5", "1/16 in"),
        ("3/16-32", "10", "3/32 in"),
    ],
)
def test_a_trade_thread_borrows_the_nearest_key_and_says_so(thread: str, screw: str, key: str) -> None:
    found = key_for(parse_thread(thread), "set")
    assert (str(found.size), found.screw, found.source) == (key, screw, "common-practice")


@pytest.mark.parametrize("thread", ["M4.5", "M3.5", "12-24", "1 1/4-7"])
def test_a_size_between_the_tables_gets_no_key_but_a_sentence(thread: str) -> None:
    assert key_for(parse_thread(thread), "set") is None
    assert why_no_key(parse_thread(thread), "set").startswith(f"No table gives a key for {thread}, set screw")


@pytest.mark.parametrize("table", [INCH_KEYS["set"], INCH_KEYS["cap"], METRIC_KEYS["set"], METRIC_KEYS["cap"]])
def test_a_larger_screw_never_takes_a_smaller_key(table: dict) -> None:
    sizes = [key.mm for key in table.values()]
    assert sizes == sorted(sizes)


def test_a_cap_screw_takes_a_larger_key_than_a_set_screw() -> None:
    for tables in (INCH_KEYS, METRIC_KEYS):
        assert all(tables["cap"][size].mm > key.mm for size, key in tables["set"].items())


def test_the_series_of_keys_goes_up_without_repeats() -> None:
    for series in KEY_SERIES.values():
        assert all(a.value < b.value for a, b in zip(series, series[1:]))


@pytest.mark.parametrize(
    ("thread", "kind", "drive"),
    [
        ("10-32", "set screw, cup point", "3/32 in hex socket"),
        ("10-32", "set screw, cup point", "0.094 in hex socket"),
        ("10-32", "set screw, cup point", "slotted"),
        ("10-32", "thumb screw", "5/64 in hex socket"),
        ("M4", "socket head cap screw", "hex socket, 3 mm"),
        ("11/64-40", "set screw, cup point", "3/32 in hex socket"),
        ("M4", "set screw", "hex socket"),
    ],
)
def test_a_record_that_agrees_or_that_no_standard_judges_passes(thread: str, kind: str, drive: str) -> None:
    assert disagreement(thread, kind, drive) is None


@pytest.mark.parametrize(
    ("thread", "kind", "drive", "both"),
    [
        ("10-32", "set screw, cup point", "5/64 in hex socket", ("3/32 in", "5/64 in")),
        ("8-32", "set screw, cup point", "3/32 in hex socket", ("5/64 in", "3/32 in")),
        ("M4", "cap screw", "2 mm hex socket", ("3 mm", "2 mm")),
        ("M4", "grub screw", "hex socket, 5/64 in", ("2 mm", "5/64 in")),
    ],
)
def test_a_record_against_the_standard_is_told_both_sizes(thread: str, kind: str, drive: str, both: tuple) -> None:
    sentence = disagreement(thread, kind, drive)
    assert all(size in sentence for size in both)
    assert thread in sentence


def test_a_thread_that_cannot_be_read_is_refused() -> None:
    with pytest.raises(ValueError, match="is no thread"):
        disagreement("ten-thirty-two", "set screw", "3/32 in hex socket")


def test_words_of_kind_and_drive() -> None:
    assert [kind_of(k) for k in ("Set screw, dog point", "socket head cap screw", "shoulder screw")] == ["set", "cap", None]
    assert socket_size("3/32 in hexagon socket").value == Fraction(3, 32)
    assert socket_size("2 V hex socket") is None
