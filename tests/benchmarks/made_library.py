"""A made library: as many families as asked for, cloned from the real content and varied, with invented names.

    python -m tests.benchmarks.made_library 100 build/made [--seed 1] [--whole]

Ten families have the same *style*: a hook and a feed of their own with what fails on them, cloned under names of the
style from a real family. All styles whose real family is the same share covers and needle bar, and all share one
symptom with its failure modes and checks. A family has five complaints and about 21 pages, eight of which every family
has: 100 families are about 2,300 pages, 1,000 about 22,000. With `--whole` a style takes all that fails on its
mechanisms: for reading many records, not for building pages. The same numbers give the same bytes, and more families
leave those before them as they are. Prose is that of the real content.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Mapping
from functools import partial
from itertools import islice
from pathlib import Path
from random import Random
from typing import Any

import yaml

from generator.family_view import FamilyView
from generator.records.kinds import KINDS
from generator.records.node import Places
from generator.records.read import Record
from generator.records.references import references_of
from tests.benchmarks.made_names import names
from tests.benchmarks.made_slices import Key, Size, Slice, Source, slice_of
from tests.benchmarks.relinked import relinked

CONTENT = Path(__file__).parents[2] / "content"
ALIKE = 10
"Families of one style."
_OWN_ROLES = ("hook", "loopers", "feed")
_SHARED_ROLES = ("covers", "needle")
_OWN_KINDS = ("assembly", "part", "setting", "joint", "failure-mode", "check", "symptom")
_ONLY_IF_NAMED = ("tool", "caution", "technique")
_LEFT_OUT = ("was", "pictures", "brings")
"Former ids and pictures are the real content's, and no mechanism brings what only a whole machine has."
_DUMPER: type[Any] = getattr(yaml, "CSafeDumper", yaml.SafeDumper)


class MadeLibrary:
    """Writes the records of a made library into a folder."""

    def __init__(self, folder: Path, seed: int, size: Size) -> None:
        self.folder = folder
        self.seed = seed
        self.size = size
        self.source = Source.of(CONTENT)
        self.bases = self.source.library.views
        self.named: set[Key] = set()
        "Tools, cautions and ways of working that some record names."
        assemblies = dict.fromkeys(a for base in self.bases for a in _with_roles(base, _SHARED_ROLES))
        self.shared = slice_of(self.source, self.bases, list(assemblies), frozenset(), Size(1, 3), Random(seed))

    def write(self, families: int) -> None:
        """All of it."""
        self._slice(self.shared, _plain_name(self.shared.defined), "", Random(self.seed))
        styles = -(-families // ALIKE)
        for number, style in enumerate(islice(names(Random(self.seed)), styles)):
            self._style(number, style, min(ALIKE, families - number * ALIKE))
        self._lists()

    def _style(self, number: int, style: str, families: int) -> None:
        """A style with its families."""
        chance = Random(f"{self.seed} {number}")
        base = self.bases[number % len(self.bases)]
        own = slice_of(self.source, [base], _with_roles(base, _OWN_ROLES), self.shared.defined, self.size, chance)
        name = partial(_name, self.shared.defined, own.defined, style.lower())
        self._slice(own, name, f", {style}", chance)
        for place in range(families):
            self._family(base, own, name, f"{style} {chance.randrange(10, 90) * 10 + place}", chance)

    def _slice(self, taken: Slice, name: Any, suffix: str, chance: Random) -> None:
        """The records of a slice under their new names."""
        for kind in ("assembly", "failure-mode", "check", "symptom"):
            ids = {"assembly": taken.assemblies, "failure-mode": taken.modes, "check": taken.checks, "symptom": taken.symptoms}[kind]
            for id in ids:
                data = {**self.source.data(kind, id)}
                data["title"] += suffix
                self._file(kind, name(kind, id) or id, relinked(kind, _varied(kind, id, data, taken, suffix, chance), name))

    def _family(self, base: FamilyView, own: Slice, name: Any, title: str, chance: Random) -> None:
        """A family with its fastener notes, and every second one with a tally."""
        id = title.lower().replace(" ", "-")
        own_modes, shared_modes = own.modes, [m for m in self.shared.modes if m in base.failure_modes]
        data = {key: value for key, value in self.source.data("family", base.id).items() if key not in _LEFT_OUT}
        data |= {
            "title": title,
            "models": [f"{title}{mark}" for mark in ("A", "B", "C")],
            "symptoms": sorted({*own.symptoms, *self.shared.symptoms}),
            "rates": {m: chance.randrange(1, 80) for m in sorted(chance.sample(own_modes, len(own_modes) // 2))},
        }
        self._file("family", id, relinked("family", data, name))
        there = [assembly for assembly in base.assemblies.values() if name("assembly", assembly.id)]
        joints = {joint for a in there for item in (*a.parts.values(), *a.settings.values()) for joint in item.joints}
        notes = [note for note in self.source.data("fasteners", base.id) if note["joint"] in joints]
        self._file("fasteners", id, relinked("fasteners", notes, name))
        if chance.random() < 0.5:
            found = sorted(chance.sample([*own_modes, *shared_modes], 4))
            counts = [{"mode": name("failure-mode", mode), "count": chance.randrange(1, 9)} for mode in found]
            tally = {"shop": "Made Bench", "family": id, "period": "2025", "machines": chance.randrange(40, 90), "found": counts}
            self._file("tally", f"made-{id}", tally)

    def _lists(self) -> None:
        """The lists that all records draw on, and the ways of working, with what is named of them."""
        keep = _plain_name(self.shared.defined)
        for id in sorted(id for kind, id in self.named if kind == "technique"):
            self._file("technique", id, relinked("technique", _without(self.source.data("technique", id)), keep))
        roles = {record.role for record in self.source.library.records.assemblies.values() if record.role in (*_OWN_ROLES, *_SHARED_ROLES)}
        for kind in KINDS.values():
            if not kind.place.endswith(".yaml"):
                continue
            entries = {id: relinked(kind.name, r.data, keep) for id, r in self.source.content.records[kind.name].items()}
            if kind.name in _ONLY_IF_NAMED:
                entries = {id: data for id, data in entries.items() if (kind.name, id) in self.named}
            if kind.name == "question":
                entries = {id: data for id, data in entries.items() if id == "bed" or id in roles}
            self._put(kind.place, entries["shop"] if kind.name == "shop" else entries)

    def _file(self, kind: str, id: str, data: object) -> None:
        named = references_of(Record(kind, id, data, Places({}, {}), True))
        self.named |= {(r.target, r.id) for r in named if r.target in _ONLY_IF_NAMED}
        self._put(f"{KINDS[kind].place}/{id}.yaml", data)

    def _put(self, place: str, data: object) -> None:
        path = self.folder / place
        path.parent.mkdir(parents=True, exist_ok=True)
        text = yaml.dump(data, Dumper=_DUMPER, sort_keys=False, allow_unicode=True, width=120)
        path.write_text(text, encoding="utf-8")


def _with_roles(view: FamilyView, roles: Iterable[str]) -> list[str]:
    return [id for id, assembly in view.assemblies.items() if assembly.role in roles]


def _plain_name(defined: frozenset[Key]) -> Any:
    return partial(_name, defined, frozenset(), "")


def _name(shared: frozenset[Key], own: frozenset[Key], style: str, kind: str, id: str) -> str | None:
    """Its id in the made library; what all families share comes first, and lists keep their ids."""
    if kind == "fit":
        kind = "failure-mode"  # the outcomes of a slice fit nothing else
    if (kind, id) in shared and kind in ("part", "setting", "joint", "assembly"):
        return id
    if (kind, id) in own:
        return f"{id}-{style}"
    return id if kind not in _OWN_KINDS or (kind, id) in shared else None


def _varied(kind: str, id: str, data: dict[str, Any], taken: Slice, suffix: str, chance: Random) -> dict[str, Any]:
    """A record's data with what the slice takes of it, and figures of its own."""
    data = _without(data)
    if kind == "symptom":
        said = [f"{words}{suffix.replace(',', ' on the')}" for words in data["said_as"]]
        return {**data, "said_as": said, "tree": taken.symptoms[id]}
    if kind == "check":
        return {**data, "minutes": round(data["minutes"] * chance.choice((1, 1, 1.2, 1.5)), 1), **taken.checks[id]}
    if kind == "failure-mode":
        shows = {s: much for s, much in data.pop("shows", {}).items() if id in _events(taken.symptoms.get(s))}
        return {**data, "seen": max(1, round(data["seen"] * chance.uniform(0.5, 1.5))), **({"shows": shows} if shows else {})}
    return data


def _events(node: Any) -> set[str]:
    """Failure modes of a tree as data."""
    if isinstance(node, str):
        return {node}
    return {mode for key in ("any", "all", "of") for below in (node or {}).get(key, ()) for mode in _events(below)}


def _without(data: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in data.items() if key not in _LEFT_OUT}


def write(folder: Path, families: int, seed: int = 1, size: Size | None = None) -> None:
    """Writes a library of so many families into a content folder, which must not exist."""
    folder.mkdir(parents=True)
    MadeLibrary(folder, seed, size or Size()).write(families)


def main() -> None:
    """From the command line."""
    parser = argparse.ArgumentParser(description="Writes a made library.")
    parser.add_argument("families", type=int)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--whole", action="store_true", help="all that fails on the mechanisms, for reading")
    asked = parser.parse_args()
    write(asked.folder, asked.families, asked.seed, Size(None, None) if asked.whole else None)


if __name__ == "__main__":
    main()
