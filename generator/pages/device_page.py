"""The page that shows and clears what the book keeps in this browser."""

from __future__ import annotations

from collections.abc import Iterator

from generator.pages.maker import Maker
from generator.pages.page import PageText


def pages(maker: Maker) -> Iterator[PageText]:
    """One page; a script fills it."""
    yield maker.page(
        "on-this-device.html",
        "On this device",
        "on-this-device.html",
        search="kept on this device privacy clear forget offline",
        scripts=("assets/handwheel/js/device/page.js",),
    )
