"""Hubs and lists: the pages that lead to all others."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Protocol, TypeVar

from generator.family_view import FamilyView, sits_on
from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.pages.photos import credit, shown
from generator.pages.records.shipped import SHIPPED
from generator.records.model import Assembly, Check, FailureMode, Source
from generator.wording import words
from generator.wording.grouping import Group, grouped
from generator.wording.links import Links

_STATUS = {
    "read": "Read in the source or in a public reprint",
    "worked": "Worked out from what was read",
    "practice": "Common practice, no source",
    "memory": "From memory",
    "invented": "Invented for the demonstration",
}
_QUICKEST = ((1, "A minute or less"), (3, "Up to three minutes"), (8, "Up to eight minutes"))


class _Named(Protocol):
    @property
    def id(self) -> str: ...
    @property
    def title(self) -> str: ...


_Record = TypeVar("_Record", bound=_Named)


def pages(maker: Maker) -> Iterator[PageText]:
    """Home, the hubs, and the lists of small things."""
    records = maker.records
    families = [v.family for v in maker.library.views]
    groups = grouped(records.symptoms.values())
    said = [_with_words(g) for g in groups]
    yield maker.page(
        "index.html",
        "Find",
        "home.html",
        wide=True,
        groups=said,
        families=families,
        description="Find the cause by what the customer says.",
    )
    yield maker.page("symptoms.html", "Symptoms", "symptoms.html", groups=said, families=families)
    yield maker.page("families.html", "Machines", "families.html", families=families)
    yield maker.page("assemblies.html", "Mechanisms", "assemblies.html", roles=_by_role(maker))
    yield maker.page("failure-modes.html", "Failure modes", "failure-modes.html", groups=_modes_by_home(maker))
    yield maker.page("checks.html", "Checks", "checks.html", groups=_by_minutes(maker))
    yield maker.page("techniques.html", "Ways of working", "techniques.html", techniques=_titled(records.techniques))
    yield maker.page(
        "glossary.html",
        "Glossary",
        "glossary.html",
        terms=_titled(records.glossary),
        search=texts([t.title for t in records.glossary.values()]),
    )
    yield maker.page(
        "cautions.html",
        "Cautions",
        "cautions.html",
        cautions=_titled(records.cautions),
        search=texts([[c.title, c.text] for c in records.cautions.values()]),
    )
    yield maker.page(
        "tools.html",
        "Tools",
        "tools.html",
        tools=_titled(records.tools),
        search=texts([t.title for t in records.tools.values()]),
    )
    yield maker.page(
        "sources.html",
        "Sources",
        "sources.html",
        groups=_by_status(maker),
        shipped=SHIPPED,
        pictures=[{"alt": picture.alt, "credit": credit(picture)} for picture in shown(maker.library)],
        search=texts([s.title for s in records.sources.values()]),
    )
    yield from _chart_hubs(maker)


def _with_words(group: Group) -> dict[str, object]:
    """A group whose symptoms carry the customers' first words."""
    rows = [
        {"id": s.id, "title": s.title, "stop": s.stop, "said": words.listed([f"“{w}”" for w in s.said_as[:3]], "or")}
        for s in group.symptoms
    ]
    return {"id": group.id, "title": group.title, "symptoms": rows}


def _titled(records: Mapping[str, _Record]) -> list[_Record]:
    return sorted(records.values(), key=lambda r: (r.title.lower(), r.id))


def _by_role(maker: Maker) -> list[tuple[str, list[Assembly]]]:
    roles: dict[str, list[Assembly]] = {}
    for assembly in _titled(maker.records.assemblies):
        roles.setdefault(assembly.role or "other", []).append(assembly)
    return sorted(roles.items())


def _modes_by_home(maker: Maker) -> list[dict[str, object]]:
    """Failure modes under the first assembly that has their part or setting."""
    homes: dict[str, list[FailureMode]] = {}
    for mode in _titled(maker.records.failure_modes):
        home = maker.library.homes[sits_on(mode)][0]
        homes.setdefault(home, []).append(mode)
    assemblies = [a for a in _titled(maker.records.assemblies) if a.id in homes]
    return [{"id": a.id, "title": a.title, "modes": homes[a.id]} for a in assemblies]


def _by_minutes(maker: Maker) -> list[tuple[str, list[Check]]]:
    left = sorted(maker.records.checks.values(), key=lambda c: (c.minutes, c.title.lower(), c.id))
    groups: list[tuple[str, list[Check]]] = []
    for most, title in _QUICKEST:
        groups.append((title, [c for c in left if c.minutes <= most]))
        left = [c for c in left if c.minutes > most]
    return [(title, group) for title, group in (*groups, ("Longer", left)) if group]


def _by_status(maker: Maker) -> list[tuple[str, str, list[Source]]]:
    sources = _titled(maker.records.sources)
    groups = ((status, title, [s for s in sources if s.status == status]) for status, title in _STATUS.items())
    return [group for group in groups if group[2]]


def _chart_hubs(maker: Maker) -> Iterator[PageText]:
    """One hub for each kind of chart that every family has."""
    charts: tuple[tuple[str, str, str, str, Callable[[FamilyView], str]], ...] = (
        (
            "fasteners.html",
            "Fastener charts",
            "fasteners",
            "Keys, threads, seats and turns, joint by joint.",
            lambda v: f"{len(v.fasteners)} joints",
        ),
        (
            "oil-chart.html",
            "Oil charts",
            "oil-chart",
            "Where the oil goes, how much and how often.",
            lambda v: f"{sum(1 for _ in v.oil())} points",
        ),
        (
            "settings-order.html",
            "Settings in order",
            "settings-order",
            "What is set after what, and what it upsets.",
            lambda v: f"{len(v.settings)} settings",
        ),
        (
            "job-list.html",
            "Job sheets",
            "job-list",
            "The way in, the work, the way out, and what must be set again: a sheet to print for each remedy.",
            lambda v: f"{len(set(maker.bench.remedies(v).values()))} remedies",
        ),
    )
    for address, title, kind, intro, note in charts:
        link = Links(maker.library, address)
        entries = [_entry(v, link(kind, v.id), note(v)) for v in maker.library.views]
        yield maker.page(address, title, "chart-list.html", intro=intro, entries=entries)


def _entry(view: FamilyView, href: str, note: str) -> dict[str, str]:
    return {"href": href, "title": view.family.title, "note": note}
