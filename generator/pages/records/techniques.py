"""Ways of working, each on a page of its own."""

from __future__ import annotations

from collections.abc import Iterator

from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.wording.places import place


def pages(maker: Maker) -> Iterator[PageText]:
    """One page a technique."""
    for technique in maker.records.techniques.values():
        yield maker.page(
            place("technique", technique.id),
            technique.title,
            "technique.html",
            search=texts(technique.title, technique.use_when, [s.do for s in technique.steps]),
            technique=technique,
            users=maker.backlinks.users_of_technique.get(technique.id, ()),
        )
