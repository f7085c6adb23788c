"""The section of a set screw on its flat: true to scale, well-formed, legible."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import generator
from generator.analysis.fasteners.flats import (
    flat_depth,
    turns_to_clear,
    whole_quarters,
)
from generator.diagrams.flat_section import svg
from generator.standards.notation import parse_thread
from generator.standards.threads import THREADS

_STYLES = Path(generator.__file__).parent / "assets" / "css" / "reckoners.css"
SVG = "{http://www.w3.org/2000/svg}"


def drawn(shaft: float, flat: float, thread: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg(shaft, flat, parse_thread(thread)))


def shaft_path(root: ElementTree.Element) -> tuple[float, float, float]:
    """Radius of the shaft, height of the flat and its width, px, read back from the drawing."""
    path = next(p.get("d") for p in root.iter(f"{SVG}path") if p.get("class") == "metal")
    radius, flat, width = re.search(r"A([\d.]+) [\d.]+ 0 0 1 [\d.]+ ([\d.]+)h([\d.]+)", path).groups()
    return float(radius), float(flat), float(width)


def screw_points(root: ElementTree.Element) -> list[list[tuple[float, float]]]:
    """Outlines of the two screws, seated first."""
    found = [p.get("points") for p in root.iter(f"{SVG}polygon") if p.get("class") == "screw"]
    return [[tuple(map(float, pair.split(","))) for pair in points.split()] for points in found]


threads = st.sampled_from(sorted(THREADS))


@settings(max_examples=40)
@given(st.floats(3, 25), st.floats(0.15, 1), threads)
def test_shaft_flat_screw_and_lift_share_one_scale(shaft: float, share: float, thread: str) -> None:
    root, flat = drawn(shaft, shaft * share, thread), shaft * share
    radius, height, width = shaft_path(root)
    scale = 2 * radius / shaft
    assert width / scale == pytest.approx(flat, abs=0.2 / scale + 0.01 * flat)
    seated, raised = (max(y for _, y in points) for points in screw_points(root))
    turns = whole_quarters(turns_to_clear(flat_depth(shaft, flat), float(THREADS[thread].pitch_mm)))
    assert seated == pytest.approx(height, abs=0.11)
    assert (seated - raised) / scale == pytest.approx(turns * float(THREADS[thread].pitch_mm), rel=0.01, abs=0.2 / scale)


@settings(max_examples=40)
@given(st.floats(3, 25), st.floats(0.15, 1), threads)
def test_the_raised_point_stands_clear_of_the_round(shaft: float, share: float, thread: str) -> None:
    root = drawn(shaft, shaft * share, thread)
    radius, height, _ = shaft_path(root)
    crown = height - flat_depth(shaft, shaft * share) * 2 * radius / shaft
    assert max(y for _, y in screw_points(root)[1]) < crown


@settings(max_examples=40)
@given(st.floats(3, 25), st.floats(0.15, 1), threads)
def test_no_text_leaves_the_picture(shaft: float, share: float, thread: str) -> None:
    root = drawn(shaft, shaft * share, thread)
    _, _, width, height = map(float, root.get("viewBox").split())
    for text in root.iter(f"{SVG}text"):
        # The lines of the legend measure 0.50 em a letter in DejaVu Sans, the widest of the usual sans faces.
        length = 0 if text.get("text-anchor") == "middle" else 0.52 * 13 * len(text.text)
        assert float(text.get("x")) + length <= width
        assert 0 < float(text.get("y")) < height


def test_measures_stand_in_both_systems() -> None:
    said = [text.text for text in drawn(8, 4, "10-32").iter(f"{SVG}text")]
    # Worked: 4 - sqrt(16 - 4) = 0.536 mm, over 25.4 = 0.021 in.
    assert "flat 4 mm (0.157 in) wide" in said
    assert "flat 0.54 mm (0.021 in) deep" in said
    assert "1 turn" in said


def test_title_and_description_name_the_picture() -> None:
    root = ElementTree.fromstring(svg(8, 4, parse_thread("10-32"), "gear"))
    ids = {element.get("id") for element in root.iter() if element.get("id")}
    assert set(root.get("aria-labelledby").split()) == {"gear-title", "gear-desc"} <= ids
    assert all(name == "gear" or name.startswith("gear-") for name in ids)
    assert "10-32" in root.find(f"{SVG}desc").text


def test_two_pictures_on_one_page_share_no_id() -> None:
    ids = [re.findall(r' id="([^"]+)"', svg(8, 4, parse_thread("M4"), prefix)) for prefix in ("one", "two")]
    assert not set(ids[0]) & set(ids[1])
    assert all(len(found) == len(set(found)) for found in ids)


def test_every_reference_finds_its_definition() -> None:
    text = svg(8, 4, parse_thread("M4"), "one")
    assert set(re.findall(r"url\(#([^)]+)\)", text)) <= set(re.findall(r' id="([^"]+)"', text))


def test_type_is_legible_and_colours_are_the_pages() -> None:
    text = svg(8, 4, parse_thread("M4"))
    width = float(re.search(r'viewBox="0 0 ([\d.]+)', text)[1])
    looks = "".join(re.findall(r"\.hw-flat-section [^{]+\{[^}]+\}", _STYLES.read_text(encoding="utf-8")))
    assert min(float(size) for size in re.findall(r"font: ([\d.]+)px", looks)) * 340 / width >= 11
    assert all(f"var(--hw-{name})" in looks for name in ("ink", "soft", "green", "green-wash", "card"))
    assert set(re.findall(r'class="([a-z]+)"', text)) <= set(re.findall(r"[( ]\.([a-z]+)", looks))
    assert not re.search(r'(?:fill|stroke)[:=]"?#', text)


def test_a_flat_wider_than_the_shaft_is_refused() -> None:
    with pytest.raises(ValueError, match="does not go on a shaft"):
        svg(8, 9, parse_thread("M4"))
