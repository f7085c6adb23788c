"""The hubs that the side navigation holds, and the hub that each page belongs to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

NAVIGATION: dict[str, tuple[tuple[str, str], ...]] = {
    "": (("index.html", "Find"),),
    "At the bench": (
        ("symptoms.html", "Symptoms"),
        ("families.html", "Machines"),
        ("which-machine.html", "Which machine?"),
        ("not-listed.html", "Not listed"),
        ("job-list.html", "Job sheets"),
        ("planner.html", "Planner"),
        ("reckoners.html", "Reckoners"),
        ("fasteners.html", "Fasteners"),
        ("settings-order.html", "Settings"),
        ("timing.html", "Timing"),
        ("oil-chart.html", "Oil"),
    ),
    "Look up": (
        ("assemblies.html", "Mechanisms"),
        ("failure-modes.html", "Failure modes"),
        ("checks.html", "Checks"),
        ("techniques.html", "Ways of working"),
        ("cautions.html", "Cautions"),
        ("tools.html", "Tools"),
        ("glossary.html", "Glossary"),
    ),
    "Learn": (("guides.html", "Guides"), ("practice.html", "Practice bench")),
    "This book": (
        ("sources.html", "Sources"),
        ("coverage.html", "Coverage"),
        ("on-this-device.html", "On this device"),
        ("contribute.html", "Contribute"),
        ("open-data.html", "Open data"),
        ("this-copy.html", "This copy"),
    ),
}
"""Section -> pages in the side navigation: hubs alone, so that its size does not grow with the content.

The home page stands in no section: the theme knows it by that.
"""

_BELONGS = {"bench": "symptoms.html", "jobs": "job-list.html", "gauges": "timing.html"}
"Folder of pages -> their hub, where the hub has another name than the folder."
_TITLES = {address: title for hubs in NAVIGATION.values() for address, title in hubs}


def hub_of(address: str) -> str:
    """The hub that a page belongs to, which may be itself; empty where it belongs to none.

    >>> hub_of("bench/tessaly-40/no-feed.html"), hub_of("oil-chart/tessaly-40.html"), hub_of("404.html")
    ('symptoms.html', 'oil-chart.html', '')
    """
    folder, inside, _ = address.partition("/")
    hub = _BELONGS.get(folder, f"{folder}.html") if inside else address
    return hub if hub in _TITLES else ""


def folders_of_hubs() -> dict[str, str]:
    """Each folder of pages with their hub.

    >>> folders_of_hubs()["bench"], folders_of_hubs()["checks"]
    ('symptoms.html', 'checks.html')
    """
    return {hub.removesuffix(".html"): hub for hub in _TITLES} | _BELONGS


def hub_title(address: str) -> str:
    """What the hub of a page is called."""
    return _TITLES.get(hub_of(address), "")


@dataclass(frozen=True, slots=True)
class Hub:
    """A page that the side navigation names."""

    address: str
    title: str
    here: bool
    "Whether it is the page shown."
    holds: bool
    "Whether it leads to the page shown."


@dataclass(frozen=True, slots=True)
class Section:
    """Hubs under one heading."""

    title: str
    "Empty for hubs that stand alone."
    number: int
    "From 1, in order; the page's ids are made of it."
    hubs: tuple[Hub, ...]
    opened: bool
    "Whether the page shown is one of them: a phone begins with it."


def sections(address: str, titles: Mapping[str, str]) -> tuple[Section, ...]:
    """The side navigation of a page. `titles`: what hubs are called, address -> title, where that is not their name here.

    >>> [(hub.title, hub.here, hub.holds) for hub in sections("bench/tessaly-40/no-feed.html", {})[1].hubs][:2]
    [('Symptoms', False, True), ('Machines', False, False)]
    """
    found = hub_of(address)
    made = []
    for number, (title, hubs) in enumerate(NAVIGATION.items(), 1):
        shown = tuple(Hub(hub, titles.get(hub, name), hub == address, hub == found != address) for hub, name in hubs)
        made.append(Section(title, number, shown, any(hub.here for hub in shown)))
    return tuple(made)
