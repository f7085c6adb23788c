"""The page that shows and clears what the book keeps in this browser."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping

from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.wording.links import Titled


def pages(maker: Maker) -> Iterator[PageText]:
    """One page; a script fills it."""
    yield maker.page(
        "on-this-device.html",
        "On this device",
        "on-this-device.html",
        search="kept on this device privacy clear forget offline finished walks jobs table count tally",
        scripts=("assets/handwheel/js/device/page.js", "assets/handwheel/js/device/finished.js"),
        names=json.dumps({
            "symptoms": _titles(maker.records.symptoms),
            "families": _titles(maker.records.families),
            "modes": _titles(maker.records.failure_modes),
        }),
    )


def _titles(records: Mapping[str, Titled]) -> dict[str, str]:
    return {id: record.title for id, record in sorted(records.items())}
