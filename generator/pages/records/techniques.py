"""Ways of working, each on a page of its own."""

from __future__ import annotations

from functools import partial

from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.pages.piece import Piece
from generator.wording.places import place


def piece(maker: Maker) -> Piece:
    """One page a technique."""
    return maker.each({place("technique", id): id for id in maker.records.techniques}, lambda _: partial(_technique, maker))


def _technique(maker: Maker, id: str) -> PageText:
    technique = maker.records.techniques[id]
    return maker.page(
        place("technique", id),
        technique.title,
        "technique.html",
        search=texts(technique.title, technique.use_when, [s.do for s in technique.steps]),
        technique=technique,
        users=maker.backlinks.users_of_technique.get(id, ()),
    )
