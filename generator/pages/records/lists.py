"""Hubs and lists: the pages that lead to all others."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Protocol, TypeVar

from generator.family_view import FamilyView, sits_on
from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.pages.photos import credit, shown
from generator.pages.piece import Piece
from generator.pages.records.shipped import SHIPPED
from generator.records.model import Assembly, Check, FailureMode, Family, Source
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


def piece(maker: Maker) -> Piece:
    """Home, the hubs, and the lists of small things."""
    made: dict[str, Callable[[Maker, str], PageText]] = {
        "index.html": _home,
        "symptoms.html": _symptoms,
        "families.html": lambda m, at: m.page(at, "Machines", "families.html", families=_families(m)),
        "assemblies.html": lambda m, at: m.page(at, "Mechanisms", "assemblies.html", roles=_by_role(m)),
        "failure-modes.html": lambda m, at: m.page(at, "Failure modes", "failure-modes.html", groups=_modes_by_home(m)),
        "checks.html": lambda m, at: m.page(at, "Checks", "checks.html", groups=_by_minutes(m)),
        "techniques.html": lambda m, at: m.page(at, "Ways of working", "techniques.html", techniques=_titled(m.records.techniques)),
        "glossary.html": _glossary,
        "cautions.html": _cautions,
        "tools.html": _tools,
        "sources.html": _sources,
        **{f"{chart.kind}.html": partial(_chart_hub, chart=chart) for chart in _CHARTS},
    }
    return maker.each({address: address for address in made}, lambda _: lambda address: made[address](maker, address))


def _families(maker: Maker) -> list[Family]:
    return [view.family for view in maker.library.views]


def _home(maker: Maker, address: str) -> PageText:
    return maker.page(
        address,
        "Find",
        "home.html",
        wide=True,
        groups=_said(maker),
        families=_families(maker),
        description="Find the cause by what the customer says.",
    )


def _symptoms(maker: Maker, address: str) -> PageText:
    return maker.page(address, "Symptoms", "symptoms.html", groups=_said(maker), families=_families(maker))


def _said(maker: Maker) -> list[dict[str, object]]:
    return [_with_words(group) for group in grouped(maker.records.symptoms.values())]


def _glossary(maker: Maker, address: str) -> PageText:
    terms = _titled(maker.records.glossary)
    return maker.page(address, "Glossary", "glossary.html", terms=terms, search=_words(maker.records.glossary))


def _cautions(maker: Maker, address: str) -> PageText:
    cautions = maker.records.cautions
    said = texts([[c.title, c.text] for c in cautions.values()])
    return maker.page(address, "Cautions", "cautions.html", cautions=_titled(cautions), search=said)


def _tools(maker: Maker, address: str) -> PageText:
    return maker.page(address, "Tools", "tools.html", tools=_titled(maker.records.tools), search=_words(maker.records.tools))


def _sources(maker: Maker, address: str) -> PageText:
    return maker.page(
        address,
        "Sources",
        "sources.html",
        groups=_by_status(maker),
        shipped=SHIPPED,
        pictures=[{"alt": picture.alt, "credit": credit(picture)} for picture in shown(maker.library)],
        search=_words(maker.records.sources),
    )


def _words(records: Mapping[str, _Record]) -> str:
    """Titles, for the search."""
    return texts([record.title for record in records.values()])


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


@dataclass(frozen=True)
class _Chart:
    """A kind of chart that every family has."""

    kind: str
    title: str
    intro: str
    note: Callable[[Maker, FamilyView], str]
    "How much one family's holds."


_CHARTS = (
    _Chart(
        "fasteners",
        "Fastener charts",
        "Keys, threads, seats and turns, joint by joint.",
        lambda _, view: f"{len(view.fasteners)} joints",
    ),
    _Chart(
        "oil-chart",
        "Oil charts",
        "Where the oil goes, how much and how often.",
        lambda _, view: f"{sum(1 for _ in view.oil())} points",
    ),
    _Chart(
        "settings-order",
        "Settings in order",
        "What is set after what, and what it upsets.",
        lambda _, view: f"{len(view.settings)} settings",
    ),
    _Chart(
        "job-list",
        "Job sheets",
        "The way in, the work, the way out, and what must be set again: a sheet to print for each remedy.",
        lambda maker, view: f"{len(set(maker.bench.remedies(view).values()))} remedies",
    ),
)


def _chart_hub(maker: Maker, address: str, chart: _Chart) -> PageText:
    link = Links(maker.library, address)
    entries = [_entry(v, link(chart.kind, v.id), chart.note(maker, v)) for v in maker.library.views]
    return maker.page(address, chart.title, "chart-list.html", intro=chart.intro, entries=entries)


def _entry(view: FamilyView, href: str, note: str) -> dict[str, str]:
    return {"href": href, "title": view.name, "note": note}
