"""A check that goes on from the last one finds what a check anew finds, and rules say truly what they look at."""

from __future__ import annotations

import copy
import operator
import os
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random
from typing import Any

import pytest
import yaml

from generator.checked import Found, check
from generator.content_rules import ALL_RULES, load_checked
from generator.kept import Kept
from generator.records import load, model
from generator.records.again import MOST, Checked
from generator.records.build import build_all
from generator.records.cases import CASES as CASES_THERE
from generator.records.nested import children
from generator.records.node import Route
from generator.records.read import read
from generator.records.rules import Book, Rule
from generator.records.rules.reads import BUILT, MACHINES, Patterns
from generator.records.sound_files import SoundFiles
from tests.edits.checked import tried

HERE = Path(__file__).parent
SOUND = HERE / "sound"
CASES = sorted(path.name for path in CASES_THERE.iterdir())


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SOUND, tmp_path / "content"))


@pytest.fixture
def books_read(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """Grows by one whenever the whole book is read."""
    seen: list[object] = []
    honest = load.open_book
    monkeypatch.setattr(load, "open_book", lambda *of: seen.append(of) or honest(*of))
    return seen


def edit(content: Path, name: str, *changes: tuple[str, str]) -> None:
    path = content / name
    text = path.read_text(encoding="utf-8")
    for was, now in changes:
        assert was in text
        text = text.replace(was, now, 1)
    path.write_text(text, encoding="utf-8")


def the_same(found: Found, content: Path) -> bool:
    records, findings = load_checked([content])
    return (found.findings, found.count) == (findings, len(records.places))


@pytest.mark.parametrize("case", CASES)
def test_a_fault_that_comes_and_goes_is_told_of_as_by_a_check_anew(case: str, content: Path, tmp_path: Path) -> None:
    cache = tmp_path / "cache"
    check([content], cache)
    shutil.copytree(CASES_THERE / case / "content", content, dirs_exist_ok=True)
    assert the_same(check([content], cache), content)
    shutil.rmtree(content)
    shutil.copytree(SOUND, content)
    assert check([content], cache).findings == ()


@pytest.mark.parametrize("case", CASES)
def test_a_fault_that_was_there_from_the_first_is_told_of_until_it_is_mended(case: str, content: Path, tmp_path: Path) -> None:
    cache = tmp_path / "cache"
    shutil.copytree(CASES_THERE / case / "content", content, dirs_exist_ok=True)
    check([content], cache)
    for path in (content / path.relative_to(CASES_THERE / case / "content") for path in (CASES_THERE / case).rglob("*.yaml") if "content" in path.parts):
        if path.is_file():
            path.write_bytes(b"# A line more.\n" + path.read_bytes())
    assert the_same(check([content], cache), content)
    shutil.rmtree(content)
    shutil.copytree(SOUND, content)
    assert check([content], cache).findings == ()


def _routes(data: object, route: Route = ()) -> Iterator[Route]:
    for key, below in children(data):
        yield (*route, key)
        yield from _routes(below, (*route, key))


def _without(data: object, route: Route) -> object:
    left: Any = copy.deepcopy(data)
    at = left
    for step in route[:-1]:
        at = at[step]
    del at[route[-1]]
    return left


@pytest.mark.parametrize("name", sorted(p.relative_to(SOUND).as_posix() for p in SOUND.rglob("*.yaml") if p.parent != SOUND))
def test_of_each_value_that_is_taken_out_is_told_what_a_check_anew_tells(name: str, content: Path, tmp_path: Path) -> None:
    cache, path = tmp_path / "cache", content / name
    before, files = path.read_bytes(), SoundFiles()
    check([content], cache)
    data = yaml.safe_load(before)
    for route in _routes(data):
        path.write_text(yaml.dump(_without(data, route), sort_keys=False, allow_unicode=True), encoding="utf-8")
        files = SoundFiles(files.met)
        records, findings = load_checked([content], files)
        found = check([content], cache)
        assert (found.findings, found.count) == (findings, len(records.places)), route


def test_edits_by_chance_are_told_of_as_by_a_check_anew(content: Path, tmp_path: Path) -> None:
    told = list(tried([content], content, tmp_path / "cache", 60, Random(11)))
    assert [(one.what, one.differ) for one in told if one.differ or one.count_differs] == []
    assert sum(one.spared == len(ALL_RULES) for one in told) > 5 and sum(one.found > 0 for one in told) > 20


def test_edits_of_a_later_folder_are_told_of_as_by_a_check_anew(content: Path, tmp_path: Path) -> None:
    shop = tmp_path / "shop"
    for name in ("checks/watch-hook.yaml", "failure-modes/gear-cracked.yaml", "families/testa-1.yaml"):
        (shop / name).parent.mkdir(parents=True)
        (content / name).rename(shop / name)
    shutil.copy(content / "shop.yaml", shop)
    told = list(tried([content, shop], shop, tmp_path / "cache", 25, Random(5)))
    assert [(one.what, one.differ) for one in told if one.differ or one.count_differs] == []


def test_after_an_edit_that_no_rule_sees_the_book_is_not_read(content: Path, tmp_path: Path, books_read: list[object]) -> None:
    check([content], tmp_path / "cache")
    books_read.clear()
    edit(content, "failure-modes/gear-cracked.yaml", ("seen: ", "seen: 1"))
    found = check([content], tmp_path / "cache")
    assert not books_read and found.records is None and the_same(found, content)


def test_a_finding_is_told_of_on_its_new_line(content: Path, tmp_path: Path, books_read: list[object]) -> None:
    shutil.copytree(CASES_THERE / "words-fit-the-machine" / "content", content, dirs_exist_ok=True)
    told = check([content], tmp_path / "cache").findings
    assert {finding.rule for finding in told} == {"words-fit-the-machine"}
    books_read.clear()
    for path in {finding.path for finding in told}:
        path.write_text("# A line more.\n" + path.read_text())
    found = check([content], tmp_path / "cache")
    assert not books_read and the_same(found, content)
    assert [finding.line for finding in found.findings] == [finding.line + 1 for finding in told]


def test_a_word_that_no_other_record_says_is_missed_and_one_that_another_says_is_not(content: Path, tmp_path: Path) -> None:
    (content / "glossary.yaml").write_text((content / "glossary.yaml").read_text() + "gnarl:\n  title: Gnarl\n  means: A knot.\n")
    for name in ("checks/watch-hook.yaml", "failure-modes/gear-cracked.yaml"):
        edit(content, name, ("title: ", "title: Gnarl "))
    assert not [f for f in check([content], tmp_path / "cache").findings if f.rule == "term-is-used"]
    for name, missed in (("checks/watch-hook.yaml", 0), ("failure-modes/gear-cracked.yaml", 1)):
        edit(content, name, ("Gnarl ", ""))
        found = check([content], tmp_path / "cache")
        assert len([f for f in found.findings if f.rule == "term-is-used"]) == missed and the_same(found, content)


def test_after_a_fault_the_sound_state_is_gone_on_from(content: Path, tmp_path: Path, books_read: list[object]) -> None:
    cache, name = tmp_path / "cache", "failure-modes/gear-cracked.yaml"
    sound = (content / name).read_text()
    check([content], cache)
    for spoilt in ("title: [", "nonsense: 1\n" + sound, sound.replace("title: ", "titel: ")):
        (content / name).write_text(spoilt)
        assert the_same(check([content], cache), content)
    books_read.clear()
    (content / name).write_text(sound)
    assert check([content], cache).findings == () and not books_read


def test_many_edits_and_edits_of_what_is_no_record_are_read_with_the_whole(content: Path, tmp_path: Path, books_read: list[object]) -> None:
    cache = tmp_path / "cache"
    check([content], cache)
    edits: list[Callable[[], object]] = [
        (content / "unread").mkdir,
        lambda: (content / "guides" / "new.md").write_text("Words."),
        lambda: edit(content, "tools.yaml", ("title: ", "title: A ")),
        lambda: os.symlink("gear-cracked.yaml", content / "failure-modes" / "linked.yaml"),
    ]
    for number, make in enumerate(edits):
        books_read.clear()
        make()
        found = check([content], cache)
        assert bool(books_read) == (number > 0), number
        assert the_same(found, content)
    for number in range(MOST + 1):
        shutil.copy(content / "checks" / "watch-hook.yaml", content / "checks" / f"watch-{number}.yaml")
    assert the_same(check([content], cache), content)


def test_a_kept_state_with_torn_data_is_not_gone_on_from(content: Path, tmp_path: Path, books_read: list[object]) -> None:
    cache = tmp_path / "cache"
    check([content], cache)
    for path in cache.glob("files-*"):
        path.write_text(path.read_text().replace('":"{', '":"{torn'))
    books_read.clear()
    edit(content, "failure-modes/gear-cracked.yaml", ("seen: ", "seen: 1"))
    found = check([content], cache)
    assert books_read and the_same(found, content)


def test_where_nothing_is_kept_all_is_found_all_the_same(content: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    edit(content, "failure-modes/gear-cracked.yaml", ("seen: ", "sen: "))
    for _ in range(2):
        assert the_same(check([content], tmp_path / "file"), content)


def test_a_file_whose_name_is_no_text_is_told_of_each_time(content: Path, tmp_path: Path) -> None:
    shutil.copy(content / "checks" / "watch-hook.yaml", os.fsencode(content / "checks") + b"/watch-\xff.yaml")
    for _ in range(2):
        assert the_same(check([content], tmp_path / "cache"), content)


def test_one_text_of_a_kept_value_is_had_without_the_rest(tmp_path: Path) -> None:
    kept: Kept[Checked] = Kept(tmp_path, "texts", dict[str, str], 1)
    (tmp_path / f"texts-{'a' * 40}.json").write_text('{"value":{"one":"x \\"two\\":\\"no\\" \\\\","two":"yes","three":3}}')
    assert [kept.text("a" * 40, key) for key in ("one", "two", "three", "four")] == ['x "two":"no" \\', "yes", None, None]
    assert kept.text("b" * 40, "one") is None


FIELDS_OF = {
    "family": (model.Family, model.AssemblyUse),
    "assembly": (model.Assembly, model.Part, model.Setting, model.Move, model.Target),
    "symptom": (model.Symptom, model.TreeGate, model.TreeEvent, model.TreeTransfer),
    "failure-mode": (model.FailureMode, model.RemedySpec, model.LooksLike),
    "check": (model.Check, model.Outcome),
    "fasteners": (model.Fastener,),
    "tally": (model.Tally, model.Found),
}
"Kind -> classes of what stands in its records."
WHOLE = {"tree": (model.TreeGate, model.TreeEvent, model.TreeTransfer), "assemblies": (model.AssemblyUse,), "found": (model.Found,), "target": (model.Target,)}
"Key that a rule names with all below it -> the classes of that."
WORKED_OUT = ("dataclasses.py", "as_used.py", "built.py", "machines.py", "alike.py", "shapes.py", "fits.py")
"Modules that read for a book what rules then ask it for: under names such as BUILT, rules name what these read."


COPYING = ("dataclasses.py", "shapes.py")
"Modules that hand all fields of a record on."


@contextmanager
def noted(read: set[tuple[type, str]], but_by: tuple[str, ...] = WORKED_OUT) -> Iterator[None]:
    """Notes which fields of records are read meanwhile, by other modules than some."""
    with pytest.MonkeyPatch.context() as patch:
        for kind in (kind for kinds in FIELDS_OF.values() for kind in kinds):
            for name in kind.__slots__:
                patch.setattr(kind, name, _noting(kind, name, getattr(kind, name), read, but_by))
        yield


def _noting(kind: type, name: str, slot: property, read: set[tuple[type, str]], but_by: tuple[str, ...]) -> property:
    def get(record: object) -> object:
        if not sys._getframe(1).f_code.co_filename.endswith(but_by):
            read.add((kind, name))
        return slot.__get__(record)

    return property(get, slot.__set__)


@pytest.fixture(scope="module")
def books() -> list[Book]:
    """The sound records with each fault, and the real ones; all that rules ask of a book is worked out."""
    folders = [[SOUND, CASES_THERE / case / "content"] for case in CASES]
    contents = [read(some) for some in (*folders, [HERE.parents[1] / "content"])]
    made = [Book(content, build_all(content)) for content in contents]
    for book in made:
        for name in ("references", "defined", "transfers", "built", "alike", "complaints", "in_trees", "fits", "gates", "pictured", "terms"):
            getattr(book, name)
        assert book.machines.having is not None
    return made


@pytest.mark.parametrize("rule", [rule for rule in ALL_RULES if not rule.alone], ids=lambda rule: rule.name)
def test_a_rule_names_all_that_it_looks_at(rule: Rule, books: list[Book]) -> None:
    assert rule.reads is not None
    read: set[tuple[type, str]] = set()
    for book in books:
        with noted(read):
            list(rule.run(book))
    assert unnamed(read, rule.reads.of, rule.reads.texts) == []


def unnamed(read: set[tuple[type, str]], *named_in: Patterns) -> list[str]:
    """What of the fields that were read no pattern names."""
    named = {kind: {step for patterns in named_in for p in patterns.get(kind, ()) for step in p.split(".")} for kind in FIELDS_OF}
    return [
        f"{kind}: {shape.__name__}.{name}"
        for kind, shapes in FIELDS_OF.items()
        for shape, name in sorted(read, key=str)
        if shape in shapes
        and name not in {*named[kind], "id"}
        and not any(shape in below and key in named[kind] for key, below in WHOLE.items() if (key, name) != ("tree", "title"))
    ]


TREE = {"symptom": ("tree",)}
SEAT = {"failure-mode": ("part", "setting")}
ITEMS = {"assembly": ("parts.*:", "settings.*:")}
RESTS_ON: dict[str, list[Patterns]] = {
    "transfers": [TREE],
    "gates": [TREE],
    "in_trees": [TREE],
    "complaints": [TREE],
    "complaints_of": [TREE],
    "fits": [TREE, SEAT, ITEMS],
    "built": [ITEMS, {"family": ("assemblies", "features")}],
    "machines": [SEAT, ITEMS, {"family": ("assemblies", "features"), "failure-mode": ("needs", "lacks")}],
}
"What a rule may ask a book for -> where that looks in records."
BY_FEATURES = ("check-lies-as-its-covers", "check-reaches-what-it-opens")
"Rules that ask which machines have some features, and not what can fail on them."


class Asked(Book):
    """A book that notes what a rule asks it for."""

    def __getattribute__(self, name: str) -> Any:
        if name in RESTS_ON and not sys._getframe(1).f_code.co_filename.endswith(("book.py", "functools.py")):
            vars(self).setdefault("asked", set()).add(name)
        return super().__getattribute__(name)


@pytest.mark.parametrize("rule", [rule for rule in ALL_RULES if not rule.alone], ids=lambda rule: rule.name)
def test_a_rule_names_what_that_rests_on_which_it_asks_a_book_for(rule: Rule, books: list[Book]) -> None:
    assert rule.reads is not None
    for book in books:
        noting = Asked(book.content, book.records)
        list(rule.run(noting))
        asked = vars(noting).get("asked", set()) - ({"machines"} if rule.name in BY_FEATURES else set())
        for kind, patterns in ((kind, patterns) for name in asked for needed in RESTS_ON[name] for kind, patterns in needed.items()):
            assert set(patterns) <= set(rule.reads.of.get(kind, ())), (asked, kind)


@pytest.mark.parametrize(("asked", "patterns"), [("built", BUILT), ("machines.having", MACHINES)])
def test_what_a_book_works_out_for_rules_rests_on_what_they_name_for_it(asked: str, patterns: Patterns, books: list[Book]) -> None:
    read: set[tuple[type, str]] = set()
    for book in books:
        with noted(read, COPYING):
            operator.attrgetter(asked)(Book(book.content, book.records))
    assert unnamed(read - {(model.Assembly, "title")}, patterns) == [] and len(read) > 5  # a title is handed on


@pytest.mark.parametrize("rule", [rule for rule in ALL_RULES if rule.alone], ids=lambda rule: rule.name)
def test_a_rule_that_is_alone_asks_a_book_for_nothing_that_is_worked_out_from_many_records(rule: Rule, books: list[Book]) -> None:
    for book in books:
        fresh = Book(book.content, book.records)
        list(rule.run(fresh))
        assert vars(fresh).keys() - {"content", "records"} <= {"references", "defined", "told", "pictured"}
