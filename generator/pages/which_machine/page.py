"""The key to the families: a nested list to read, and its data for one question at a time."""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.policy import CheckNode, Node, RemedyNode, to_json
from generator.bench.which_machine import NONE_OF_THESE, Key, key_to_families
from generator.library import Library
from generator.pages.data.script import FOLDER, script
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.wording import words

ADDRESS = "which-machine.html"
_DATA = f"{FOLDER}/which-machine.js"
_SCRIPTS = ("assets/handwheel/js/which_machine/key.js", "assets/handwheel/js/which_machine/ask.js", _DATA)


def pages(maker: Maker) -> Iterator[PageText]:
    """The page, if there is any family to find."""
    if not maker.library.views:
        return
    key = key_to_families(maker.library)
    yield maker.page(
        ADDRESS,
        "Which machine?",
        "which-machine.html",
        description="A few looks at a machine, and the family that it is of.",
        search="which machine is this identify family make model unknown",
        scripts=_SCRIPTS,
        top=_node(maker.library, key, key.solution.policy),
        looks=f"{key.looks:.1f}",
        exact=key.solution.exact,
        counted=key.counted,
        families=len(maker.library.views),
        none_of_these=NONE_OF_THESE,
    )


def _node(library: Library, key: Key, node: Node | None) -> dict[str, object]:
    """A question with what follows each answer, or the families that are left."""
    if isinstance(node, CheckNode):
        question = key.questions[node.check]
        branches = [{"says": b.says, "then": _node(library, key, b.then)} for b in node.branches]
        return {"ask": question.ask, "branches": branches}
    return {"families": [library.records.families[f] for f in _left(node)]}


def _left(node: Node | None) -> Iterator[str]:
    """Families that no question tells apart, likeliest first."""
    while isinstance(node, RemedyNode):
        yield node.remedy
        node = node.otherwise


def which_machine_files(library: Library) -> Iterator[tuple[str, str]]:
    """Address and content of the key's data."""
    if not library.views:
        return
    key = key_to_families(library)
    yield _DATA, script("which-machine", _data(library, key))


def _data(library: Library, key: Key) -> dict[str, object]:
    """Answers and families count from 0; a question gives for each family, in order, what it shows."""
    families = [v.id for v in library.views]
    return {
        "families": [
            {
                "id": v.id,
                "title": v.name,
                "recognise": words.plain(v.family.recognise or v.family.summary),
                "models": list(v.family.models),
            }
            for v in library.views
        ],
        "questions": [
            {
                "id": q.id,
                "ask": words.plain(q.ask),
                "answers": [words.plain(a) for a in q.answers],
                "shows": [q.shows[f] for f in families],
                "looks": q.looks,
            }
            for q in key.questions.values()
        ],
        "policy": to_json(key.solution.policy),
    }
