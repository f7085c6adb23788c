"""The reckoners: small sums of the bench, and the tables that they rest on."""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.fasteners.flats import MARGIN_MM
from generator.analysis.fasteners.lookalikes import lookalikes
from generator.analysis.fasteners.near_miss import CLOSE
from generator.analysis.timing.gears import MODULES, PITCHES
from generator.library import Library
from generator.pages.data.script import FOLDER, script
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.standards.belts import BELT_PITCH_MM
from generator.standards.keys import INCH_KEYS, KEY_SERIES, METRIC_KEYS, NEAREST, Key, Kind
from generator.standards.needles import JIS_BLADES_MM, NEEDLES
from generator.standards.quantity import Quantity, format_number
from generator.standards.stitch_types import STITCH_TYPES
from generator.standards.threads import (
    COARSE_PITCH,
    THREADS,
    UNIFIED_PITCHES,
    Thread,
    diameter_of,
)

ADDRESS = "reckoners.html"
RECKONERS = f"{FOLDER}/reckoners.js"
_NAMES = (
    "numbers", "sizes", "flats", "motion", "keys", "threads", "section", "stitches", "form", "screws", "sewing", "timing",
    "timing-forms",
)  # fmt: skip
_SCRIPTS = (RECKONERS, *(f"assets/handwheel/js/charts/{name}.js" for name in _NAMES))


def pages(maker: Maker) -> Iterator[PageText]:
    """One page: forms that the browser reckons with, and under each the table to read without them."""
    yield maker.page(
        ADDRESS,
        "Reckoners",
        "reckoners.html",
        description="Hex keys, unknown screws, turns to clear a flat, stitches, needles, threads, belts.",
        search="reckoners calculators hex key thread unknown screw turns to clear stitch length stitches per inch "
        "needle size thread size tex denier cotton count belt tooth V-belt needle bar rise ten stitches differential reverse "
        "gear module diametral pitch play backlash motor speed pulley",
        scripts=_SCRIPTS,
        screws=tuple(_screw_rows()),
        threads=tuple(_thread_rows()),
        needles=tuple(_needle_rows()),
        stitch_types=tuple(STITCH_TYPES.items()),
        belts=tuple((letters, f"{pitch:g} mm") for letters, pitch in BELT_PITCH_MM.items()),
    )


def _screw_rows() -> Iterator[tuple[str, str, str]]:
    """Screw size, key of the set screw, key of the cap screw; inch sizes first."""
    for size in INCH_KEYS["set"]:
        yield size, str(INCH_KEYS["set"][size].size), str(INCH_KEYS["cap"][size].size)
    for diameter in METRIC_KEYS["set"]:
        by_set, by_cap = METRIC_KEYS["set"][diameter], METRIC_KEYS["cap"][diameter]
        yield f"M{format_number(diameter)}", str(by_set.size), str(by_cap.size)


def _thread_rows() -> Iterator[dict[str, object]]:
    for thread in THREADS.values():
        yield {
            "name": thread.name,
            "memory": thread.memory,
            "diameter": f"{float(thread.diameter_mm):.2f} mm",
            "pitch": f"{float(thread.pitch_mm):.3f} mm",
            "to_the_inch": f"{float(thread.threads_per_inch):.4g}",
        }


def _needle_rows() -> Iterator[dict[str, object]]:
    for needle in NEEDLES:
        jis = JIS_BLADES_MM.get(needle.american)
        yield {
            "metric": needle.metric,
            "american": needle.american,
            "memory": needle.memory,
            "blade": f"{needle.blade_mm:.2f} mm",
            "blade_jis": f"{jis:.2f} mm" if jis else "",
        }


def reckoner_files(library: Library) -> Iterator[tuple[str, str]]:
    """Address and content of the tables that the reckoners read. Lengths in mm."""
    yield RECKONERS, script("reckoners", _data(library))


def _data(library: Library) -> dict[str, object]:
    return {
        "threads": [_thread(t) for t in THREADS.values()],
        "coarse": [[float(d), float(p)] for d, p in COARSE_PITCH.items()],
        "unified": UNIFIED_PITCHES,
        "keys": {kind: list(_keys(kind)) for kind in INCH_KEYS},
        "series": {system: [_size(size) for size in sizes] for system, sizes in KEY_SERIES.items()},
        "modules": list(MODULES),
        "pitches": list(PITCHES),
        "needles": [{"metric": n.metric, "american": n.american} for n in NEEDLES],
        "margin": MARGIN_MM,
        "nearest": float(NEAREST),
        "close": CLOSE,
        "sources": {s.id: s.title for s in library.records.sources.values()},
    }


def _thread(thread: Thread) -> dict[str, object]:
    return {
        "name": thread.name,
        "diameter": float(thread.diameter_mm),
        "pitch": float(thread.pitch_mm),
        "series": thread.series,
        "source": thread.source,
        "memory": thread.memory,
        "like": [found.says for found in lookalikes(thread)],
    }


def _keys(kind: Kind) -> Iterator[dict[str, object]]:
    for size, key in INCH_KEYS[kind].items():
        yield _key(key, size, float(diameter_of(size)), metric=False)
    for diameter, key in METRIC_KEYS[kind].items():
        yield _key(key, f"M{format_number(diameter)}", float(diameter), metric=True)


def _key(key: Key, screw: str, diameter: float, metric: bool) -> dict[str, object]:
    return {
        **_size(key.size),
        "screw": screw,
        "diameter": diameter,
        "metric": metric,
        "source": key.source,
        "memory": key.memory,
    }


def _size(size: Quantity) -> dict[str, object]:
    return {"size": str(size), "mm": size.number("mm")}
