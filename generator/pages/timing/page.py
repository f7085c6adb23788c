"""Timing: a sheet for each family, and the hub of them."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from generator.bench.timing import USED, Timing, timing
from generator.diagrams.timing import needle_view, rise_plot
from generator.diagrams.timing.needle_view import Meeting, Position
from generator.family_view import FamilyView
from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.wording import timing as said
from generator.wording.links import Links
from generator.wording.places import place
from generator.wording.ranges import range_words

HUB = "timing.html"


def pages(maker: Maker) -> Iterator[PageText]:
    """The hub, and one sheet a family."""
    found = {view.id: timing(view) for view in maker.library.views}
    link = Links(maker.library, HUB)
    entries = [
        {"href": link("timing", v.id), "title": v.family.title, "note": _note(found[v.id])} for v in maker.library.views
    ]
    intro = "How far the bar has risen as the point meets the needle, in mm and in degrees of hand wheel. A sheet to print for each."
    yield maker.page(HUB, "Timing", "chart-list.html", intro=intro, entries=entries, search="timing hook needle bar rise")
    for view in maker.library.views:
        yield _sheet(maker, view, found[view.id])


def _note(found: Timing) -> str:
    target = range_words(found.setting.target) if found.setting else ""
    return f"Rise {target}" if target else "No target noted yet"


def _sheet(maker: Maker, view: FamilyView, found: Timing) -> PageText:
    return maker.page(
        place("timing", view.id),
        f"Timing: {view.family.title}",
        "timing.html",
        of=view,
        search=texts("timing hook needle bar rise degrees", view.family.title),
        family=view.family,
        cautions=_cautions(view, found),
        setting=found.setting,
        plain=said.plain(found),
        rows=[{"rise": f"{r.rise:g}", "degrees": f"{r.degrees:.1f}", "rate": f"{r.rate:.3f}"} for r in found.table],
        plot=_plot(view, found),
        needle=_needle(view, found),
        hook=[*said.hook_lines(found), *said.backlash_lines(found)],
        teeth=list(said.tooth_lines(found)),
        swings=list(said.swing_lines(found)),
        feed=list(said.feed_lines(found)),
        figures=_figures(maker, view),
        caveats=list(said.caveats(view)),
        missing=said.missing_lines(found),
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


def _plot(view: FamilyView, found: Timing) -> Markup:
    if not (found.bar and found.window):
        return Markup()
    return Markup(rise_plot.svg(found.bar, *found.window, f"rise-{view.id}"))


def _needle(view: FamilyView, found: Timing) -> Markup:
    if not (found.middle and found.needle):
        return Markup()
    meeting = Meeting(found.needle, positions(found), found.height, found.gap)
    return Markup(needle_view.svg(meeting, f"needle-{view.id}"))


def positions(found: Timing) -> list[Position]:
    """The middle, or left, middle and right of a zigzag where they are known; heights from the target's middle."""
    if found.middle is None:
        return []
    above = sum(found.height) / 2 if found.height else None
    if found.swings is None:
        return [Position("As the point passes", found.middle.rise, above)]
    first, last = said.sides(found)
    named = zip((first, "middle", last), found.swings.rises, strict=True)
    drawn = [
        Position(title.capitalize(), rise, None if above is None else above - (rise - found.middle.rise))
        for title, rise in named
    ]
    return drawn[::-1] if first == "right" else drawn
