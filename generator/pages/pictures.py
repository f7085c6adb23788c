"""The pictures of the site, each with the list that says the same; those of one kind of page are laid out together."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial

from markupsafe import Markup

from generator.analysis.machine import MachinePart
from generator.analysis.policy import to_json
from generator.bench import Bench, Complaint
from generator.bench.trees import full_tree
from generator.diagrams import (
    fault_tree_svg,
    flow_list,
    flow_svg,
    parts_graph_svg,
    settings_svg,
    tree_list,
)
from generator.diagrams.layout import Drawing, render_all
from generator.diagrams.outline import as_html
from generator.family_view import FamilyView
from generator.records.model import Assembly, Setting
from generator.wording import words
from generator.wording.links import Links
from generator.wording.places import place
from generator.wording.remedies import in_one_line, remedy_words

Key = tuple[str, str]
"Page address, name of the picture."
Pictures = Mapping[Key, Markup]
Named = tuple[str, Drawing | str]
"Name of a picture, and what is to be laid out or the list that says the same."


def of_symptoms(bench: Bench, symptoms: Iterable[str]) -> Pictures:
    """The fault trees of symptoms."""
    return _drawn(bench, {place("symptom", s): partial(_symptom_tree, bench, s) for s in symptoms})


def of_complaints(bench: Bench, view: FamilyView, symptoms: Iterable[str]) -> Pictures:
    """The fault trees and the check flows of symptoms of a family."""
    return _drawn(bench, {place("bench", s, view.id): partial(_complaint, bench, view, s) for s in symptoms})


def of_assemblies(bench: Bench, assemblies: Iterable[str]) -> Pictures:
    """What is behind what, for assemblies where something is."""
    return _drawn(bench, {place("assembly", a): partial(_assembly, bench, a) for a in assemblies})


def of_settings(bench: Bench, families: Iterable[str]) -> Pictures:
    """The order of the settings of families."""
    return _drawn(bench, {place("settings-order", f): partial(_settings, bench, f) for f in families})


def _drawn(bench: Bench, pages: Mapping[str, Callable[[], Iterable[Named]]]) -> Pictures:
    """Pictures and lists by their key, from those of each page. One run of Graphviz lays the pictures out."""
    drawings: dict[Key, Drawing] = {}
    lists: dict[Key, Markup] = {}
    for address, prepare in pages.items():
        with bench.library.watch.reading(address):
            for name, made in prepare():
                if isinstance(made, Drawing):
                    drawings[address, name] = made
                else:
                    lists[address, name] = Markup(made)
    svgs = render_all(list(drawings.values()))
    return lists | {key: Markup(svg) for key, svg in zip(drawings, svgs, strict=True)}


def _symptom_tree(bench: Bench, id: str) -> Iterator[Named]:
    symptom = bench.library.records.symptoms[id]
    tree, href = full_tree(bench.library, symptom), _tree_href(bench, place("symptom", symptom.id))
    yield "tree", fault_tree_svg.prepare(tree, prefix="t", href=href)
    yield "tree-list", as_html(tree_list.outline(tree, href=href))


def _tree_href(bench: Bench, address: str) -> Callable[[str], str]:
    """Where a node leads: a failure mode's page, or the symptom that a shared subtree stands under."""
    link = Links(bench.library, address)

    def href(node: str) -> str:
        if "/" in node:
            return link("symptom", node.partition("/")[0])
        return link("failure-mode", node)

    return href


def _complaint(bench: Bench, view: FamilyView, symptom: str) -> Iterator[Named]:
    complaint = bench.complaint(view, symptom)
    yield from _family_tree(bench, complaint)
    yield from _flow(bench, complaint)


def _family_tree(bench: Bench, complaint: Complaint) -> Iterator[Named]:
    href = _tree_href(bench, _address(complaint))
    shares = {h.id: words.percent(complaint.share(h)) for h in complaint.case.hypotheses if len(h.causes) == 1}
    yield "tree", fault_tree_svg.prepare(complaint.tree, prefix="t", href=href, shares=shares)
    yield "tree-list", as_html(tree_list.outline(complaint.tree, href=href, shares=shares))


def _address(complaint: Complaint) -> str:
    return place("bench", complaint.symptom_id, complaint.view.id)


def _flow(bench: Bench, complaint: Complaint) -> Iterator[Named]:
    link = Links(bench.library, _address(complaint), complaint.view)
    policy = to_json(bench.diagnosed(complaint).order.policy)
    assert policy is not None
    remedies = _remedy_titles(bench, complaint, link)
    cards = {item.check: item.number for item in reversed(bench.worklist(complaint).items)}

    def name(kind: str, step: str) -> str:
        return complaint.view.title("check", step) if kind == "check" else remedies[step]

    def href(kind: str, step: str) -> str | None:
        if kind == "check":
            return f"#step-{cards[step]}" if step in cards else link("check", step)
        sheet = bench.sheet_of(complaint.view, step)
        return link("jobs", sheet, complaint.view.id) if sheet else None

    title = f"{complaint.title}, {complaint.view.name}"
    yield "flow", flow_svg.prepare(policy, prefix="f", title=title, name=name, href=href, more="#flow-list")
    yield "flow-list", as_html(flow_list.outline(policy, name=name, href=href))


def _remedy_titles(bench: Bench, complaint: Complaint, link: Links) -> dict[str, str]:
    """Remedy id -> what is done, in words."""
    titles: dict[str, str] = {}
    for cause in complaint.case.hypotheses:
        said = remedy_words(bench, complaint.view, cause.remedy, cause.causes, link)
        titles.setdefault(cause.remedy.id, in_one_line(said))
    return titles


def _assembly(bench: Bench, id: str) -> Iterator[Named]:
    assembly = bench.library.records.assemblies[id]
    if any(p.behind for p in assembly.parts.values()):
        yield "parts", _parts_drawing(bench, assembly, Links(bench.library, place("assembly", assembly.id)))


def _parts_drawing(bench: Bench, assembly: Assembly, link: Links) -> Drawing:
    parts = [MachinePart(p.id, _known(bench, p.behind), p.off.minutes) for p in assembly.parts.values()]
    return parts_graph_svg.prepare(
        parts,
        prefix="p",
        title=assembly.title,
        name=lambda part: link.title("part", part),
        href=lambda part: f"#{part}" if part in assembly.parts else link("part", part),
        notes={p.id: words.minutes(p.off.minutes) for p in assembly.parts.values() if p.off.minutes},
    )


def _known(bench: Bench, parts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(p for p in parts if p in bench.library.homes)


def _title_of(settings: Mapping[str, Setting], setting: str) -> str:
    return settings[setting].title


def _settings(bench: Bench, family: str) -> Iterator[Named]:
    view = bench.library.for_family(family)
    if view.settings:
        yield "settings", settings_svg.prepare(
            bench.machine(view).settings.values(),
            prefix="s",
            title=view.name,
            name=partial(_title_of, view.settings),
            href=lambda setting: f"#{setting}",
            notes={s.id: words.minutes(s.minutes) for s in view.settings.values()},
        )
