"""A site made from the one that stands is the one that would be made anew."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from random import Random

import pytest

from generator import workers
from generator.bench import Bench
from generator.content_rules import load_checked
from generator.library import Library
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.pages.piece import Files
from generator.records.model import LooksLike
from generator.standing import Made, Standing, StandingChanged, files_with_reads, with_reads
from generator.watched import Known, Watch, Watched
from tests.edits import anew, taken_over
from tests.edits.by_chance import edited

BOOK = load_checked([Path(__file__).parent / "fixtures" / "jobs"])[0]
EDITS = 8


def test_after_each_of_many_edits_by_chance_the_pages_are_those_made_anew(tmp_path: Path, monkeypatch) -> None:
    """Each edit is of the book as it was or as the last edit left it; what no site can be made of is passed over."""
    chance, first = Random(17), BOOK
    monkeypatch.setattr(workers, "_can_share", lambda: False)  # to begin processes takes longer than so few pages do
    place, cache, folders = tmp_path / "site", tmp_path / "cache", [tmp_path / "content"]
    records, some, tried = first, 0, 0
    pages, taken = taken_over(records, folders, place, cache)
    assert not taken and pages == anew(records, folders)
    while tried < EDITS:
        new, what = edited(records, chance)
        try:
            expected = anew(new, folders)
        except Exception:
            continue
        tried += 1
        pages, taken = taken_over(new, folders, place, cache)
        assert pages == expected, what
        some += taken
        records = first if chance.random() < 0.3 else new
    assert some > EDITS, "next to nothing was taken over"


def test_a_title_touches_the_pages_that_show_it_alone(tmp_path: Path) -> None:
    place, cache, folders, records = tmp_path / "site", tmp_path / "cache", [tmp_path / "content"], BOOK
    before, _ = taken_over(records, folders, place, cache)
    check = dataclasses.replace(records.checks[min(records.checks)], how="Look there.")
    pages, taken = taken_over(dataclasses.replace(records, checks={**records.checks, check.id: check}), folders, place, cache)
    changed = {address for address in pages if pages[address] != before[address]}
    assert f"checks/{check.id}.html" in changed
    assert "failure-modes/lint-packed.html" not in changed
    assert taken >= len(BOOK.failure_modes), "the pages of other records were made again"


def test_who_shows_a_records_name_alone_is_made_again_for_another_name_alone(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setattr(workers, "_can_share", lambda: False)
    place, cache, folders = tmp_path / "site", tmp_path / "cache", [tmp_path / "content"]

    def taken_after(**change: str) -> int:
        taken_over(BOOK, folders, place, cache)
        symptom = dataclasses.replace(BOOK.symptoms["skips"], **change)
        new = dataclasses.replace(BOOK, symptoms={**BOOK.symptoms, symptom.id: symptom})
        pages, taken = taken_over(new, folders, place, cache)
        assert pages == anew(new, folders)
        return taken

    assert taken_after(summary="Another.") > taken_after(title="Another") + len(BOOK.checks)


def test_a_page_of_the_site_that_is_not_as_it_was_written_is_made_again(tmp_path: Path) -> None:
    place, cache, folders = tmp_path / "site", tmp_path / "cache", [tmp_path / "content"]
    expected, _ = taken_over(BOOK, folders, place, cache)
    pages, all_of_them = taken_over(BOOK, folders, place, cache)
    assert pages == expected
    (place / "symptoms/skips.html").write_text("Mended by hand.")
    (place / "failure-modes/lint-packed.html").unlink()
    pages, taken = taken_over(BOOK, folders, place, cache)
    assert pages == expected and taken == all_of_them - 2


def test_a_page_that_changes_while_the_site_is_built_ends_the_build(tmp_path: Path) -> None:
    standing = Standing(tmp_path, tmp_path / "cache", "code")
    watch = Watch()
    (tmp_path / "a.html").write_text("as it stood")
    standing.begin(watch, ())
    standing.made([Made(PageText("a.html", "A", ""), (("records.checks", "x"),))])
    standing.remember(tmp_path, watch)
    again = Standing(tmp_path, tmp_path / "cache", "code")
    again.begin(watch, ())
    assert again.take("a.html") and not again.take("b.html")
    again.lay("a.html", tmp_path / "new" / "a.html")
    assert (tmp_path / "new" / "a.html").read_text() == "as it stood"
    (tmp_path / "another").write_text("not so then")
    (tmp_path / "another").replace(tmp_path / "a.html")
    with pytest.raises(StandingChanged, match="Build it again"):
        again.lay("a.html", tmp_path / "newer" / "a.html")
    (tmp_path / "a.html").unlink()
    with pytest.raises(StandingChanged, match="Build it again"):
        again.lay("a.html", tmp_path / "newest" / "a.html")


@pytest.mark.parametrize("alters", [False, True], ids=["left alone", "changed meanwhile"])
def test_where_no_file_has_two_names_a_page_is_copied(tmp_path: Path, monkeypatch, alters: bool) -> None:
    watch, page, new = Watch(), tmp_path / "a.html", tmp_path / "new" / "a.html"
    page.write_text("as it stood")
    first = Standing(tmp_path, tmp_path / "cache", "code")
    first.begin(watch, ())
    first.made([Made(PageText("a.html", "A", ""), ())])
    first.remember(tmp_path, watch)
    again = Standing(tmp_path, tmp_path / "cache", "code")
    again.begin(watch, ())
    assert again.take("a.html")

    def refused(old: Path, new: Path) -> None:
        if alters:
            page.write_text("of another build")
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr("os.link", refused)
    if alters:
        with pytest.raises(StandingChanged, match="Build it again"):
            again.lay("a.html", new)
    else:
        again.lay("a.html", new)
        assert new.read_text() == "as it stood" and new.stat().st_ino != page.stat().st_ino


def test_pages_that_are_made_together_are_taken_over_together(tmp_path: Path) -> None:
    watch = Watch()
    for name in ("a", "b", "c"):
        (tmp_path / f"{name}.html").write_text(name)
    first = Standing(tmp_path, tmp_path / "cache", "code")
    first.begin(watch, ())
    first.made([Made(PageText(f"{name}.html", name, ""), ()) for name in ("a", "b", "c")])
    first.remember(tmp_path, watch)
    (tmp_path / "b.html").write_text("mended by hand")
    again = Standing(tmp_path, tmp_path / "cache", "code")
    again.begin(watch, ())
    for together in (("a.html", "b.html"), ("b.html", "a.html"), ("a.html", "d.html"), ("d.html",)):
        assert not again.take(*together) and again.taken == {}
    assert again.take("a.html", "c.html") and list(again.taken) == ["a.html", "c.html"]


def test_the_three_sites_built_last_are_remembered(tmp_path: Path) -> None:
    watch = Watch()
    (tmp_path / "a.html").write_text("whole")

    def standing(code: int) -> Standing:
        made = Standing(tmp_path, tmp_path / "cache", f"code {code}")
        made.begin(watch, ())
        return made

    for code in range(4):
        new = standing(code)
        new.made([Made(PageText("a.html", "A", ""), ())])
        new.remember(tmp_path, watch)
    assert [standing(code).take("a.html") for code in range(4)] == [False, True, True, True]
    assert len(list((tmp_path / "cache").iterdir())) == 3


def built(folder: Path, checks: dict[str, int], asked: list[str]) -> tuple[Standing, Watch]:
    """A site of one page of one value that is dear; what had to be worked out for it is added to `asked`."""
    watch, standing = Watch(), Standing(folder, folder / "cache", "code")
    held = Watched(watch, "checks", checks)
    dear = Known(watch, "order", lambda key: (asked.append(key), held[key] * 2)[1], dear=True)
    (folder / "a.html").write_text("A")
    standing.begin(watch, ())
    if not standing.take("a.html"):
        with watch.reading("a.html"):
            dear("look")
        standing.made(with_reads([PageText("a.html", "A", "")], watch, ["a.html"]))
    standing.remember(folder, watch)
    return standing, watch


def test_a_dear_value_is_not_worked_out_while_all_that_it_was_made_of_is_as_before(tmp_path: Path) -> None:
    """Not once, and not for any number of builds one after another."""
    looked: list[list[str]] = []
    for checks in ({"look": 1}, {"look": 1}, {"look": 1, "other": 5}, {"look": 1}, {"look": 3}, {"look": 3}):
        looked.append([])
        built(tmp_path, checks, looked[-1])
    assert looked == [["look"], [], [], [], ["look"], []]


def test_a_value_is_as_before_where_it_was_known_and_has_not_changed(tmp_path: Path) -> None:
    assert not built(tmp_path, {"look": 1}, [])[0].as_before(("order", "look"))
    same, _ = built(tmp_path, {"look": 1}, [])
    assert same.as_before(("order", "look")) and same.as_before(("checks", "look"))
    assert not same.as_before(("order", "other")) and not same.as_before(("other", "look"))
    changed, _ = built(tmp_path, {"look": 2}, [])
    assert not changed.as_before(("order", "look")) and not changed.as_before(("checks", "look"))


def test_files_of_data_rest_on_what_is_read_for_them_all_and_those_of_no_address_on_nothing_that_is_kept() -> None:
    watch = Watch()
    checks = Watched(watch, "checks", {"look": 1, "listen": 2})
    two = Files(lambda: ((name, str(checks[name])) for name in ("look", "listen")), ("look", "listen"))
    made = files_with_reads(two, watch)
    assert [(m.page.address, m.page.content) for m in made] == [("look", "1"), ("listen", "2")]
    assert [m.reads for m in made] == [(("checks", "listen"), ("checks", "look"))] * 2
    every_time = files_with_reads(Files(lambda: [("all", str(len(checks)))]), watch)
    assert [(m.page.content, m.reads) for m in every_time] == [("2", None)]


def test_other_code_or_another_frame_makes_every_page_anew(tmp_path: Path) -> None:
    watch = Watch()
    (tmp_path / "a.html").write_text("whole")

    def taken(rests_on: str, shared: object = (), frame: str = "") -> list[str]:
        standing = Standing(tmp_path, tmp_path / "cache", rests_on, lambda _: frame)
        standing.begin(watch, shared)
        standing.take("a.html")
        standing.made([] if standing.taken else [Made(PageText("a.html", "A", ""), ())])
        standing.remember(tmp_path, watch)
        return list(standing.taken)

    assert [taken("code"), taken("code"), taken("new code")] == [[], ["a.html"], []]
    assert [taken("code", shared="shop"), taken("code", shared="shop"), taken("code", shared="dearer")] == [[], ["a.html"], []]
    assert [taken("code", frame="mend"), taken("code", frame="mend")] == [[], ["a.html"]]


def test_a_value_is_what_it_is_before_anything_has_read_it() -> None:
    """Pages are made in other processes: what those have worked out is not known where prints are taken."""
    read, unread = (Maker(Bench(Library(BOOK))) for _ in range(2))
    for property_ in ("families_of_mode", "taken_for", "users_of_technique", "in_front_of", "settings_proved", "checks_of_mode"):
        expected = dict(getattr(read.backlinks, property_))
        assert expected or property_ == "taken_for"
        for key, value in expected.items():
            assert unread.library.watch.value((f"Backlinks.{property_}", key)) == value
    for view in read.library.views:
        for mode, remedy in read.bench.remedies(view).items():
            assert unread.library.watch.value((f"bench.remedies.{view.id}", mode)) == remedy
            assert unread.library.watch.value((f"view.{view.id}.failure_modes", mode)) == view.failure_modes[mode]
    for item, homes in read.library.homes.items():
        assert unread.library.watch.value(("CrossReferences.homes", item)) == homes


@pytest.mark.parametrize("shares", [False, True], ids=["in this process", "in others"])
def test_what_another_record_says_of_a_page_changes_it(tmp_path: Path, monkeypatch, shares: bool) -> None:
    monkeypatch.setattr(workers, "_can_share", lambda: shares)
    place, cache, folders = tmp_path / "site", tmp_path / "cache", [tmp_path / "content"]
    before, _ = taken_over(BOOK, folders, place, cache)
    mode = dataclasses.replace(BOOK.failure_modes["gear-stripped"], looks_like=(LooksLike("lint-packed", "No lint is in it."),))
    new = dataclasses.replace(BOOK, failure_modes={**BOOK.failure_modes, mode.id: mode})
    pages, taken = taken_over(new, folders, place, cache)
    assert pages == anew(new, folders) and taken
    assert pages["failure-modes/lint-packed.html"] != before["failure-modes/lint-packed.html"]


def test_a_family_by_another_name_changes_what_its_pages_reckon_with(tmp_path: Path) -> None:
    place, cache, folders = tmp_path / "site", tmp_path / "cache", [tmp_path / "content"]
    taken_over(BOOK, folders, place, cache)
    family = dataclasses.replace(BOOK.families["probe-1"], title="Probe the First")
    new = dataclasses.replace(BOOK, families={**BOOK.families, family.id: family})
    pages, _ = taken_over(new, folders, place, cache)
    assert pages == anew(new, folders)
    assert {address for address in pages if address.endswith((".js", ".json")) and "Probe the First" in pages[address]} >= {
        "assets/handwheel/data/probe-1.js", "assets/handwheel/data/jobs-probe-1.js", "open/orders-probe-1.json",
    }
