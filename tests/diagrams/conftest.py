"""A real browser to show pictures in."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import material
import pytest
from playwright.sync_api import Browser, Page

import generator


def _theme() -> str:
    sheets = Path(material.__file__).parent / "templates/assets/stylesheets"
    return next(sheets.glob("main.*.min.css")).read_text(encoding="utf-8")


_OURS = Path(generator.__file__).parent / "assets/css"
STYLE = _theme() + "".join((_OURS / name).read_text(encoding="utf-8") for name in ("face.css", "diagrams.css"))
"The theme's style sheet, which shrinks pictures to the page, and ours after it, as on the site."


@pytest.fixture(scope="session")
def browser_page(browser: Browser) -> Iterator[Page]:
    page = browser.new_page(viewport={"width": 390, "height": 800})
    yield page
    page.close()


@pytest.fixture
def show(browser_page: Page) -> Callable[..., Page]:
    """Shows pictures in the site's theme, at the width of a phone."""

    def show_pictures(*svgs: str) -> Page:
        body = "".join(f'<div style="overflow-x: auto">{svg}</div>' for svg in svgs)
        head = f"<!doctype html><html dir=ltr><meta charset=utf-8><style>{STYLE}</style>"
        browser_page.set_content(f'{head}<body><div class="md-typeset">{body}</div>')
        browser_page.evaluate("document.fonts.ready")
        return browser_page

    return show_pictures
