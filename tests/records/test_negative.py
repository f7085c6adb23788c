"""Every folder in `negative` breaks one rule (or the schema, or YAML) and says so word for word.

A case is laid over the content folder `sound`, which has no findings. Its name begins with the rule's
name, `schema` or `file`; `--` parts off what is special in it, and `+` joins rules that cannot be
broken one without the other.
"""

from pathlib import Path

import pytest

from generator.records.build import build_all
from generator.records.load import load
from generator.records.read import read
from generator.records.report import as_text
from generator.records.rules import RULES, Book

HERE = Path(__file__).parent
CASES = sorted(path.name for path in (HERE / "negative").iterdir())
OWN = {case: set(case.partition("--")[0].split("+")) for case in CASES}


def folders(case: str) -> list[Path]:
    return [Path("sound"), Path("negative", case, "content")]


@pytest.fixture(autouse=True)
def _here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(HERE)


def test_sound_content_has_no_findings() -> None:
    assert as_text(load([Path("sound")])[1]) == ""


@pytest.mark.parametrize("case", CASES)
def test_a_negative_case_gives_exactly_its_expected_lines(case: str) -> None:
    _, findings = load(folders(case))
    expected = (HERE / "negative" / case / "expected.txt").read_text("utf-8")
    assert as_text(findings).replace(f"negative/{case}/", "") + "\n" == expected


@pytest.mark.parametrize("case", CASES)
def test_a_negative_case_breaks_nothing_but_what_it_is_named_after(case: str) -> None:
    content = read(folders(case))
    book = Book(content, build_all(content))
    broken = {rule.name for rule in RULES if list(rule.run(book))}
    reader = {"schema", "file"} & OWN[case] if content.findings else set()
    assert broken | reader == OWN[case]


def test_every_rule_has_a_negative_case() -> None:
    assert {rule.name for rule in RULES} | {"schema", "file"} == set().union(*OWN.values())
