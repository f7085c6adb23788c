"""Takes the picture of a bench page that the README shows: `python -m tests.tools.bench_picture site`, after `make site`.

Needs Chromium on the PATH and `pip install -e ".[tools]"`.
"""

from __future__ import annotations

import io
import shutil
import sys
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright

ROOT = Path(__file__).parent.parent.parent
KEPT = ROOT / "content" / "guides" / "bench-page.png"
PAGE = "bench/tessaly-40/skipped-stitches.html"
SIZE = {"width": 1080, "height": 1240}
"px of CSS: two columns, without the list of pages at the side."
DENSITY = 1.5
COLOURS = 64


def taken(site: Path) -> bytes:
    """The top of the page, by day."""
    with sync_playwright() as library:
        browser = library.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        tab = browser.new_page(viewport=SIZE, device_scale_factor=DENSITY, color_scheme="light")
        tab.goto((site / PAGE).resolve().as_uri())
        tab.evaluate("document.fonts.ready")
        shot = tab.screenshot()
        browser.close()
    return shot


def light(shot: bytes) -> bytes:
    """The picture in as few colours as its flat grounds and its type need."""
    picture = Image.open(io.BytesIO(shot)).convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    out = io.BytesIO()
    picture.save(out, "PNG", optimize=True)
    return out.getvalue()


if __name__ == "__main__":
    KEPT.write_bytes(light(taken(Path(sys.argv[1] if len(sys.argv) > 1 else "site"))))
    print(f"{KEPT.relative_to(ROOT)}: {KEPT.stat().st_size // 1000} kB")
