"""What a change does, worked out of the parts of a book that it touches, against the same worked out of the whole book."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace
from random import Random
from typing import Any

import pytest

from generator.bench import Bench, changes
from generator.bench.cache import DiagnosisCache
from generator.bench.changes import complaints
from generator.bench.complaint import Complaint
from generator.commands.compare_words import as_json
from generator.library import Library
from generator.records.kinds import KINDS
from generator.records.load import load
from generator.records.model import Records
from tests.benchmarks.made_library import write
from tests.edits.by_chance import edited

EDITS = 12
"By chance, on each book, beside those that are chosen."
SOME = ("corvane-2", "larkrise-h", "tessaly-40")
"Families of the real content that share some mechanisms and not others."


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Records:
    """Three styles of families: most records are none of most families' business."""
    folder = tmp_path_factory.mktemp("made") / "content"
    write(folder, 21)
    return load([folder], rules=())[0]


@pytest.fixture(scope="module", params=["real", "made"])
def book(request: pytest.FixtureRequest, published: Bench, made: Records) -> Bench:
    """All records of the real content, but of its families some; and a made library."""
    records = published.library.records
    if request.param == "made":
        return Bench(Library(made))
    some = {name: {id: r for id, r in getattr(records, name).items() if id in SOME} for name in ("families", "fasteners")}
    tallies = {id: tally for id, tally in records.tallies.items() if tally.family in SOME}
    return Bench(Library(replace(records, **some, tallies=tallies)))


@pytest.fixture(autouse=True)
def by_its_case(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """An order of checks is told by the name of the case that it is solved for, so that another case always shows.

    To solve them takes ten times as long as all else, and is done alike for a part and for the whole.
    """
    monkeypatch.setattr(complaints, "_order", _named)


def _named(_: Bench, complaint: Complaint | None) -> tuple[float | None, str | None]:
    if complaint is None:
        return None, None
    name = DiagnosisCache(None).name(complaint.doubt)
    return int(name[:6], 16) / 1000, name


def test_a_change_by_chance_is_told_to_the_letter_as_from_the_whole_book(book: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[str] = []
    for new in _by_chance(book.library.records, Random(7)):
        try:
            told.append(_told_alike(book, Bench(Library(new)), monkeypatch))
        except (KeyError, ValueError):  # what was changed leads nowhere, and nothing can be worked out of the whole
            continue
        if len(told) == EDITS:
            break
    assert len(set(told)) > EDITS // 2, "the edits are told apart"


@pytest.mark.parametrize("edit", ["check renamed", "check gone", "family renamed", "family gone", "a shared part", "a tree", "mode new", "rate"])
def test_what_came_went_or_is_shared_by_many_is_told_as_from_the_whole_book(edit: str, book: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    new = Bench(Library(_chosen(edit, book.library.records)))
    there, back = (_told_alike(one, other, monkeypatch) for one, other in ((book, new), (new, book)))
    assert there != back


def test_a_change_touches_the_families_that_have_what_was_changed_and_no_others(made: Records) -> None:
    """Of three styles with a hook and a feed of their own, a failure mode of one style is the business of that style; a shared part, of all."""
    style = min(made.families).rpartition("-")[0]
    mode = next(id for id in made.failure_modes if id.endswith(f"-{style}"))
    new = replace(made, failure_modes={**made.failure_modes, mode: replace(made.failure_modes[mode], seen=900)})
    assert _families(made, new) == {id for id in made.families if id.startswith(style)}
    assert _families(made, _chosen("a shared part", made)) > _families(made, new)
    assert not _families(made, replace(made, tools=dict(list(made.tools.items())[:-1])))


def _families(before: Records, now: Records) -> set[str]:
    differing = changes.others(before, now)
    return {id for part in changes.touched(Library(before), Library(now), differing) for side in part for id in side.families}


def _told_alike(before: Bench, now: Bench, monkeypatch: pytest.MonkeyPatch) -> str:
    """The report; it is byte for byte that of a comparison in which everything is worked out."""
    records = now.library.records
    with monkeypatch.context() as patch:
        patch.setattr(changes, "touched", lambda *_: [(before, now)])
        patch.setattr(changes, "Library", lambda bench: bench)
        patch.setattr(changes, "Bench", lambda bench, _: bench)
        whole = as_json(changes.changes(before.library, now.library), records)
    try:
        small = as_json(changes.changes(before.library, now.library), records)
    except (KeyError, ValueError) as error:
        raise AssertionError("the whole book can be compared, and its parts cannot") from error
    assert small == whole
    return small


def _by_chance(book: Records, chance: Random) -> Iterator[Records]:
    """Books that differ and whose records keep the names under which they stand."""
    while True:
        new, _ = edited(book, chance)
        if changes.others(book, new) and all(key == getattr(r, "id", key) for kind in KINDS.values() for key, r in _group(new, kind.group).items()):
            yield new


def _group(records: Records, name: str) -> Mapping[str, Any]:
    held = getattr(records, name)
    return held if isinstance(held, Mapping) else {}


def _chosen(edit: str, book: Records) -> Records:
    what, _, how = edit.partition(" ")
    if what in ("check", "family"):
        group = KINDS[what].group
        records = dict(_group(book, group))
        gone = records.pop(next(iter(records)))
        anew = {f"{gone.id}-anew": replace(gone, id=f"{gone.id}-anew")} if how == "renamed" else {}
        return replace(book, **{group: dict(sorted({**records, **anew}.items()))})
    if edit == "a shared part":
        assembly = book.assemblies[Counter(use.use for f in book.families.values() for use in f.assemblies).most_common(1)[0][0]]
        parts = {id: replace(part, off=replace(part.off, minutes=part.off.minutes + 40)) for id, part in assembly.parts.items()}
        return replace(book, assemblies={**book.assemblies, assembly.id: replace(assembly, parts=parts)})
    if edit == "a tree":
        symptom = max(book.symptoms.values(), key=lambda s: len(s.tree.inputs))
        smaller = replace(symptom, tree=replace(symptom.tree, inputs=symptom.tree.inputs[1:]))
        return replace(book, symptoms={**book.symptoms, symptom.id: smaller})
    id, symptom = next((c, s) for s in book.symptoms.values() for node in s.tree.inputs if (c := getattr(node, "id", "")) in book.failure_modes)
    mode = book.failure_modes[id]
    if edit == "rate":
        return replace(book, failure_modes={**book.failure_modes, id: replace(mode, seen=900)})
    modes = dict(sorted({**book.failure_modes, "a-new-one": replace(mode, id="a-new-one", title="A new one")}.items()))
    node = next(node for node in symptom.tree.inputs if getattr(node, "id", "") == id)
    tree = replace(symptom.tree, inputs=(*symptom.tree.inputs, replace(node, id="a-new-one")))
    return replace(book, failure_modes=modes, symptoms={**book.symptoms, symptom.id: replace(symptom, tree=tree)})
