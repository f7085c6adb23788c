"""The rules that need the standards: a key against its thread, and a flat against its shaft.

Hex sockets of set screws: ASME B18.3 (10-32: 3/32 in) and ISO 4026 (M4: 2 mm); from memory. A flat is a chord of the
shaft's round, so it is never wider than the shaft nor deeper than its middle.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.content_rules import EXTRA_RULES, load_checked
from generator.records.report import as_text

SOUND = Path(__file__).parent / "records" / "sound"
SET = "kind: set screw, thread: {thread}, drive: {drive}"


def said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, gear_screws: str) -> str:
    """What is said of the sound content with the note on the gear's screws written so."""
    monkeypatch.chdir(tmp_path)
    shutil.copytree(SOUND, "content")
    notes = f"- {{joint: plate-screws, kind: countersunk screw}}\n- {{joint: gear-screws, {gear_screws}}}\n"
    Path("content/fasteners/testa-1.yaml").write_text(notes, encoding="utf-8")
    return as_text(load_checked([Path("content")])[1])


def line(note: str, at: str, message: str, rule: str = "fastener-key") -> str:
    """The one line said, at the place where `at` begins."""
    column = len("- {joint: gear-screws, ") + note.index(at) + 1
    return f"content/fasteners/testa-1.yaml:2:{column}: {message} [{rule}]"


def test_sound_content_breaks_none_of_them():
    assert as_text(load_checked([SOUND])[1]) == ""
    assert [rule.name for rule in EXTRA_RULES] == [
        "fastener-key",
        "fastener-flat",
        "figure-stands-once",
        "rod-over-crank",
        "rise-within-stroke",
        "needle-leaves-the-plate",
        "figures-that-can-be",
        "gauge-has-its-measure",
        "words-fit-the-machine",
        "caution-needs-what-it-speaks-of",
    ]


@pytest.mark.parametrize(
    "note",
    [
        SET.format(thread="10-32", drive="3/32 in hex socket"),
        SET.format(thread="M4x0.7", drive='"hex socket, 2 mm"'),
        SET.format(thread="10-32", drive="slotted"),
        "kind: thumb screw, thread: 10-32, drive: 5/64 in hex socket",
        "kind: set screw, thread: 10-32",
        "kind: set screw, drive: 5/64 in hex socket",
    ],
)
def test_a_key_that_is_the_standards_or_of_which_no_standard_speaks_is_left_alone(tmp_path, monkeypatch, note):
    assert said(tmp_path, monkeypatch, note) == ""


def test_a_key_that_is_not_the_standards_is_a_warning_with_both_sizes(tmp_path, monkeypatch):
    note = SET.format(thread="10-32", drive="5/64 in hex socket")
    wanted = (
        "warning: Thread 10-32 as a set screw takes a 3/32 in key (asme-b18.3), but the drive says 5/64 in: "
        "measure both and mend the one that is wrong. If the key was tried, add `key_confirmed: true` and `key_reason:`."
    )
    assert said(tmp_path, monkeypatch, note) == line(note, "5/64 in", wanted)


def test_a_key_that_was_tried_is_taken_at_its_word(tmp_path, monkeypatch):
    note = SET.format(thread="10-32", drive="5/64 in hex socket") + ", key_confirmed: true, key_reason: Tried it."
    assert said(tmp_path, monkeypatch, note) == ""


def test_a_confirmation_that_nothing_needs_is_an_error_at_its_key(tmp_path, monkeypatch):
    note = SET.format(thread="10-32", drive="3/32 in hex socket") + ", key_confirmed: true, key_reason: Tried it."
    wanted = "The key agrees with the standard, so there is nothing to confirm. Take out `key_confirmed:` and `key_reason:`."
    assert said(tmp_path, monkeypatch, note) == line(note, "key_confirmed", wanted)


@pytest.mark.parametrize(
    ("thread", "wanted"),
    [
        ("ten by", "'ten by' is no thread. Write it like '10-32', '1/4-20', '11/64-40', 'M4' or 'M4x0.5'."),
        ("M4.1", "Thread 'M4.1' has no coarse pitch in the table. Write the pitch too, as in 'M4.1x0.7', or did you mean 'M4'?"),
    ],
)
def test_a_thread_that_cannot_be_read_is_a_warning_at_the_thread(tmp_path, monkeypatch, thread, wanted):
    note = SET.format(thread=thread, drive="3/32 in hex socket")
    assert said(tmp_path, monkeypatch, note) == line(note, thread, f"warning: {wanted}")


@pytest.mark.parametrize("flat", ["{width: 8 mm}", "{width: 4 mm}", "{depth: 4 mm}", "{depth: 0.5 mm}", "{width: 5/16 in}"])
def test_a_flat_that_a_shaft_can_have_is_left_alone(tmp_path, monkeypatch, flat):
    assert said(tmp_path, monkeypatch, f"kind: set screw, shaft: 8 mm, flat: {flat}") == ""


@pytest.mark.parametrize(
    ("flat", "fault"),
    [
        ("{width: 8.01 mm}", "A flat 8.01 wide does not go on a shaft 8 thick. Measure both again."),
        ("{width: 1/2 in}", "A flat 12.7 wide does not go on a shaft 8 thick. Measure both again."),
        ("{width: 0 mm}", "The width must be more than zero, not 0. Measure it again."),
        ("{depth: 4.01 mm}", "A flat 4.01 deep goes past the middle of a shaft 8 thick. Measure both again."),
    ],
)
def test_a_flat_that_does_not_go_on_its_shaft_is_an_error(tmp_path, monkeypatch, flat, fault):
    note = f"kind: set screw, shaft: 8 mm, flat: {flat}"
    assert said(tmp_path, monkeypatch, note) == line(note, "{", fault, "fastener-flat")


def test_a_flat_without_a_shaft_says_nothing(tmp_path, monkeypatch):
    assert said(tmp_path, monkeypatch, "kind: set screw, flat: {width: 40 mm}") == ""
