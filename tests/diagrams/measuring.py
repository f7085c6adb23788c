"""Drawings read back from their SVG."""

from __future__ import annotations

import re
from xml.etree import ElementTree

from generator.diagrams import text

SVG = "{http://www.w3.org/2000/svg}"
LARGEST = 30_000
"Bytes that a drawing may take."


def classed(root: ElementTree.Element, *names: str) -> list[ElementTree.Element]:
    """Elements that have every one of the classes, in order."""
    return [e for e in root.iter() if set(names) <= set(e.get("class", "").split())]


def places(element: ElementTree.Element) -> list[tuple[float, float]]:
    """Where a path goes, px; arcs by their ends, and no curves."""
    found: list[tuple[float, float]] = []
    x = y = 0.0
    for command, rest in re.findall(r"([MLHVAZmlhvaz])([^MLHVAZmlhvaz]*)", element.get("d", "")):
        given = [float(n) for n in re.findall(r"-?[\d.]+", rest)]
        if command == "H":
            steps = [(n, y) for n in given]
        elif command == "V":
            steps = [(x, n) for n in given]
        elif command == "h":
            steps = [(x + given[0], y)]
        elif command == "v":
            steps = [(x, y + given[0])]
        elif command == "A":
            steps = [(given[5], given[6])]
        else:
            pairs = list(zip(given[::2], given[1::2], strict=True))
            steps = [(x + a, y + b) for a, b in pairs] if command.islower() else pairs
        found += steps
        x, y = steps[-1] if steps else (x, y)
    return found


def ends(element: ElementTree.Element) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a path, px."""
    xs, ys = zip(*places(element), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def assert_sound(picture: str) -> ElementTree.Element:
    """Words within the picture and in its own colours, a text that says it, few bytes."""
    root = ElementTree.fromstring(picture)
    wide, tall = float(root.get("width")), float(root.get("height"))
    for words in root.iter(f"{SVG}text"):
        classes = words.get("class", "").split()
        long = text.width(words.text, text.SMALL if "small" in classes else text.SIZE, "strong" in classes)
        start = float(words.get("x")) - (long / 2 if "mid" in classes else 0)
        assert start >= 0 and start + long <= wide, words.text
        assert 0 < float(words.get("y")) < tall, words.text
    assert root.find(f"{SVG}title").text and root.find(f"{SVG}desc").text
    assert len(picture.encode()) < LARGEST
    assert not re.search(r"#[0-9a-f]{3,6}\b|style=", picture)
    return root
