"""Where pages stand, and the way from one to another."""

from __future__ import annotations

import pytest

from generator.wording.places import place, relative


def test_addresses_are_relative_to_the_page():
    assert relative(place("check", "look"), place("bench", "skips", "tessaly-40")) == "../../checks/look.html"
    assert relative(place("term", "hook"), "glossary.html") == "#hook"
    assert relative("index.html", "index.html") == "index.html"


def test_a_kind_without_a_page_is_refused():
    with pytest.raises(ValueError, match="No page"):
        place("feature", "x")
