"""Who reads a value is noted for it, and nobody else; a value is what it is whoever asks."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any

import pytest

from generator.watched import ALL, IDS, Known, Token, Traced, Watch, Watched, fill, watched


@pytest.fixture
def watch() -> Watch:
    return Watch()


@pytest.fixture
def checks(watch: Watch) -> Watched[int]:
    return Watched(watch, "checks", {"a": 1, "b": 2})


def test_what_is_read_is_noted_for_whoever_reads_it_and_for_nobody_else(watch: Watch, checks: Watched[int]) -> None:
    known = Known(watch, "sums", lambda key: checks[key] + 1)
    traced: Traced[str, int] = Traced(watch)
    checks["a"]
    with watch.reading("one"):
        assert known("a") == 2
        assert "c" not in checks and list(checks) == ["a", "b"]
    with watch.reading("two"):
        assert traced("b", lambda: checks["b"]) == 2
    with watch.reading("three"):
        assert traced("b", lambda: 0) == 2, "it is worked out once"
        with watch.unwatched():
            checks["a"]
    assert watch.reads == {
        "one": {("sums", "a"), ("checks", "c"), ("checks", IDS)},
        "two": {("checks", "b")},
        "three": {("checks", "b")},
    }


@pytest.mark.parametrize(
    ("read", "gives", "noted"),
    [
        (lambda held: held["a"], 1, "a"),
        (lambda held: held.get("b"), 2, "b"),
        (lambda held: held.get("c"), None, "c"),
        (lambda held: held.get("c", 7), 7, "c"),
        (lambda held: "a" in held, True, "a"),
        (lambda held: "c" in held, False, "c"),
        (list, ["a", "b"], IDS),
        (lambda held: list(held.keys()), ["a", "b"], IDS),
        (len, 2, IDS),
        (bool, True, IDS),
        (lambda held: list(held.values()), [1, 2], ALL),
        (lambda held: dict(held.items()), {"a": 1, "b": 2}, ALL),
    ],
)
def test_each_way_to_read_a_mapping_is_noted(watch: Watch, checks: Watched[int], read: Any, gives: object, noted: str) -> None:
    with watch.reading("page"):
        assert read(checks) == gives
    assert watch.reads == {"page": {("checks", noted)}}


def test_who_asks_for_what_is_not_there_has_read_that_it_is_not(watch: Watch, checks: Watched[int]) -> None:
    with watch.reading("page"), pytest.raises(KeyError):
        checks["c"]
    assert watch.reads == {"page": {("checks", "c")}}


def test_a_value_by_its_name_is_noted_for_nobody(watch: Watch, checks: Watched[int]) -> None:
    Known(watch, "sums", lambda key: checks[key] + 1)
    with watch.reading("page"):
        told = [watch.value(("checks", key)) for key in ("a", "c", IDS, ALL)]
        assert told == [1, (), ("a", "b"), {"a": 1, "b": 2}]
        assert watch.value(("sums", "b")) == 3
        checks["b"]
    assert watch.reads == {"page": {("checks", "b")}}


def test_of_what_there_is_not_there_is_nothing(watch: Watch, checks: Watched[int]) -> None:
    Known(watch, "sums", lambda key: checks[key] + 1)
    assert watch.value(("sums", "gone")) == watch.value(("no such space", "a")) == ()


def test_a_space_that_nobody_has_read_from_is_made_when_its_value_is_asked_for(watch: Watch) -> None:
    made: list[str] = []

    def make(name: str) -> None:
        made.append(name)
        Watched(watch, name, {"a": name})

    for name in ("first", "second", "third"):
        watch.fills(partial(make, name))
    assert watch.value(("second", "a")) == "second"
    assert made == ["third", "second"], "no more is made than is asked for"
    assert watch.value(("third", "a")) == "third" and watch.value(("first", "a")) == "first"
    assert made == ["third", "second", "first"]
    assert watch.value(("fourth", "a")) == ()


def test_what_is_read_for_a_piece_of_work_adds_up(watch: Watch, checks: Watched[int]) -> None:
    for key in ("a", "b"):
        with watch.reading("page"):
            checks[key]
    assert watch.reads == {"page": {("checks", "a"), ("checks", "b")}}


def test_work_within_work_notes_for_itself_and_leaves_the_outer_one_open(watch: Watch, checks: Watched[int]) -> None:
    with watch.reading("outer"):
        with watch.reading("inner"):
            checks["a"]
        checks["b"]
    checks["a"]
    assert watch.reads == {"outer": {("checks", "b")}, "inner": {("checks", "a")}}


def test_what_is_read_for_a_value_is_told_to_who_works_it_out_alone(watch: Watch, checks: Watched[int]) -> None:
    with watch.reading("page"):
        with watch.working_out() as read:
            checks["a"]
        with watch.gathering() as gathered:
            checks["b"]
    assert (read, gathered) == ({("checks", "a")}, {("checks", "b")})
    assert watch.reads == {"page": {("checks", "b")}}


def test_what_is_gathered_unwatched_is_gathered_all_the_same(watch: Watch, checks: Watched[int]) -> None:
    with watch.reading("page"), watch.unwatched(), watch.gathering() as gathered:
        checks["b"]
    with watch.gathering() as outside:
        checks["a"]
    assert (gathered, outside) == ({("checks", "b")}, {("checks", "a")})
    assert watch.reads == {"page": set()}


def test_a_fault_ends_what_is_noted(watch: Watch, checks: Watched[int]) -> None:
    for way in (watch.reading("page"), watch.unwatched(), watch.working_out(), watch.gathering()):
        with watch.reading("whole"):
            with pytest.raises(ZeroDivisionError), way:
                raise ZeroDivisionError
            checks["a"]
        assert watch.reads["whole"] == {("checks", "a")}
        watch.reads["whole"].clear()


def test_a_value_is_worked_out_once_and_one_that_was_put_not_at_all(watch: Watch) -> None:
    asked: list[str] = []
    known = Known(watch, "words", lambda key: (asked.append(key), key * 2)[1])
    known.put("c", "by another")
    with watch.reading("page"):
        assert [known(key) for key in "aac"] == ["aa", "aa", "by another"]
    assert asked == ["a"]
    assert watch.reads == {"page": {("words", "a"), ("words", "c")}}
    assert watch.value(("words", "c")) == "by another"


def test_what_cannot_be_worked_out_is_tried_again_each_time(watch: Watch, checks: Watched[int]) -> None:
    known = Known(watch, "sums", lambda key: checks[key] + 1)
    for _ in range(2):
        with watch.reading("page"), pytest.raises(KeyError):
            known("c")
    assert watch.reads == {"page": {("sums", "c")}}


def test_a_value_is_known_by_what_it_is_a_function_of_where_that_is_said(watch: Watch, checks: Watched[int]) -> None:
    """It is not worked out to be told; what tells of it reads for itself."""
    known = Known(watch, "slow", pytest.fail, lambda key: checks[key])
    with watch.reading("page"):
        assert watch.value((known.name, "b")) == 2
        assert watch.value((known.name, "c")) == ()
    assert watch.reads == {"page": set()} and watch.made_of == {}


def test_a_dear_value_says_what_it_was_made_of(watch: Watch, checks: Watched[int]) -> None:
    """Both what it was worked out from and what tells of it, itself not among them."""
    modes = Watched(watch, "modes", {"a": 5})
    known: Known[int] = Known(watch, "dear", lambda key: checks[key] + modes[key], lambda key: (known(key), checks["b"]), dear=True)
    assert watch.made_of == {}
    assert known("a") == 6
    assert watch.value(("dear", "a")) == (6, 2)
    assert watch.made_of == {("dear", "a"): {("checks", "a"), ("modes", "a"), ("checks", "b")}}


def test_a_dear_value_that_was_worked_out_elsewhere_is_made_of_what_tells_of_it(watch: Watch, checks: Watched[int]) -> None:
    known = Known(watch, "dear", lambda key: 0, lambda key: checks[key], dear=True)
    known.put("a", 9)
    assert watch.value(("dear", "a")) == 1
    assert watch.value(("dear", "gone")) == ()
    assert watch.made_of == {("dear", "a"): {("checks", "a")}}


def test_a_traced_value_that_is_made_of_another_is_read_with_all_that_both_were_made_of(watch: Watch, checks: Watched[int]) -> None:
    traced: Traced[str, int] = Traced(watch)
    traced("inner", lambda: checks["a"])
    with watch.reading("page"):
        assert traced("outer", lambda: traced("inner", lambda: 0) + checks["b"]) == 3
    with watch.reading("later"):
        traced("outer", lambda: 0)
    both: set[Token] = {("checks", "a"), ("checks", "b")}
    assert watch.reads == {"page": both, "later": both}


class Book:
    """Maps of what records name, one of them of a book below."""

    def __init__(self, watch: Watch) -> None:
        self.watch = watch
        self.checks = Watched(watch, "checks", {"look": "hook"})
        self.made = 0

    @watched
    def homes(self) -> Mapping[str, str]:
        """Where each check is."""
        self.made += 1
        return {check: self.checks[check] for check in self.checks}

    @property
    def never(self) -> int:
        """Only what is watched is filled."""
        raise AssertionError


class LargerBook(Book):
    @watched
    def users(self) -> Mapping[str, str]:
        """The other way round."""
        return {home: check for check, home in self.homes.items()}


def test_a_watched_property_is_made_once_and_who_reads_it_reads_it_alone(watch: Watch) -> None:
    book = LargerBook(watch)
    for page in ("one", "two"):
        with watch.reading(page):
            assert book.users["hook"] == "look"
    assert book.made == 1
    assert watch.reads == {"one": {("LargerBook.users", "hook")}, "two": {("LargerBook.users", "hook")}}
    assert Book.homes.__doc__ == "Where each check is."


def test_every_watched_property_is_there_once_a_book_is_filled_those_of_the_class_below_too(watch: Watch) -> None:
    book = LargerBook(watch)
    watch.fills(partial(fill, book))
    assert book.made == 0
    assert watch.value(("Book.homes", "look")) == "hook"
    assert watch.value(("LargerBook.users", "hook")) == "look"
    assert book.made == 1


def test_a_watched_mapping_shows_its_name_and_what_it_holds(checks: Watched[int]) -> None:
    assert repr(checks) == "Watched(checks, {'a': 1, 'b': 2})"
