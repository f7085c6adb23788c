"""Record text and numbers as pages show them."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.wording import words


@pytest.mark.parametrize("text", ["<script>alert(1)</script>", 'a "quoted" <b>word</b>', "x < y & z", "<!-- gone -->", "<svg onload=x>"])
def test_markup_in_a_record_shows_as_text(text):
    html = words.block(text)
    assert words.plain(text) == text
    assert not any(tag in html for tag in ("<script", "<b>", "<svg", "<!--"))


@given(st.floats(0.2, 2000))
def test_minutes_as_said_are_never_further_off_than_a_quarter_of_them(value):
    whole, fraction = re.fullmatch(r"(\d*)([¼½¾]?) min", words.minutes(value)).groups()
    said = int(whole or 0) + {"": 0, "¼": 0.25, "½": 0.5, "¾": 0.75}[fraction]
    assert abs(said - value) <= min(0.5, 0.25 * value) + 1e-9


@given(st.floats(0, 2000))
def test_minutes_never_promise_less_than_they_are_by_more_than_half_of_the_step(value):
    said = words.minutes(value)
    assert said.endswith("min")
    if value >= 10:
        assert abs(int(said.split()[0]) - value) <= 0.5 + 1e-9
