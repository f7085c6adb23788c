"""An assembly: its parts, what is behind what, its settings and oil points."""

from __future__ import annotations

from collections.abc import Callable, Collection
from functools import partial

from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.pages.pictures import Pictures, of_assemblies
from generator.pages.piece import Piece
from generator.records.model import Assembly, Part, Setting
from generator.wording import words
from generator.wording.places import place
from generator.wording.ranges import price_words, range_words


def piece(maker: Maker) -> Piece:
    """One page an assembly."""
    return maker.each({place("assembly", id): id for id in maker.records.assemblies}, partial(_prepared, maker))


def _prepared(maker: Maker, assemblies: Collection[str]) -> Callable[[str], PageText]:
    return partial(_page, maker, of_assemblies(maker.bench, assemblies))


def _page(maker: Maker, pictures: Pictures, id: str) -> PageText:
    assembly, address, shop = maker.records.assemblies[id], place("assembly", id), maker.records.shop
    titles = [i.title for i in assembly.parts.values()] + [i.title for i in assembly.settings.values()]
    return maker.page(
        address,
        assembly.title,
        "assembly.html",
        homes=next(iter(maker.backlinks.views_with(assembly.id)), None),
        search=texts(assembly.title, assembly.summary, titles),
        assembly=assembly,
        families=maker.backlinks.families_of_assembly.get(assembly.id, ()),
        parts_svg=pictures.get((address, "parts"), ""),
        settings_svg="",
        parts=[_part(maker, assembly, p) for p in assembly.parts.values()],
        settings=[_setting(maker, assembly, s) for s in assembly.settings.values()],
        price_said="Invented price." if shop.invented else f"In {shop.currency}, the shop's own figure.",
    )


def _part(maker: Maker, assembly: Assembly, part: Part) -> dict[str, object]:
    back = maker.backlinks
    price = maker.records.shop.prices.get(part.id, part.price)
    moves = [(label, move) for label, move in (("Off", part.off), ("On", part.on)) if move.how or move.minutes]
    return {
        "part": part,
        "moves": moves,
        "in_front_of": back.in_front_of[assembly.id].get(part.id, ()),
        "joints": [_joint(maker, assembly, j) for j in part.joints],
        "loose": [words.spaced(piece) for piece in part.loose],
        "price": price_words(price, maker.records.shop.currency) if price else "",
        "modes": back.modes_in(assembly.id, part.id),
    }


def _joint(maker: Maker, assembly: Assembly, joint: str) -> dict[str, object]:
    """A joint and the families whose chart has a note on it."""
    families = [
        f
        for f in maker.backlinks.families_of_assembly.get(assembly.id, ())
        if joint in maker.library.for_family(f).fasteners
    ]
    titles = [maker.library.for_family(f).fasteners[joint].title for f in families]
    return {"id": joint, "title": next(filter(None, titles), words.spaced(joint)), "families": families}


def _setting(maker: Maker, assembly: Assembly, setting: Setting) -> dict[str, object]:
    return {
        "setting": setting,
        "range": range_words(setting.target),
        "modes": maker.backlinks.modes_in(assembly.id, setting.id),
    }
