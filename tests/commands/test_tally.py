"""`tally`: a shop's own table becomes counts, and no one who brought a machine gets into the book."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.commands.tally import tally
from generator.content_rules import load_checked
from generator.records.report import as_text
from tests.commands.asking import asked, run

pytestmark = pytest.mark.usefixtures("in_sound_folder")

HEAD = "date,family,complaint,cause,checks done,minutes\n"


def table(text: str) -> str:
    Path("jobs.csv").write_text(text, encoding="utf-8")
    return "jobs.csv"


def sound() -> str:
    return as_text(f for f in load_checked([Path("content")])[1] if f.level == "error")


def test_jobs_become_a_sound_record_for_each_family_and_year() -> None:
    rows = "2024-01-08,testa-1,skipped-stitches,gear-cracked,watch-hook,31\n2024-02-01,Testa 1-series,Skips stitches,Hook-shaft gear cracked,,29\n2024-03-01,testa-1,,,,15\n14.3.2023,TESTA_1,nest-below,needle-worn,,4\n"
    told = asked(tally, table(HEAD + rows), "--shop", "The Yard")
    assert [(p["file"], p["machines"]) for p in told["placed"]] == [
        ("content/bench/the-yard-2023-testa-1.yaml", 1),
        ("content/bench/the-yard-2024-testa-1.yaml", 3),
    ]
    assert (told["not_placed"], told["dropped"], sound()) == ([], [], "")
    assert "  - {symptom: skipped-stitches, mode: gear-cracked, count: 2}\n" in Path(told["placed"][1]["file"]).read_text()


def test_a_row_that_cannot_be_placed_is_named_with_line_reason_and_nearest_ids() -> None:
    rows = "2024-01-08,testa-1,skipped-stitches,gear-craked,,\n2024-01-08,testa-9,skipped-stitches,gear-cracked,,\nlast week,testa-1,nest-below,needle-worn,,\n2024-01-08,testa-1,nest-below,gear-cracked,,\n2024-01-09,testa-1,nest-below,needle-worn,,\n"
    result = run(tally, table(HEAD + rows))
    assert result.exit_code == 0
    assert result.output.splitlines()[1:] == [
        "Line 2 is not placed: 'gear-craked' is no cause of the book. Near: gear-cracked.",
        "Line 3 is not placed: 'testa-9' is no machine of the book. Near: testa-1.",
        "Line 4 is not placed: 'last week' is no date with its year: write it like 2026-03-14.",
        "Line 5 is not placed: 'gear-cracked' does not stand in the tree of 'nest-below'.",
    ]


def test_columns_about_people_are_dropped_and_named_wherever_they_stand() -> None:
    rows = "Customer Name;Phone;Date;Machine;Cause;E-mail\nA. Nobody;0555 123;2024-01-08;testa-1;gear-cracked;a@example.org\n"
    result = run(tally, table(rows), "--shop", "The Yard")
    assert "Not read, since they may be about people: Customer Name, Phone, E-mail." in result.output
    written = Path("content/bench/the-yard-2024-testa-1.yaml").read_text()
    assert not {"Nobody", "0555", "example.org"} & set(written.replace("\n", " ").split())


def test_the_same_table_is_written_anew_and_a_record_of_another_hand_is_left_alone() -> None:
    name = table(HEAD + "2024-01-08,testa-1,skipped-stitches,gear-cracked,,\n")
    assert run(tally, name, "--shop", "The Yard").exit_code == run(tally, name, "--shop", "The Yard").exit_code == 0
    path = Path("content/bench/the-yard-2024-testa-1.yaml")
    path.write_text("family: testa-1\nmachines: 3\nfound: {gear-cracked: 1}\n")
    result = run(tally, name, "--shop", "The Yard")
    assert (result.exit_code, "did not write it" in result.output) == (1, True)
    assert path.read_text().startswith("family")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("date,machine\n", "'jobs.csv' has no column cause."),
        ("", "'jobs.csv' has no column date and family and cause."),
        (HEAD, "The table holds no job."),
        ('date,family,cause\n"2024', "'jobs.csv' is no table that can be read"),
    ],
)
def test_a_table_that_says_nothing_ends_in_one_line(text: str, said: str) -> None:
    result = run(tally, table(text))
    assert result.exit_code == 1
    assert result.output.startswith(said)
    assert len(result.output.splitlines()) == 1


def test_minutes_count_where_one_cause_was_put_right() -> None:
    from generator.bench.tallying import Job, tallied
    from generator.library import Library

    library = Library(load_checked([Path("content")])[0])
    jobs = [Job(n, "2024", "testa-1", "", cause, took) for n, (cause, took) in enumerate([("gear-cracked", "30"), ("gear-cracked", "40 min"), ("gear-cracked", "?"), ("gear-cracked+needle-worn", "90")])]
    ((counted,), lost) = tallied(library, jobs)
    assert (counted.machines, lost) == (4, [])
    assert counted.minutes == {"gear-cracked": (30, 40)}


def test_what_the_family_cannot_have_is_not_placed_and_the_reason_is_said() -> None:
    family = Path("content/families/testa-1.yaml")
    text = family.read_text(encoding="utf-8").replace("[skipped-stitches, nest-below]", "[skipped-stitches]").replace("zigzag: false", "zigzag: true")
    family.write_text(text, encoding="utf-8")
    rows = "2024-01-08,testa-1,nest-below,needle-worn,,\n2024-01-08,testa-1,,timing-off,,\n2024-01-08,testa-1,,needle-worn,,\n"
    lines = run(tally, table(HEAD + rows)).output.splitlines()
    assert lines[0].endswith(": 1 jobs, 1 causes.")
    assert lines[1] == "Line 2 is not placed: testa-1 cannot have the complaint 'nest-below'."
    assert lines[2].startswith("Line 3 is not placed: testa-1 cannot have 'timing-off': ")


def test_a_table_that_cannot_be_opened_or_is_in_another_code_ends_in_one_line(monkeypatch) -> None:
    Path("jobs.csv").write_bytes("date,family,cause\n2024,testa-1,Köper\n".encode("latin-1"))
    result = run(tally, "jobs.csv")
    assert (result.exit_code, result.output) == (1, "'jobs.csv' is not UTF-8. Save the table as CSV, UTF-8.\n")
    honest = Path.read_bytes

    def unreadable(path: Path) -> bytes:
        if path.name == "jobs.csv":
            raise PermissionError(13, "Permission denied")
        return honest(path)

    monkeypatch.setattr(Path, "read_bytes", unreadable)
    result = run(tally, "jobs.csv")
    assert (result.exit_code, result.output) == (1, "'jobs.csv' cannot be opened: Permission denied.\n")


def test_where_the_record_cannot_be_written_it_says_so() -> None:
    shutil.rmtree("content/bench")
    Path("content/bench").write_text("in the way", encoding="utf-8")
    result = run(tally, table(HEAD + "2024-01-08,testa-1,,gear-cracked,,\n"), "--shop", "The Yard")
    assert (result.exit_code, result.output) == (1, "'content/bench/the-yard-2024-testa-1.yaml' cannot be written: File exists.\n")
