"""Every drawing of the published families: sound, and with all of its words."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from generator.bench import Bench
from generator.bench.timing import timing
from generator.pages.maker import Maker
from generator.pages.timing import views
from generator.pages.timing.beside import seat_drawing
from generator.pages.timing.gauges import drawing
from tests.diagrams.measuring import SVG, assert_sound


@pytest.fixture(scope="module")
def maker(published: Bench) -> Maker:
    return Maker(published)


def gauges(maker: Maker) -> Iterator[tuple[str, object, str]]:
    """Where, the gauge, its drawing."""
    for view in maker.library.views:
        found = timing(view)
        for setting in view.settings.values():
            if setting.gauge and (picture := drawing(maker, view, setting, found, "g")):
                yield f"{view.id} {setting.id}", setting.gauge, str(picture)


def test_every_gauge_is_drawn_with_all_its_words(maker: Maker) -> None:
    for where, gauge, picture in gauges(maker):
        shown = "".join(t.text for t in assert_sound(picture).iter(f"{SVG}text")).replace("-", "").replace(" ", "")
        named = () if gauge.draws in ("belt-teeth", "give") else (gauge.of, gauge.to or "")
        for words in named:
            assert words.replace("-", "").replace(" ", "") in shown, where


def test_a_gauge_without_a_drawing_lacks_a_figure_of_the_family(maker: Maker) -> None:
    for view in maker.library.views:
        found = timing(view)
        for setting in view.settings.values():
            if setting.gauge and not drawing(maker, view, setting, found, "g"):
                assert setting.gauge.draws == "belt-teeth" and "belt_pitch" not in view.family.figures, (view.id, setting.id)


def test_every_seat_and_every_view_of_timing_is_sound(maker: Maker) -> None:
    for view in maker.library.views:
        found = timing(view)
        for note in view.fasteners.values():
            if picture := seat_drawing(note, "s"):
                assert_sound(str(picture))
        for made in (views.plot, views.needle, views.instants, views.feed):
            if picture := made(view, found):
                assert_sound(str(picture))
