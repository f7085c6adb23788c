"""The practice bench: hidden faults to find, short cards, and the data of both."""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.tree import Event, Node
from generator.bench import Bench, Complaint
from generator.family_view import FamilyView
from generator.pages.data.script import FOLDER, script
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.wording import words

ADDRESS = "practice.html"
CARDS = f"{FOLDER}/cards.js"
_WALK = ("graph", "machine", "minutes", "case", "doubt", "diagnosis", "next-step", "journey", "words")
_NAMES = ("chance", "machine-in", "case-view", "result-view", "scores", "cards", "page")
_SCRIPTS = (
    *(f"assets/handwheel/js/bench/{name}.js" for name in _WALK),
    CARDS,
    *(f"assets/handwheel/js/learn/{name}.js" for name in _NAMES),
)


def pages(maker: Maker) -> Iterator[PageText]:
    """One page, if there is any family with a complaint to practise on."""
    families = sorted((v.family for v in maker.library.views if v.symptoms), key=lambda f: (f.title, f.id))
    if not families:
        return
    yield maker.page(
        ADDRESS,
        "Practice bench",
        "practice.html",
        description="Find a hidden fault with the fewest minutes, and learn parts, signs and settings from short cards.",
        search="practice apprentice learn train hidden fault cards quiz parts signs settings",
        wide=True,
        scripts=_SCRIPTS,
        families=families,
    )


def cards_files(bench: Bench) -> Iterator[tuple[str, str]]:
    """Address and content of the cards' data, and of each family's ways through its fault trees."""
    yield from card_files(bench)
    for view in bench.library.views:
        yield from ways_files(bench, view)


def ways_address(family: str) -> str:
    """Where a family's ways stand, from the site's root."""
    return f"{FOLDER}/practice-{family}.js"


def ways_files(bench: Bench, view: FamilyView) -> Iterator[tuple[str, str]]:
    """Address and content of a family's ways through its fault trees."""
    symptoms = {s: _ways(bench.complaint(view, s)) for s in sorted(view.symptoms)}
    yield ways_address(view.id), script("practice", {"id": view.id, "symptoms": symptoms})


def card_files(bench: Bench) -> Iterator[tuple[str, str]]:
    """Address and content of the cards' data."""
    yield CARDS, script("cards", _cards(bench))


def _cards(bench: Bench) -> dict[str, object]:
    records = bench.library.records
    modes = sorted(records.failure_modes.values(), key=lambda m: m.id)
    return {
        "parts": list(_parts(bench)),
        "signs": [(words.plain(sign), mode.id) for mode in modes for sign in mode.signs],
        "modes": {mode.id: mode.title for mode in modes},
        "settings": list(_settings(bench)),
    }


def _parts(bench: Bench) -> Iterator[tuple[str, str, str]]:
    """Title, what it is, mechanism."""
    for home in sorted(bench.library.records.assemblies.values(), key=lambda a: a.id):
        for part in home.parts.values():
            if part.what:
                yield part.title, words.plain(part.what), home.title


def _settings(bench: Bench) -> Iterator[tuple[str, str, str]]:
    """The setting made first, the one made after it, and the mechanism that has both."""
    for home in sorted(bench.library.records.assemblies.values(), key=lambda a: a.id):
        for setting in home.settings.values():
            for first in setting.after:
                if first in home.settings:
                    yield home.settings[first].title, setting.title, home.title


def _ways(complaint: Complaint) -> dict[str, object]:
    """Hypothesis id -> its way through the tree, [title, branches] from the top down."""
    return {h.id: _lit(complaint.tree, frozenset(h.causes)) for h in complaint.case.hypotheses}


def _lit(node: Node, causes: frozenset[str]) -> list[object] | None:
    """What the causes make true of a node and below, no more than it takes; None if it stays false."""
    if isinstance(node, Event):
        return [node.title, []] if node.id in causes else None
    needed = {"any": 1, "all": len(node.inputs), "at_least": node.k}[node.kind]
    true = [lit for below in node.inputs if (lit := _lit(below, causes))][:needed]
    return [node.title, true] if len(true) == needed else None
