"""From all records to one family's view: what it has, with its own changes, and what it has not."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import is_dataclass, replace
from typing import Any, TypeVar

from generator.cross_references import CrossReferences
from generator.family_view import FamilyView, sits_on
from generator.own_words import in_own_words
from generator.records.as_used import as_used, unmet
from generator.records.model import (
    Assembly,
    Caution,
    Check,
    FailureMode,
    Family,
    Part,
    Setting,
    Symptom,
)
from generator.records.trees import can_occur

_Record = TypeVar("_Record")

_KINDS = {
    "family": "own",
    "assembly": "assemblies",
    "part": "parts",
    "setting": "settings",
    "failure-mode": "failure_modes",
    "check": "checks",
    "symptom": "symptoms",
}
"Kinds of records of a family, and where its view has them."


def build_view(library: CrossReferences, family: Family) -> FamilyView:
    """Everything that this family has, and why it has not the rest."""
    records = library.records
    assemblies = {
        use.use: as_used(records.assemblies[use.use], use, family.features)
        for use in family.assemblies
        if use.use in records.assemblies
    }
    spared = frozenset(c.id for c in records.cautions.values() if _spares(family, c))
    there = _only_what_is_there(assemblies)
    parts, settings = _sparing(there[0], spared), _sparing(there[1], spared)
    assemblies = _sparing({a.id: _with(a, parts, settings) for a in assemblies.values()}, spared)
    items: dict[str, Part | Setting] = {**parts, **settings}
    modes = {m.id: m for m in library.sitting_on(items) if not unmet(family.features, m.needs, m.lacks)}
    calls = {w: own for f in records.features.values() if family.features.get(f.id) for w, own in f.calls.items()}
    checks = dict(_checks(library, family, modes, parts, settings))
    symptoms = dict(_symptoms(library, family, modes))
    notes = {f.joint: f for f in records.fasteners.get(family.id, ())}
    told: dict[str, Mapping[str, Any]] = {
        "own": {family.id: family},
        "assemblies": in_own_words(assemblies, calls),
        "parts": in_own_words(parts, calls),
        "settings": in_own_words(settings, calls),
        "failure_modes": in_own_words(_sparing(modes, spared), calls),
        "checks": in_own_words(_sparing(checks, spared), calls),
        "symptoms": in_own_words(_sparing(symptoms, spared), calls),
    }
    return FamilyView(
        id=family.id,
        **told,
        titles={f"{kind}/{id}": record.title for kind, name in _KINDS.items() for id, record in told[name].items()},
        sits={m.id: sits_on(m) for m in modes.values()},
        outcomes={c.id: c.outcomes for c in told["checks"].values()},
        check_tools={c.id: c.tools for c in checks.values()},
        specs={m.id: m.remedy for m in told["failure_modes"].values()},
        not_here=_NotHere(library, family, items, frozenset(modes)),
        fasteners=_sparing(notes, spared),
        tallies=tuple(t for t in records.tallies.values() if t.family == family.id),
        home_of={i: a.id for a in assemblies.values() for i in (*a.parts, *a.settings)},
        spared=spared,
        calls=calls,
    )


class _NotHere(Mapping[str, str]):
    """Why a family cannot have a failure mode, said when it is asked: most of a large book is not on one machine."""

    def __init__(
        self, library: CrossReferences, family: Family, items: Mapping[str, Part | Setting], here: frozenset[str]
    ) -> None:
        self._library, self._family, self._items, self._here = library, family, items, here

    def __getitem__(self, mode: str) -> str:
        why = _why_not(self._library, self._library.records.failure_modes[mode], self._family, self._items)
        if why is None:
            raise KeyError(mode)
        return why

    def __iter__(self) -> Iterator[str]:
        return (mode for mode in self._library.records.failure_modes if mode not in self._here)

    def __len__(self) -> int:
        return len(self._library.records.failure_modes) - len(self._here)


def _only_what_is_there(
    assemblies: Mapping[str, Assembly],
) -> tuple[dict[str, Part], dict[str, Setting]]:
    """All parts and settings, their references cut to what the family has."""
    parts = {p.id: p for a in assemblies.values() for p in a.parts.values()}
    settings = {s.id: s for a in assemblies.values() for s in a.settings.values()}

    def there(ids: tuple[str, ...], known: Mapping[str, object]) -> tuple[str, ...]:
        return tuple(i for i in ids if i in known)

    cut_parts = {
        p.id: replace(
            p,
            behind=there(p.behind, parts),
            renew_with=there(p.renew_with, parts),
            disturbs=there(p.disturbs, settings),
        )
        for p in parts.values()
    }
    cut_settings = {
        s.id: replace(
            s,
            after=there(s.after, settings),
            disturbs=there(s.disturbs, settings),
            reach=there(s.reach, parts),
            in_place=there(s.in_place, parts),
        )
        for s in settings.values()
    }
    return cut_parts, cut_settings


def _spares(family: Family, caution: Caution) -> bool:
    """Whether the family says that it lacks what the caution is about; one that says nothing keeps the caution."""
    return any(family.features.get(f) is False for f in caution.needs)


def _sparing(items: Mapping[str, _Record], spared: frozenset[str]) -> dict[str, _Record]:
    """The records without these cautions."""
    return {i: _without(item, spared) for i, item in items.items()} if spared else dict(items)


def _without(item: _Record, spared: frozenset[str]) -> _Record:
    """A record without these cautions, in its moves too."""
    moves = {name: getattr(item, name, None) for name in ("off", "on")}
    laid: dict[str, object] = {name: _without(move, spared) for name, move in moves.items() if is_dataclass(move)}
    record: Any = item
    spared_one: _Record = replace(record, cautions=tuple(c for c in record.cautions if c not in spared), **laid)
    return spared_one


def _with(assembly: Assembly, parts: Mapping[str, Part], settings: Mapping[str, Setting]) -> Assembly:
    return replace(
        assembly,
        parts={i: parts[i] for i in assembly.parts},
        settings={i: settings[i] for i in assembly.settings},
    )


def _why_not(
    library: CrossReferences, mode: FailureMode, family: Family, items: Mapping[str, Part | Setting]
) -> str | None:
    """Why a family cannot have a failure mode, or None if it can."""
    against = unmet(family.features, mode.needs, mode.lacks)
    if against:
        return _feature_words(library, against[0], present=against[0] in mode.lacks)
    if sits_on(mode) in items:
        return None
    return f"this family has no {_title_of(library, sits_on(mode))}"


def _feature_words(library: CrossReferences, feature: str, present: bool) -> str:
    record = library.records.features.get(feature)
    name = feature.replace("_", " ")
    if present:
        return f"this family {record.present if record and record.present else 'has ' + name}"
    return f"this family {record.absent if record else 'has no ' + name}"


def _title_of(library: CrossReferences, item: str) -> str:
    """The title of a part or setting, as it stands inside a sentence."""
    for home in library.homes.get(item, ()):
        assembly = library.records.assemblies[home]
        title = (assembly.parts.get(item) or assembly.settings[item]).title
        return title if title[1:2].isupper() else title[0].lower() + title[1:]
    return item.replace("-", " ")


def _checks(
    library: CrossReferences,
    family: Family,
    modes: Mapping[str, FailureMode],
    parts: Mapping[str, Part],
    settings: Mapping[str, Setting],
) -> Iterator[tuple[str, Check]]:
    proving: dict[str, dict[str, Setting]] = {}
    for setting in settings.values():
        proving.setdefault(setting.proved_by or "", {})[setting.id] = setting
    for check in library.records.checks.values():
        if not unmet(family.features, check.needs, check.lacks):
            expect = _expected(check, settings if check.figures else proving.get(check.id, {}))
            yield check.id, library.cut(check, parts.keys(), modes.keys(), expect)


def _expected(check: Check, settings: Mapping[str, Setting]) -> str | None:
    """What a good machine shows, with the figures of this family: a figure stands once, in its setting."""
    read = (s for s in settings.values() if s.proved_by == check.id or s.id in check.figures)
    figures = "; ".join(f"{s.title} {s.target.span}" for s in read if s.target and s.target.span)
    return ". ".join(filter(None, [check.expect, figures])) or None


def _symptoms(
    library: CrossReferences, family: Family, modes: Mapping[str, FailureMode]
) -> Iterator[tuple[str, Symptom]]:
    """The symptoms that the family lists, or every one that something on it can cause."""
    for symptom in library.records.symptoms.values():
        if family.symptoms is not None and symptom.id not in family.symptoms:
            continue
        if unmet(family.features, symptom.needs, symptom.lacks):
            continue
        if can_occur(symptom.tree, modes.__contains__, library.gates):
            yield symptom.id, symptom
