"""A family's charts: fasteners, oil points, settings in order."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection
from functools import partial

from markupsafe import Markup

from generator.analysis.job.precedence import earlier
from generator.bench.fastener_facts import FastenerFacts, fastener_facts
from generator.diagrams import flat_section
from generator.family_view import FamilyView
from generator.pages.data.tables import table_address
from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.pages.pictures import Pictures
from generator.pages.piece import Piece
from generator.pages.shops_own import mechanisms_of
from generator.records.model import Fastener, Part, Setting
from generator.standards.feel import FEEL_NOTES, FeelNote
from generator.wording import words
from generator.wording.joints import joint_title
from generator.wording.places import place
from generator.wording.ranges import range_words


def piece(maker: Maker, pictures: Callable[[Collection[str]], Pictures]) -> Piece:
    """Three charts a family; `pictures` gives the orders of settings of some families as drawings."""
    places = {
        place(kind, view.id): (kind, view.id) for view in maker.library.views for kind in ("fasteners", "oil-chart", "settings-order")
    }

    def prepare(asked: Collection[tuple[str, str]]) -> Callable[[tuple[str, str]], PageText]:
        drawn = pictures([family for kind, family in asked if kind == "settings-order"])
        make: dict[str, Callable[[Maker, FamilyView], PageText]] = {
            "fasteners": _fasteners,
            "oil-chart": _oil,
            "settings-order": partial(_settings, pictures=drawn),
        }
        return lambda held: make[held[0]](maker, maker.library.for_family(held[1]))

    return maker.each(places, prepare)


def _fasteners(maker: Maker, view: FamilyView) -> PageText:
    holders = _holders(view)
    groups = []
    for assembly in view.assemblies.values():
        items: tuple[Part | Setting, ...] = (*assembly.parts.values(), *assembly.settings.values())
        joints = [j for i in items for j in i.joints]
        noted = [j for j in dict.fromkeys(joints) if j in view.fasteners and holders[j][0][2] == assembly.id]
        if noted:
            fasteners = [_fastener(maker, view.fasteners[j], holders[j]) for j in noted]
            groups.append({"id": assembly.id, "title": assembly.title, "fasteners": fasteners})
    rest = [f for j, f in view.fasteners.items() if j not in holders]
    if rest:
        groups.append({"id": "other", "title": "Other joints", "fasteners": [_fastener(maker, f, []) for f in rest]})
    return maker.page(
        place("fasteners", view.id),
        f"Fastener chart: {view.name}",
        "fasteners.html",
        of=view,
        search=texts("fastener screw key thread", view.name, [joint_title(f) for f in view.fasteners.values()]),
        family=view.family,
        groups=groups,
        table=table_address("fasteners", view.id),
        missing=[words.spaced(j) for j in holders if j not in view.fasteners],
        guide=[_feel(maker, note) for note in FEEL_NOTES],
    )


def _holders(view: FamilyView) -> dict[str, list[tuple[str, str, str]]]:
    """Joint -> (kind, id, assembly) of the parts and settings that name it."""
    found: dict[str, list[tuple[str, str, str]]] = {}
    for assembly in view.assemblies.values():
        for kind, items in (("part", assembly.parts), ("setting", assembly.settings)):
            for item in items.values():
                for joint in item.joints:
                    found.setdefault(joint, []).append((kind, item.id, assembly.id))
    return found


def _fastener(maker: Maker, note: Fastener, holders: list[tuple[str, str, str]]) -> dict[str, object]:
    facts = fastener_facts(note)
    return {
        "note": note,
        "title": joint_title(note),
        "key_said": _sources_named(maker, facts.key_said),
        "near": " ".join(facts.near_misses),
        "turns": facts.turns_said,
        "section": _section(note, facts),
        "holds": [(kind, item) for kind, item, _ in holders],
    }


def _sources_named(maker: Maker, said: str) -> str:
    """The words with a source's title where they have its id in brackets."""
    sources = maker.records.sources
    return re.sub(r"(?<=\()[^()]+(?=\))", lambda m: sources[m[0]].title if m[0] in sources else m[0], said)


def _section(note: Fastener, facts: FastenerFacts) -> Markup | str:
    """The drawing of a screw on its flat, where the record has the measures."""
    if facts.thread is None or not (facts.shaft_mm and facts.flat_width_mm):
        return ""
    return Markup(flat_section.svg(facts.shaft_mm, facts.flat_width_mm, facts.thread, f"flat-{note.joint}"))


def _feel(maker: Maker, note: FeelNote) -> dict[str, str]:
    source = maker.records.sources.get(note.source)
    return {
        "title": note.title,
        "text": f"{note.how} Right: {note.right} Wrong: {note.wrong}",
        "source": source.title if source else words.spaced(note.source).capitalize(),
    }


def _oil(maker: Maker, view: FamilyView) -> PageText:
    points = [
        {
            "assembly": assembly,
            "point": point,
            "title": point.title or words.spaced(point.point).capitalize(),
            "reach": [p for p in point.reach if p in view.parts],
        }
        for assembly, point in view.oil()
    ]
    return maker.page(
        place("oil-chart", view.id),
        f"Oil chart: {view.name}",
        "oil-chart.html",
        of=view,
        about=mechanisms_of(view, view.home_of),
        search=texts("oil grease lubrication", view.name, [p["title"] for p in points]),
        family=view.family,
        points=points,
        table=table_address("oil", view.id),
    )


def _settings(maker: Maker, view: FamilyView, pictures: Pictures) -> PageText:
    address = place("settings-order", view.id)
    rows = [
        {"setting": view.settings[s], "range": range_words(view.settings[s].target), "home": view.home_of[s]}
        for s in _in_order(maker, view)
    ]
    return maker.page(
        address,
        f"Settings in order: {view.name}",
        "settings-order.html",
        of=view,
        about=mechanisms_of(view, view.home_of),
        wide=True,
        search=texts("settings order adjust", view.name, [s.title for s in view.settings.values()]),
        family=view.family,
        settings=rows,
        table=table_address("settings", view.id),
        svg=pictures.get((address, "settings"), ""),
    )


def _in_order(maker: Maker, view: FamilyView) -> list[str]:
    """Every setting after those that it follows or that disturb it."""
    before = earlier(maker.bench.machine(view), view.settings)
    order: list[str] = []
    left = list(view.settings)
    while left:
        ready = next(s for s in left if not (before.get(s, frozenset()) & set(left) - {s}))
        order.append(ready)
        left.remove(ready)
    return order
