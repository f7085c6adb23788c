"""A family: what can be wrong with it, its charts, its facts."""

from __future__ import annotations

from functools import partial

from generator.family_view import FamilyView
from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.pages.piece import Piece
from generator.pages.shops_own import mechanisms_of
from generator.records.model import AssemblyUse, Part, Setting, Tally
from generator.wording import words
from generator.wording.grouping import grouped
from generator.wording.places import place


def piece(maker: Maker) -> Piece:
    """One page a family."""
    return maker.each({place("family", view.id): view.id for view in maker.library.views}, lambda _: partial(_family, maker))


def _family(maker: Maker, id: str) -> PageText:
    view = maker.library.for_family(id)
    family = view.family
    return maker.page(
        place("family", family.id),
        family.title,
        "family.html",
        of=view,
        about=mechanisms_of(view, view.home_of),
        search=texts(family.title, family.summary, family.models, family.recognise),
        family=family,
        groups=_groups(maker, view),
        figures=_figures(maker, view),
        features=_features(maker, view),
        assemblies=[_assembly(maker, view, use) for use in family.assemblies],
        tallies=[_tally(t) for t in view.tallies],
    )


def _groups(maker: Maker, view: FamilyView) -> list[dict[str, object]]:
    return [
        {"title": g.title, "symptoms": [_symptom(maker, view, s.id, s.title) for s in g.symptoms]}
        for g in grouped(view.symptoms.values())
    ]


def _symptom(maker: Maker, view: FamilyView, symptom_id: str, title: str) -> dict[str, object]:
    complaint = maker.bench.complaint(view, symptom_id)
    return {
        "id": symptom_id,
        "title": title,
        "causes": len(complaint.case.hypotheses),
        "minutes": maker.bench.diagnosed(complaint).order.expected_minutes,
    }


def _figures(maker: Maker, view: FamilyView) -> list[dict[str, object]]:
    kinds = maker.records.figures
    titles = {name: kinds[name].title if name in kinds else words.spaced(name).capitalize() for name in view.family.figures}
    return [
        {"name": titles[name], "value": f.value, "note": f.note, "source": f.source}
        for name, f in view.family.figures.items()
    ]


def _features(maker: Maker, view: FamilyView) -> list[str]:
    """What it has and has not, in the words of the features list."""
    said = []
    for feature, present in sorted(view.family.features.items()):
        record = maker.records.features.get(feature)
        name = feature.replace("_", " ")
        has = record.present if record and record.present else f"has {name}"
        lacks = record.absent if record else f"has no {name}"
        said.append(f"It {has if present else lacks}.")
    return said


def _assembly(maker: Maker, view: FamilyView, use: AssemblyUse) -> dict[str, str]:
    """An assembly and what differs in it here."""
    assembly = maker.records.assemblies[use.use]
    items: dict[str, Part | Setting] = {**assembly.parts, **assembly.settings, **view.parts, **view.settings}
    without = [items[i].title.lower() for i in use.without]
    changed = [items[i].title.lower() for i in (*use.parts, *use.settings)]
    notes = []
    if without:
        notes.append(f"Without {words.listed(without)}")
    if changed:
        notes.append(f"Differs here: {words.listed(changed)}")
    if use.title:
        notes.append(f"Described as: {assembly.title}")
    return {"id": assembly.id, "title": use.title or assembly.title, "differs": ". ".join(notes)}


def _tally(tally: Tally) -> dict[str, object]:
    found = sorted(tally.found, key=lambda f: (-f.count, f.mode, f.symptom or ""))
    return {"shop": tally.shop, "period": tally.period, "machines": tally.machines, "note": tally.note, "found": found}
