"""Every folder in `negative` breaks one rule (or the schema, or YAML) and says so word for word.

A case is laid over the content folder `sound`, which has no findings. Its name begins with the rule's
name, `schema` or `file`; `--` parts off what is special in it, and `+` joins rules that cannot be
broken one without the other. Where a case has a folder `mended`, its records are those of the case put right.
"""

from dataclasses import replace
from importlib import import_module
from pathlib import Path

import pytest

from generator.content_rules import ALL_RULES, load_checked
from generator.records.build import build_all
from generator.records.cases import case_of
from generator.records.finding import Finding
from generator.records.read import read
from generator.records.report import as_text
from generator.records.rules import Book
from generator.records.rules.registry import rules_in
from generator.records.sound_files import SoundFiles

HERE = Path(__file__).parent
CASES = sorted(path.name for path in (HERE / "negative").iterdir())
OWN = {case: set(case.partition("--")[0].split("+")) for case in CASES}


def folders(case: str) -> list[Path]:
    return [Path("sound"), Path("negative", case, "content")]


def faults(laid: list[Path]) -> list[Finding]:
    """What is wrong; that a case laid over the sound records says other than they do is meant, and no fault."""
    return [f for f in load_checked(laid)[1] if f.level != "note"]


@pytest.fixture(autouse=True)
def _here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(HERE)


def test_sound_content_has_no_findings() -> None:
    assert as_text(load_checked([Path("sound")])[1]) == ""


@pytest.mark.parametrize("case", CASES)
def test_a_negative_case_gives_exactly_its_expected_lines(case: str) -> None:
    findings = faults(folders(case))
    expected = (HERE / "negative" / case / "expected.txt").read_text("utf-8")
    assert as_text(findings).replace(f"negative/{case}/", "") + "\n" == expected


@pytest.mark.parametrize("case", CASES)
def test_a_negative_case_breaks_nothing_but_what_it_is_named_after(case: str) -> None:
    content = read(folders(case))
    book = Book(content, build_all(content))
    broken = {rule.name for rule in ALL_RULES if list(rule.run(book))}
    reader = {"schema", "file"} & OWN[case] if content.findings else set()
    assert broken | reader == OWN[case]


def test_every_rule_has_a_negative_case() -> None:
    assert {rule.name for rule in ALL_RULES} | {"schema", "file"} == set().union(*OWN.values())


@pytest.mark.parametrize("case", [case for case in CASES if (HERE / "negative" / case / "mended").is_dir()])
def test_a_mended_case_has_no_findings(case: str) -> None:
    assert as_text(faults([Path("sound"), Path("negative", case, "mended")])) == ""


@pytest.mark.parametrize("rule", [*(rule.name for rule in ALL_RULES), "schema", "file"])
def test_every_rule_has_a_case_that_shows_how_it_is_mended(rule: str) -> None:
    case = case_of(rule)
    assert case
    assert case.bad != case.good
    assert any(line.endswith(f"[{rule}]") for line in case.said)


def test_a_module_of_rules_is_found_by_itself(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    package = tmp_path / "some_rules"
    package.mkdir()
    (package / "__init__.py").write_text("")
    (package / "odd.py").write_text(
        "from generator.records.rules import rule\n"
        "from generator.records.rules.names import names_exist\n\n"
        '@rule("Nothing is odd.", "tool")\n'
        "def nothing_is_odd(book):\n    return []\n"
    )
    monkeypatch.syspath_prepend(tmp_path)
    assert [rule.name for rule in rules_in(import_module("some_rules"))] == ["nothing-is-odd"]


@pytest.mark.parametrize("case", CASES)
def test_a_case_read_again_says_the_same_of_files_that_were_sound(case: str) -> None:
    """Known to be sound are first the files of the sound folder, then those that the case itself has met."""
    records, findings = load_checked(folders(case))
    alone = SoundFiles()
    load_checked([Path("sound")], alone)
    met = SoundFiles(alone.met)
    for known in (met, SoundFiles(met.met)):
        again, found = load_checked(folders(case), known)
        assert found == findings
        assert replace(again, places={}) == replace(records, places={})
        assert {key: (at.values, at.keys) for key, at in again.places.items()} == {
            key: (at.values, at.keys) for key, at in records.places.items()
        }
