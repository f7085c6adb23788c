"""A symptom on all machines."""

from __future__ import annotations

from collections.abc import Callable, Collection
from functools import partial

from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.pages.pictures import Pictures, of_symptoms
from generator.pages.piece import Piece
from generator.records.model import Symptom
from generator.wording import words
from generator.wording.places import place


def piece(maker: Maker) -> Piece:
    """One page a symptom."""
    return maker.each({place("symptom", id): id for id in maker.records.symptoms}, partial(_prepared, maker))


def _prepared(maker: Maker, symptoms: Collection[str]) -> Callable[[str], PageText]:
    return partial(_page, maker, of_symptoms(maker.bench, symptoms))


def _page(maker: Maker, pictures: Pictures, id: str) -> PageText:
    symptom, address = maker.records.symptoms[id], place("symptom", id)
    return maker.page(
        address,
        symptom.title,
        "symptom.html",
        search=texts(symptom.title, symptom.said_as, symptom.summary),
        symptom=symptom,
        benches=_benches(maker, symptom),
        near=_near(maker, symptom.id),
        tree_svg=pictures[address, "tree"],
        tree_list=pictures[address, "tree-list"],
    )


def _benches(maker: Maker, symptom: Symptom) -> list[dict[str, object]]:
    """The families that can have it, with how many causes and minutes."""
    rows = []
    for family in maker.backlinks.families_of_symptom.get(symptom.id, ()):
        complaint = maker.bench.complaint(maker.library.for_family(family), symptom.id)
        likeliest = min(complaint.case.hypotheses, key=lambda h: (-h.share, h.id))
        names = [complaint.view.title("failure-mode", c) for c in likeliest.causes]
        rows.append(
            {
                "family": family,
                "title": complaint.view.name,
                "causes": len(complaint.case.hypotheses),
                "minutes": maker.bench.diagnosed(complaint).order.expected_minutes,
                "first": words.listed(names).lower(),
            }
        )
    return rows


def _near(maker: Maker, id: str) -> list[str]:
    """Symptoms that share the most causes."""
    others = [other for other in maker.records.symptoms if other != id]
    return maker.library.nearest(maker.library.causes[id], others, 5)
