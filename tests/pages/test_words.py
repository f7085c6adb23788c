"""Record text, numbers and addresses as pages show them."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.pages.data.script import script
from generator.wording import words
from generator.wording.places import place, relative


@pytest.mark.parametrize("text", ["<script>alert(1)</script>", 'a "quoted" <b>word</b>', "x < y & z", "<!-- gone -->", "<svg onload=x>"])
def test_markup_in_a_record_shows_as_text(text):
    html = words.block(text)
    assert words.plain(text) == text
    assert not any(tag in html for tag in ("<script", "<b>", "<svg", "<!--"))


@given(st.floats(0, 2000))
def test_minutes_never_promise_less_than_they_are_by_more_than_half_of_the_step(value):
    said = words.minutes(value)
    assert said.endswith("min")
    if value >= 10:
        assert abs(int(said.split()[0]) - value) <= 0.5 + 1e-9


@given(st.text())
def test_data_for_the_browser_reads_back_and_closes_no_script(text):
    file = script("x", {"t": text})
    body = file[len('handwheel.give("x",') : -len(");\n")]
    assert json.loads(body) == {"t": text}
    assert "<" not in file and "\u2028" not in file


def test_addresses_are_relative_to_the_page():
    assert relative(place("check", "look"), place("bench", "skips", "tessaly-40")) == "../../checks/look.html"
    assert relative(place("term", "hook"), "glossary.html") == "#hook"
    assert relative("index.html", "index.html") == "index.html"


def test_a_kind_without_a_page_is_refused():
    with pytest.raises(ValueError, match="No page"):
        place("feature", "x")
