"""A job sheet as a program reads it."""

from __future__ import annotations

import json

import pytest

from generator.pages.jobs import sheets as job_sheets
from generator.pages.maker import Maker
from tests.tags import read

KNOWN = {
    "HowTo": {"name", "totalTime", "tool", "supply", "step"},
    "HowToStep": {"itemListElement"},
    "HowToTip": {"text"},
    "HowToDirection": {"text"},
}
"""Type of schema.org -> the properties that we use of it; from memory.

A `step` is a HowToStep, or Text where there is nothing but its words: schema.org/step, from memory.
"""


@pytest.fixture(scope="module")
def sheets(published) -> list:
    maker, view = Maker(published), next(v for v in published.library.views if v.id == "aldermoor-s")
    return list(job_sheets.pieces(maker, view, "")[0].pages())


def data_of(page) -> dict:
    (script,) = [s for s in read(page.html)[0].iter("script") if s.get("type") == "application/ld+json"]
    return json.loads(script.text)


def typed(data: object):
    """Every object that says its type."""
    if isinstance(data, dict):
        yield from (data,) if "@type" in data else ()
        for value in data.values():
            yield from typed(value)
    elif isinstance(data, list):
        for value in data:
            yield from typed(value)


def words_of(step: str | dict) -> str:
    """What is to be done: the text itself, or that of the direction after its cautions."""
    return step if isinstance(step, str) else step["itemListElement"][-1]["text"]


def test_it_is_a_howto_of_schema_org_with_a_step_for_each_of_the_sheet(sheets) -> None:
    for page in sheets:
        data = data_of(page)
        assert (data["@context"], data["@type"]) == ("https://schema.org", "HowTo")
        assert len(data["step"]) == page.html.count('id="step-')
        for one in typed(data):
            assert one.keys() - {"@type", "@context"} <= KNOWN[one["@type"]]
        assert all(words_of(step).strip() for step in data["step"])


def test_minutes_are_the_sheets_own_as_iso_8601_has_them(sheets) -> None:
    for page in sheets:
        minutes = int(data_of(page)["totalTime"].removeprefix("PT").removesuffix("M"))
        assert 0 < minutes < 24 * 60


def test_what_guards_a_step_stands_before_it(sheets) -> None:
    for page in sheets:
        guarded = [step for step in data_of(page)["step"] if not isinstance(step, str)]
        kinds = [[one["@type"] for one in step["itemListElement"]] for step in guarded]
        assert guarded[0] == data_of(page)["step"][0], page.address
        assert kinds[0][:1] == ["HowToTip"], page.address
        assert all(kind == sorted(kind, reverse=True) and kind[-1] == "HowToDirection" for kind in kinds)
