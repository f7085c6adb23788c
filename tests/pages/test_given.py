"""Making pages leaves what it was given as it was: a page that is made again, or later, or by itself, comes out the same.

Prints go through everything that a value holds, so they tell a list that grew from the one that was given. What was
printed is not remembered between before and after.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest

from generator import workers
from generator.bench import Bench
from generator.content_rules import load_checked
from generator.library import Library
from generator.prints import Prints
from generator.records.model import Records
from generator.site_build import shown
from generator.watched import Token
from tests.edits import all_pages

ROOT = Path(__file__).parents[2]
BOOKS = {"jobs": ROOT / "tests" / "fixtures" / "jobs", "sound": ROOT / "tests" / "records" / "sound"}


@pytest.fixture(params=[*BOOKS, "published"])
def records(request: pytest.FixtureRequest) -> Records:
    """Two small books, and one family of the real one."""
    if request.param in BOOKS:
        return load_checked([BOOKS[request.param]])[0]
    return shown(request.getfixturevalue("published").library.records, ["larkrise-h"])


def worked_out(bench: Bench, read: Iterable[Token]) -> dict[object, object]:
    """By name: the values that pages read, and what a bench works out of a family and of a complaint."""
    found: dict[object, object] = {token: bench.library.watch.value(token) for token in read}
    for view in bench.library.views:
        found[view.id] = view, bench.machine(view), bench.practice(view), bench.remedies(view)
        found |= {(view.id, remedy.id): bench.job(view, [remedy]) for remedy in bench.remedies(view).values()}
    for complaint in bench.complaints():
        found["complaint", complaint.pair] = complaint, bench.diagnosed(complaint), bench.certain(complaint), bench.worklist(complaint)
    return found


def prints(values: dict[object, object]) -> dict[object, str]:
    anew = Prints()
    return {name: anew.of(value) for name, value in values.items()}


def test_what_pages_are_given_is_the_same_before_and_after(records: Records, monkeypatch: pytest.MonkeyPatch) -> None:
    """The first bench only tells what pages read; the second has worked all of it out before a page of it is made."""
    monkeypatch.setattr(workers, "_can_share", lambda: False)  # what another process changes nobody sees here
    as_read = Prints().of(records)
    first, bench = (Bench(Library(records), ROOT / ".cache" / "handwheel") for _ in range(2))
    expected = all_pages(first, [])
    read = sorted({token for tokens in first.library.watch.reads.values() for token in tokens})
    given = worked_out(bench, read)
    before = prints(given)
    assert all_pages(bench, []) == expected
    after = prints(given)
    assert [name for name in before if after[name] != before[name]] == []
    assert Prints().of(records) == as_read
    assert len(read) > len(records.failure_modes) and len(before) > len(read)
