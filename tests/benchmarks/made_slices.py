"""Slices of the real content: a few mechanisms with some of what fails on them, and all that tells it apart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import zip_longest
from pathlib import Path
from random import Random
from typing import Any

from generator.family_view import FamilyView, sits_on
from generator.graph import reached
from generator.library import Library
from generator.records.build import build_all
from generator.records.gates import gates
from generator.records.model import FailureMode
from generator.records.read import Content, read
from generator.records.references import references_of
from tests.benchmarks.relinked import cut_tree

Key = tuple[str, str]
"Kind and id."


@dataclass(frozen=True)
class Source:
    """The real content, as data and as one book."""

    content: Content
    library: Library

    @classmethod
    @cache
    def of(cls, folder: Path) -> Source:
        """What is read from a content folder without errors, once in a process."""
        content = read([folder])
        assert not [f for f in content.findings if f.level == "error"], "the content has errors"
        return cls(content, Library(build_all(content)))

    def data(self, kind: str, id: str) -> Any:
        """A record as it was written."""
        return self.content.records[kind][id].data

    @cached_property
    def gates(self) -> Mapping[str, Any]:
        """"symptom/gate" -> the gate as data."""
        symptoms = self.content.records["symptom"].values()
        return {f"{s.id}/{gate['id']}": gate for s in symptoms for _, gate in gates(s.data) if "id" in gate}

    def defined(self, assemblies: Iterable[str]) -> frozenset[Key]:
        """The assemblies with all that they define: parts, settings, and joints, which exist where they are named."""
        found: set[Key] = set()
        for id in assemblies:
            record = self.content.records["assembly"][id]
            found |= {("assembly", id)} | {("joint", r.id) for r in references_of(record) if r.target == "joint"}
            found |= {(kind, item) for kind, key in (("part", "parts"), ("setting", "settings")) for item in record.data.get(key, ())}  # type: ignore[attr-defined]
        return frozenset(found)


@dataclass(frozen=True)
class Slice:
    """What is taken of the real content."""

    assemblies: tuple[str, ...]
    symptoms: Mapping[str, Any]
    "Id -> the tree, cut to the failure modes taken."
    modes: tuple[str, ...]
    checks: Mapping[str, Any]
    "Id -> complaints and outcomes, cut to the failure modes taken."
    defined: frozenset[Key]
    "All of it, with parts, settings and joints."


@dataclass(frozen=True)
class Size:
    """How much of what fails on its mechanisms a slice takes; all of it where nothing is said."""

    symptoms: int | None = 4
    modes: int | None = 6
    "In all, shared out among the symptoms, which have most of them in common."


def slice_of(source: Source, views: Sequence[FamilyView], assemblies: Sequence[str], known: frozenset[Key], size: Size, chance: Random) -> Slice:
    """The mechanisms, with failure modes and checks that every one of the families has.

    `known` is what the made library has beside: failure modes whose remedy needs more are left out.
    """
    defined = source.defined(assemblies)
    seats = frozenset.intersection(*(source.defined(a for a in assemblies if a in view.assemblies) for view in views))
    modes = _eligible(source, views, seats, known | defined)
    under = {s: [m for m in modes if m in source.library.modes_under(source.library.records.symptoms[s].tree)] for s in _in_all([view.symptoms for view in views])}
    symptoms, taken = _taken({s: causes for s, causes in under.items() if causes}, size, chance)
    trees = {s: cut_tree(source.data("symptom", s)["tree"], taken, source.gates) for s in symptoms}
    checks = dict(_checks(source, views, known, {s: frozenset(under[s]) & taken for s in symptoms}))
    kinds = {"symptom": trees, "failure-mode": taken, "check": checks}
    every = defined | {(kind, id) for kind, ids in kinds.items() for id in ids}
    return Slice(tuple(assemblies), trees, tuple(sorted(taken)), checks, every)


def _taken(under: Mapping[str, list[str]], size: Size, chance: Random) -> tuple[list[str], frozenset[str]]:
    """Symptoms with many of the failure modes, and failure modes of each in turn."""
    if size.symptoms is None or size.modes is None:
        return list(under), frozenset(m for causes in under.values() for m in causes)
    most = sorted(under, key=lambda s: (-len(under[s]), s))[: 2 * size.symptoms]
    symptoms = sorted(chance.sample(most, min(size.symptoms, len(most))))
    turns = [chance.sample(under[s], len(under[s])) for s in symptoms]
    dealt = dict.fromkeys(m for turn in zip_longest(*turns) for m in turn if m)
    return symptoms, frozenset(list(dealt)[: max(size.modes, size.symptoms)])


def _eligible(source: Source, views: Sequence[FamilyView], seats: frozenset[Key], known: frozenset[Key]) -> list[str]:
    """Failure modes that every family has, on one of the seats, and that need nothing but what is known."""
    modes = views[0].failure_modes
    shared = _in_all([view.failure_modes for view in views])
    return [id for id in shared if _on(modes[id]) in seats and _needs(source, id) <= known]


def _in_all(groups: Sequence[Iterable[str]]) -> list[str]:
    return sorted(set.intersection(*map(set, groups)))


def _on(mode: FailureMode) -> Key:
    return ("part" if mode.part else "setting", sits_on(mode))


def _needs(source: Source, mode: str) -> set[Key]:
    """Parts and settings that a failure mode and its remedy name."""
    named = references_of(source.content.records["failure-mode"][mode])
    return {(r.target, r.id) for r in named if r.target in ("part", "setting")}


def _checks(
    source: Source, views: Sequence[FamilyView], known: frozenset[Key], shown: Mapping[str, frozenset[str]]
) -> Iterator[tuple[str, Any]]:
    """Checks that tell something of what is taken, with the complaints and outcomes of which they do."""
    for id in _in_all([view.checks for view in views]):
        data = source.data("check", id)
        fitted = frozenset(m for o in data["outcomes"] for fit in o.get("fits", ()) for m in source.library.fitted(fit))
        only_for = [s for s in data.get("only_for", shown) if fitted & shown.get(s, frozenset())]
        outcomes = list(_outcomes(source, data["outcomes"], frozenset[str]().union(*(shown[s] for s in only_for))))
        if len(outcomes) > 1 and only_for:
            reach = [*data.get("reach", ()), *_behind(views[0], data.get("reach", ()), known)]
            yield id, {**({"only_for": only_for} if "only_for" in data else {}), **({"reach": reach} if reach else {}), "outcomes": outcomes}


def _behind(view: FamilyView, reach: Sequence[str], known: frozenset[Key]) -> list[str]:
    """Shared parts that come off on the way to what a check reaches: on other families its own parts are not there."""
    off = reached((p for p in reach if p in view.parts), lambda p: view.parts[p].behind)
    return sorted(p for p in off - {*reach} if ("part", p) in known)


def _outcomes(source: Source, outcomes: Iterable[Any], causes: frozenset[str]) -> Iterator[Any]:
    """Rows that fit a cause, which is named by itself in the first, and those of a sound machine."""
    named: set[str] = set()
    for outcome in outcomes:
        fits = sorted(({m for fit in outcome.get("fits", ()) for m in source.library.fitted(fit)} & causes) - named)
        named.update(fits)
        rest = {key: value for key, value in outcome.items() if key not in ("fits", "pictures")}
        if fits:
            yield {**rest, "fits": fits}
        elif outcome.get("otherwise") or outcome.get("good"):
            yield rest
