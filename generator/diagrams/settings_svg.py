"""The order of settings: which is made after which, and which upsets which."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from generator.analysis.machine import MachineSetting
from generator.diagrams import boxes
from generator.diagrams.boxes import Arrow, Box, Sheet
from generator.diagrams.draw import Href
from generator.diagrams.layout import Drawing

_MEANING = {"": "is made before", "dashed": "upsets when it is made again"}


def prepare(
    settings: Iterable[MachineSetting],
    *,
    prefix: str,
    title: str,
    name: Callable[[str], str],
    href: Href,
    notes: Mapping[str, str] = {},
) -> Drawing:
    """The settings of one assembly or family ready to be laid out.

    `title` is the assembly's or family's. `name`, `href` and `notes` go by setting id; a note is a short
    text such as "20 min". A setting of another assembly that is only named is drawn as outside.

    >>> from generator.diagrams.layout import render_all
    >>> settings = [MachineSetting("height", disturbs=("timing",)), MachineSetting("timing", after=("height",))]
    >>> drawing = prepare(settings, prefix="s", title="Hook", name=str.title, href=lambda id: None)
    >>> render_all([drawing])[0].count("line dashed")
    2
    """
    given = {setting.id: setting for setting in settings}
    named = {other for setting in given.values() for other in (*setting.after, *setting.disturbs)}
    order = [*given, *sorted(named - given.keys())]
    place = {setting: number for number, setting in enumerate(order)}
    drawn = [Box(name(s), href(s), notes.get(s, ""), "" if s in given else "outside") for s in order]
    arrows = [arrow for setting in given.values() for arrow in _arrows(setting, place)]
    looks = {arrow.look for arrow in arrows}
    legend = [(look, meaning) for look, meaning in _MEANING.items() if look in looks]
    about = f"{len(given)} settings in the order in which they are made, and which of them upset others."
    return boxes.prepare(Sheet(prefix, f"Order of settings: {title}", about, drawn, arrows, legend))


def _arrows(setting: MachineSetting, place: Mapping[str, int]) -> Iterator[Arrow]:
    """Solid from the settings made before, dashed to the settings upset."""
    here = place[setting.id]
    for before in dict.fromkeys(setting.after):
        yield Arrow(place[before], here)
    for upset in dict.fromkeys(setting.disturbs):
        yield Arrow(here, place[upset], "dashed", bound=False)
