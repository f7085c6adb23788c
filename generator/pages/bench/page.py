"""The bench page: one symptom on one family, everything that the bench needs of it."""

from __future__ import annotations

from collections.abc import Callable, Collection
from functools import partial

from generator.bench import Complaint
from generator.diagrams import draw
from generator.family_view import FamilyView
from generator.pages.bench.causes import causes, importance_rows, top_said, unlisted
from generator.pages.bench.steps import (
    first_words,
    head_cautions,
    lead,
    spare_checks,
    steps,
)
from generator.pages.bench.sums import exactness, price_of_caution, sums, sums_said
from generator.pages.bench.walk_scripts import WALK
from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.pages.pictures import Pictures, of_complaints
from generator.pages.piece import Piece
from generator.wording.links import Links
from generator.wording.places import place

SHOWN_CAUSES = 10
"Causes listed in the open; the rest fold."

READABLE = 0.65
"A picture that paper shrinks further has type under 6.5 pt; a tree is printed as a list, a flow as its cards alone."


def piece(maker: Maker, view: FamilyView) -> Piece:
    """A family with every symptom that it can have."""
    symptoms = {place("bench", symptom, view.id): symptom for symptom in sorted(view.symptoms)}
    return maker.each(symptoms, partial(_prepared, maker, view), view)


def _prepared(maker: Maker, view: FamilyView, symptoms: Collection[str]) -> Callable[[str], PageText]:
    return partial(_page, maker, view, of_complaints(maker.bench, view, symptoms))


def _page(maker: Maker, view: FamilyView, pictures: Pictures, id: str) -> PageText:
    bench, complaint = maker.bench, maker.bench.complaint(view, id)
    symptom = complaint.symptom
    address = place("bench", symptom.id, view.id)
    link = Links(maker.library, address, view)
    ranked = causes(bench, complaint, link)
    totals = sums(bench.diagnosed(complaint))
    named, in_full = head_cautions(bench, complaint)
    trials, checks = lead(bench, complaint, link), steps(bench, complaint, in_full, link)
    return maker.page(
        address,
        f"{symptom.title}: {view.name}",
        "bench.html",
        search=texts(symptom.title, view.name, [m.title for c in ranked for m in c.modes]),
        description=f"{symptom.title} on {view.name}: causes, checks in order, minutes.",
        wide=True,
        of=view,
        about=[*(("failure-mode", mode) for mode in complaint.rates), *(("check", check.id) for check in complaint.case.checks)],
        scripts=(f"assets/handwheel/data/{view.id}.js", WALK, "assets/handwheel/js/bench/bench.js"),
        family=view.family,
        symptom=symptom,
        named_cautions=named,
        danger=any(maker.records.cautions[c].level == "danger" for c in named if c in maker.records.cautions),
        caution_ids=in_full,
        sums=totals,
        sums_said=sums_said(totals),
        exactness=exactness(bench.diagnosed(complaint).order),
        caution=price_of_caution(bench.diagnosed(complaint), maker.records.shop),
        ruled_out=_ruled_out(complaint),
        ruled_out_count=len(complaint.folded.left_out),
        lead=trials,
        steps=checks,
        start=first_words(trials, checks),
        by_hand=view.by_hand,
        spare=spare_checks(bench, complaint),
        causes=ranked[:SHOWN_CAUSES],
        more_causes=ranked[SHOWN_CAUSES:],
        unlisted=unlisted(complaint),
        importance=importance_rows(complaint),
        top_said=top_said(complaint),
        tree_svg=pictures[address, "tree"],
        tree_as_list_on_paper=draw.scale_on_paper(pictures[address, "tree"]) < READABLE,
        tree_list=pictures[address, "tree-list"],
        flow_as_cards_on_paper=draw.scale_on_paper(pictures[address, "flow"]) < READABLE,
        flow_svg=pictures[address, "flow"],
        flow_list=pictures[address, "flow-list"],
        near=_near(complaint, link),
    )


def _ruled_out(complaint: Complaint) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Reason -> failure modes that this machine cannot have."""
    reasons: dict[str, list[str]] = {}
    for left_out in complaint.folded.left_out:
        reasons.setdefault(left_out.reason, []).append(left_out.id)
    return tuple((reason, tuple(modes)) for reason, modes in reasons.items())


def _near(complaint: Complaint, link: Links) -> tuple[dict[str, str], ...]:
    """The family's other symptoms that share the most causes with this one."""
    symptoms = complaint.view.symptoms
    others = [id for id in symptoms if id != complaint.symptom_id]
    near = link.library.nearest(complaint.rates.keys(), others, 4)
    return tuple({"href": link("bench", id, complaint.view.id), "title": complaint.view.title("symptom", id)} for id in near)
