"""A real browser to show pictures in."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, sync_playwright

import generator

STYLE = (Path(generator.__file__).parent / "assets/css/diagrams.css").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def browser_page() -> Iterator[Page]:
    path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield browser.new_page(viewport={"width": 390, "height": 800})
        browser.close()


@pytest.fixture
def show(browser_page: Page) -> Callable[..., Page]:
    """Shows pictures with the site's style sheet, at the width of a phone."""

    def show_pictures(*svgs: str) -> Page:
        body = "".join(f'<div class="hw-scroll">{svg}</div>' for svg in svgs)
        browser_page.set_content(f"<!doctype html><meta charset=utf-8><style>{STYLE}</style>{body}")
        return browser_page

    return show_pictures
