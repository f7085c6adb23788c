"""Makes the icons anew from the mark in the header: `python -m tests.tools.mark`. Needs `pip install -e ".[tools]"`."""

from __future__ import annotations

import shutil
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

ROOT = Path(__file__).parent.parent.parent
MARK = ROOT / "generator" / "pages" / "theme" / "partials" / "logo.html"
ICONS = ROOT / "generator" / "assets" / "mark"
_GREEN, _LIGHT_GREEN, _PAPER = "#17463f", "#8fd0c1", "#fbfaf6"
"As --hw-green in the light and in the dark, and --hw-paper."


def drawing() -> str:
    """What the mark is drawn with."""
    text = MARK.read_text(encoding="utf-8")
    drawn = text[text.index('<g id="hw-mark">') :].partition("\n")[2]
    return drawn[: drawn.index("</g></svg>")].strip()


def icon() -> str:
    """The mark for a tab, which may be light or dark."""
    look = f"<style>svg{{color:{_GREEN}}}@media(prefers-color-scheme:dark){{svg{{color:{_LIGHT_GREEN}}}}}</style>"
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 48 48">{look}{drawing()}</svg>\n'


def _picture(browser: Browser, size: int, room: int, ground: str, ink: str) -> bytes:
    """The mark as a square picture of `size` px with `room` px around it."""
    tab = browser.new_page(viewport={"width": size, "height": size})
    inner = size - 2 * room
    mark = f'<svg viewBox="0 0 48 48" width="{inner}" height="{inner}">{drawing()}</svg>'
    tab.set_content(f'<body style="margin:0;padding:{room}px;line-height:0;color:{ink};background:{ground}">{mark}')
    shot = tab.screenshot(omit_background=True)
    tab.close()
    return shot


def main() -> None:
    """The icon of a tab in both forms, and the one of a phone's home screen, which wants a ground."""
    ICONS.mkdir(exist_ok=True)
    (ICONS / "icon.svg").write_text(icon(), encoding="utf-8")
    with sync_playwright() as library:
        browser = library.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        (ICONS / "icon.png").write_bytes(_picture(browser, 48, 0, "transparent", _GREEN))
        (ICONS / "touch-icon.png").write_bytes(_picture(browser, 180, 22, _GREEN, _PAPER))
        browser.close()


if __name__ == "__main__":
    main()
