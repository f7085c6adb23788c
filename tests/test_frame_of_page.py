"""Which pages leave their frame to the script, and what the script is put together from."""

from __future__ import annotations

from pathlib import Path

import pytest
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig

from generator import frame, frame_of_page

ROOT = Path(__file__).parent.parent


def _settled(**given: object) -> MkDocsConfig:
    config = load_config(str(ROOT / "mkdocs.yml"), **given)
    frame.settle(config)
    return config


def test_the_books_own_settings_make_one_frame_for_all_pages():
    assert frame_of_page.is_alike(_settled())
    assert frame_of_page.is_alike(_settled(extra={"social": []}))


@pytest.mark.parametrize(
    "given",
    [
        {"theme": {"name": "material", "features": ["navigation.path"]}},
        {"theme": {"name": "material", "palette": {"scheme": "slate"}}},
        {"theme": {"name": "material", "palette": [{"scheme": "slate"}]}},
        {"extra": {"alternate": [{"name": "English", "link": "/", "lang": "en"}]}},
        {"plugins": ["handwheel", "search"]},
    ],
)
def test_a_shop_that_asks_for_more_of_the_theme_gets_pages_that_hold_their_frame(given):
    assert not frame_of_page.is_alike(_settled(**given))


def test_the_script_begins_with_what_the_themes_looks_for_and_ends_with_the_colours():
    script = frame_of_page.joined("handwheelFrame({});\n")
    order = [script.index(words) for words in ("__md_scope", "handwheelFrame = ", "handwheelFrame({});", "__palette_")]
    assert order == sorted(order)
