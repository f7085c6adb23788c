"""Pages on paper, dressed in the theme's styles and ours."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path

import material
from playwright.sync_api import Browser

from generator.pages.page import PageText

ROOT = Path(__file__).parents[3]
PAPERS = ((210.0, 297.0), (215.9, 279.4))
"A4 (ISO 216) and Letter (ANSI/ASME Y14.1), width and height in mm."

_SIDE = re.compile(rb"/Type\s*/Page\b")


@cache
def _styles() -> str:
    theme = sorted((Path(material.__file__).parent / "templates" / "assets" / "stylesheets").glob("*.css"))
    ours = sorted((ROOT / "generator" / "assets" / "css").glob("*.css"))
    return "".join(f"<style>{path.read_text(encoding='utf-8')}</style>" for path in (*theme, *ours))


def dressed(page: PageText, script: str = "") -> str:
    """The page in the theme's styles and ours, with a script after it."""
    body = f'<body data-md-color-scheme="default"><article class="md-content__inner md-typeset">{page.html}</article>{script}</body>'
    return f"<!doctype html><html lang=en><head><meta charset=utf-8>{_styles()}</head>{body}</html>"


@contextmanager
def printer(browser: Browser, folder: Path, part: float = 1.0) -> Iterator[Callable[[PageText], list[int]]]:
    """Counts the sides that a page takes on each paper, cut down to `part` of its height."""
    file = folder / "sheet.html"
    file.write_text(dressed(PageText("", "", "")), encoding="utf-8")
    context = browser.new_context(offline=True)
    tab = context.new_page()
    tab.goto(file.as_uri())

    def printed(page: PageText) -> list[int]:
        tab.evaluate("async html => { document.querySelector('article').innerHTML = html; await document.fonts.ready }", page.html)
        sheets = (tab.pdf(width=f"{wide / 25.4}in", height=f"{tall * part / 25.4}in") for wide, tall in PAPERS)
        return [len(_SIDE.findall(sheet)) for sheet in sheets]

    yield printed
    context.close()
