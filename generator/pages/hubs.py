"""The hubs that the side navigation holds, and the hub that each page belongs to."""

from __future__ import annotations

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


def hub_title(address: str) -> str:
    """What the hub of a page is called."""
    return _TITLES.get(hub_of(address), "")
