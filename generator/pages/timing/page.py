"""Timing: a sheet for each family, and the hub of them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from generator.bench.timing import USED, Timing, timing
from generator.family_view import FamilyView
from generator.own_words import told
from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.pages.piece import Piece
from generator.pages.timing import views
from generator.pages.timing.gauges import gauged
from generator.watched import Traced
from generator.wording import timing as said
from generator.wording.links import Links
from generator.wording.places import place
from generator.wording.ranges import range_words

HUB = "timing.html"
_ONE = "Broken line: the point's height above the eye."
_RANGE = "Broken lines: least and most above the eye; heights are of the target's middle."
_SKETCHED = (
    "The needle is the middle of the machine's sizes. The eye's length, the needle's end and the point's shape are sketches."
)
SLIDER = "assets/handwheel/js/timing/hand-wheel.js"


def piece(maker: Maker) -> Piece:
    """The hub, and one sheet a family with the drawings of its settings."""
    found: Traced[str, Timing] = Traced(maker.library.watch)
    sheets = {"timing": _sheet, "gauges": _gauges}
    places = {place(kind, view.id): (kind, view.id) for view in maker.library.views for kind in sheets}

    def of(view: FamilyView) -> Timing:
        return found(view.id, lambda: timing(view))

    def make(held: tuple[str, str]) -> PageText:
        kind, id = held
        if kind == HUB:
            return _hub(maker, of)
        view = maker.library.for_family(id)
        return sheets[kind](maker, view, of(view))

    def prepare(_: Collection[tuple[str, str]]) -> Callable[[tuple[str, str]], PageText]:
        return make

    return maker.each({HUB: (HUB, ""), **places}, prepare)


def _hub(maker: Maker, of: Callable[[FamilyView], Timing]) -> PageText:
    link = Links(maker.library, HUB)
    entries = [{"href": link("timing", v.id), "title": v.name, "note": _note(of(v))} for v in maker.library.views]
    intro = "How far the bar has risen as the point meets the needle, in mm and in degrees of hand wheel. A sheet to print for each."
    return maker.page(HUB, "Timing", "chart-list.html", intro=intro, entries=entries, search="timing hook needle bar rise")


def _note(found: Timing) -> str:
    target = range_words(found.setting.target) if found.setting else ""
    return f"Rise {target}" if target else "No target noted yet"


def _sheet(maker: Maker, view: FamilyView, found: Timing) -> PageText:
    return maker.page(
        place("timing", view.id),
        f"Timing: {view.name}",
        "timing.html",
        of=view,
        search=texts("timing hook needle bar rise degrees feed belt gear motor speed", view.name),
        scripts=(SLIDER,) if found.followed else (),
        wide=True,
        family=view.family,
        cautions=_cautions(view, found),
        setting=found.setting,
        plain=said.plain(found),
        rows=[{"rise": _tenths(r.rise), "degrees": f"{r.degrees:.1f}", "rate": f"{r.rate:.3f}"} for r in found.table],
        slider=views.slider(view, found),
        parts=[_called(part, view.calls) for part in _parts(view, found) if part.drawing or part.lines],
        figures=_figures(maker, view),
        caveats=[told(line, view.calls) for line in said.caveats(view, found)],
        missing=[told(line, view.calls) for line in said.missing_lines(found)],
        above_all=said.ABOVE_ALL,
    )


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the sheet: a drawing, lines, or both."""

    id: str
    title: str
    drawing: Markup = Markup()
    true: bool = False
    "Whether the drawing is to scale on paper."
    lines: Sequence[str] = ()
    note: str = ""


def _called(part: Section, calls: Mapping[str, str]) -> Section:
    """The part in the family's own words: a shuttle where others have a hook."""
    return replace(part, title=told(part.title, calls), lines=[told(line, calls) for line in part.lines])


def _parts(view: FamilyView, found: Timing) -> Iterator[Section]:
    """The sheet from the needle bar to the motor."""
    yield Section("rise", "Rise and hand wheel", views.plot(view, found))
    yield Section("needle", "Needle and point", views.needle(view, found), true=True, note=_note_on_needle(found))
    yield Section("zigzag", "Zigzag", lines=list(said.swing_lines(found)))
    yield Section("hook", "Hook", lines=[*said.hook_lines(found), *said.backlash_lines(found)])
    yield Section("instants", "As they pass", views.instants(view, found), true=True)
    yield Section("belt", "Belt", lines=list(said.belt_lines(found)))
    yield Section("gears", "Hook gears", lines=list(said.gear_lines(found)))
    yield Section("feed", "Feed and needle", views.feed(view, found), true=True, lines=list(said.feed_lines(found)))
    yield Section("motor", "Motor", lines=list(said.motor_lines(found)))


def _note_on_needle(found: Timing) -> str:
    """What is to scale in the drawing of needle and point, and what is not."""
    lines = (_RANGE if found.height[0] < found.height[1] else _ONE) if found.height else ""
    return " ".join(filter(None, ["To scale on paper.", lines, _SKETCHED]))


def _tenths(mm: float) -> str:
    """A rise of the table: tenths, and more only where its window ends between two.

    >>> _tenths(2), _tenths(1.85)
    ('2.0', '1.85')
    """
    return f"{mm:.1f}" if round(mm, 1) == mm else f"{mm:.2f}"


def _gauges(maker: Maker, view: FamilyView, found: Timing) -> PageText:
    return maker.page(
        place("gauges", view.id),
        f"Gauges: {view.name}",
        "gauges.html",
        of=view,
        search=texts("gauge feeler tolerance setting looper foot tension", view.name),
        description=f"Settings of {view.name} that are gauged: tolerance, gauge, and where the gauge goes.",
        wide=True,
        family=view.family,
        cautions=view.needed(view.family.cautions),
        settings=gauged(maker, view, found),
        above_all=said.ABOVE_ALL,
    )


def _cautions(view: FamilyView, found: Timing) -> tuple[str, ...]:
    """The family's own, and those of the setting."""
    own = found.setting.cautions if found.setting else ()
    return view.needed(dict.fromkeys((*view.family.cautions, *own)))


def _figures(maker: Maker, view: FamilyView) -> list[dict[str, object]]:
    """What the sheet is worked out from, source by source."""
    kinds, own = maker.records.figures, view.family.figures
    found: dict[str | None, list[str]] = {}
    for name in USED:
        if name in own and name in kinds:
            found.setdefault(own[name].source, []).append(f"{kinds[name].title.lower()} {own[name].value}")
    return [{"said": ", ".join(figures), "source": source} for source, figures in found.items()]
