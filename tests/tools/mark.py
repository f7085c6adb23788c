"""Makes the icons, and the mark that the header shows, anew from mark.svg: `python -m tests.tools.mark`. Needs `pip install -e ".[tools]"`."""

from __future__ import annotations

import shutil
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

ROOT = Path(__file__).parent.parent.parent
MARK = Path(__file__).with_name("mark.svg")
ICONS = ROOT / "generator" / "assets" / "mark"
SHEET = ROOT / "generator" / "assets" / "css" / "mark.css"
_GREEN, _LIGHT_GREEN, _PAPER = "#17463f", "#8fd0c1", "#fbfaf6"
"As --hw-green in the light and in the dark, and --hw-paper."


def drawing() -> str:
    """What the mark is drawn with."""
    text = MARK.read_text(encoding="utf-8")
    return text[text.index("<g ") : text.index("</svg>")].strip()


def icon() -> str:
    """The mark for a tab, which may be light or dark."""
    look = f"<style>svg{{color:{_GREEN}}}@media(prefers-color-scheme:dark){{svg{{color:{_LIGHT_GREEN}}}}}</style>"
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 48 48">{look}{drawing()}</svg>\n'


def sheet() -> str:
    """The mark as a shape that takes the colour of the words beside it; from disk a style sheet can load no drawing."""
    lines = drawing().replace("currentColor", "#000").replace('"', "'").replace("#", "%23").replace("\n", "")
    shape = f"data:image/svg+xml,<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 48 48'>{lines}</svg>"
    return f"""/* Written by tests/tools/mark.py: the mark of the book, at the size of the theme's icons. */
.hw-mark {{
  background: currentcolor;
  display: block;
  height: 1.2rem;
  mask: url("{shape}") center / contain no-repeat;
  width: 1.2rem;
}}

.md-nav__title .hw-mark {{
  height: 2.4rem;
  width: 2.4rem;
}}

@media (forced-colors: active) {{
  .hw-mark {{
    background: LinkText;
    forced-color-adjust: none;
  }}
}}
"""


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
    SHEET.write_text(sheet(), encoding="utf-8")
    with sync_playwright() as library:
        browser = library.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        (ICONS / "icon.png").write_bytes(_picture(browser, 48, 0, "transparent", _GREEN))
        (ICONS / "touch-icon.png").write_bytes(_picture(browser, 180, 22, _GREEN, _PAPER))
        browser.close()


if __name__ == "__main__":
    main()
