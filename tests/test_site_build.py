"""A site of one family, for whoever writes it."""

from __future__ import annotations

import builtins
from collections.abc import Iterable
from pathlib import Path

import pytest

from generator.site_build import ContentError, build

BOOK = Path(__file__).parent / "fixtures" / "jobs"


@pytest.fixture
def only_exact_sums(monkeypatch: pytest.MonkeyPatch) -> None:
    """`sum` refuses more than two numbers with a fraction in its type: Python 3.12 rounds them otherwise than 3.11 (its release notes)."""
    honest = builtins.sum

    def checked(numbers: Iterable, /, start=0):
        numbers = list(numbers)
        assert len(numbers) < 3 or not any(isinstance(number, float) for number in numbers), f"sum({numbers}): take math.fsum"
        return honest(numbers, start)

    monkeypatch.setattr(builtins, "sum", checked)


@pytest.mark.usefixtures("only_exact_sums")
def test_a_site_of_one_family_has_its_pages_as_the_whole_has_them_and_no_other_familys(tmp_path: Path) -> None:
    whole, one = (build([BOOK], tmp_path, "", only=only) for only in ((), ("probe-1",)))
    sheets = {p.address: p.html for p in whole.pages if p.address.startswith("jobs/")}
    own = {address: html for address, html in sheets.items() if "/probe-1/" in address}
    assert {p.address: p.html for p in one.pages if p.address.startswith("jobs/")} == own
    assert own.keys() < sheets.keys()
    assert not [page.address for page in one.pages if "probe-2" in page.html or "probe-2" in page.address]


def test_a_family_that_is_not_there_is_said_with_the_near_one(tmp_path: Path) -> None:
    with pytest.raises(ContentError, match="'probe-3' is no family of the book. Did you mean 'probe-"):
        build([BOOK], tmp_path, "", only=("probe-3",))
