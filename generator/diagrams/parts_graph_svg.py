"""What is behind what: which parts come off before which."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from generator.analysis.machine import MachinePart
from generator.diagrams import boxes
from generator.diagrams.boxes import Arrow, Box, Sheet
from generator.diagrams.draw import Href
from generator.diagrams.layout import Drawing
from generator.graph import reached

_LEGEND = (("", "comes off before"),)


def prepare(
    parts: Iterable[MachinePart],
    *,
    prefix: str,
    title: str,
    name: Callable[[str], str],
    href: Href,
    notes: Mapping[str, str] = {},
) -> Drawing:
    """The parts of one assembly or family ready to be laid out.

    `title` is the assembly's or family's. `name`, `href` and `notes` go by part id; a note is a short
    text such as "12 min". A part that others are behind but that is not among `parts` is drawn as
    outside. An arrow that follows from others is left out. `behind` has no cycle.

    >>> from generator.diagrams.layout import render_all
    >>> parts = [MachinePart("cover"), MachinePart("gear", behind=("cover",))]
    >>> picture, = render_all([prepare(parts, prefix="p", title="Hook", name=str.title, href=lambda id: None)])
    >>> ">Cover<" in picture and ">Gear<" in picture
    True
    """
    behind = {part.id: part.behind for part in parts}
    outside = sorted({before for befores in behind.values() for before in befores} - behind.keys())
    order = [*behind, *outside]
    place = {part: number for number, part in enumerate(order)}
    drawn = [Box(name(p), href(p), notes.get(p, ""), "" if p in behind else "outside") for p in order]
    arrows = [Arrow(place[before], place[part]) for part in behind for before in _direct(part, behind)]
    about = f"{len(behind)} parts. An arrow leads from a part to one that can come off only after it."
    legend = _LEGEND if arrows else ()
    return boxes.prepare(Sheet(prefix, f"What is behind what: {title}", about, drawn, arrows, legend))


def _direct(part: str, behind: Mapping[str, tuple[str, ...]]) -> list[str]:
    """The parts that must come off first and that no other of them brings along."""
    further = [one for before in behind[part] for one in behind.get(before, ())]
    brought = reached(further, lambda one: behind.get(one, ()))
    return [before for before in dict.fromkeys(behind[part]) if before not in brought]
