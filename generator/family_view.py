"""One family's view of all records: what it has, with its own changes, and what it has not."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, is_dataclass, replace
from typing import TYPE_CHECKING, TypeVar

from generator.records.model import (
    Assembly,
    AssemblyUse,
    Check,
    FailureMode,
    Family,
    Fastener,
    OilPoint,
    Part,
    Records,
    Setting,
    Symptom,
    Tally,
    TreeGate,
    TreeTransfer,
)

if TYPE_CHECKING:
    from generator.library import Library

_Any = TypeVar("_Any")
_Item = TypeVar("_Item", Part, Setting)


@dataclass(frozen=True)
class FamilyView:
    """What one family of machines has, with the family's own changes laid over its assemblies."""

    family: Family
    assemblies: Mapping[str, Assembly]
    "In the family's order; parts and settings are those of this family."
    parts: Mapping[str, Part]
    "`behind`, `renew_with` and `disturbs` name only what this family has."
    settings: Mapping[str, Setting]
    "`after`, `disturbs` and `reach` name only what this family has."
    failure_modes: Mapping[str, FailureMode]
    not_here: Mapping[str, str]
    "Failure mode id -> why this family cannot have it, in words."
    checks: Mapping[str, Check]
    "Checks that make sense here; `reach` names only parts that this family has."
    symptoms: Mapping[str, Symptom]
    fasteners: Mapping[str, Fastener]
    "Joint id -> its note."
    tallies: tuple[Tally, ...]
    home_of: Mapping[str, str] = field(default_factory=dict)
    "Part or setting id -> the assembly that it belongs to."

    @property
    def id(self) -> str:
        """The family's id."""
        return self.family.id

    def seen(self, mode: str) -> float:
        """Machines in 1,000 of this family: its own rate, or the failure mode's."""
        return self.family.rates.get(mode, self.failure_modes[mode].seen)

    def oil(self) -> Iterator[tuple[Assembly, OilPoint]]:
        """Every oil point with its assembly, in the family's order."""
        for assembly in self.assemblies.values():
            for point in assembly.oil:
                yield assembly, point


def seat(mode: FailureMode) -> str:
    """The part or setting that a failure mode sits on."""
    return mode.part or mode.setting or ""


def gates_of(gate: TreeGate) -> Iterator[TreeGate]:
    """The gate and every gate below it in the same tree."""
    yield gate
    for node in gate.inputs:
        if isinstance(node, TreeGate):
            yield from gates_of(node)


def build_view(library: Library, family: Family) -> FamilyView:
    """Everything that this family has, and why it has not the rest."""
    records = library.records
    assemblies = {
        use.use: _as_used(records.assemblies[use.use], use, family)
        for use in family.assemblies
        if use.use in records.assemblies
    }
    parts, settings = _only_what_is_there(assemblies)
    assemblies = {a.id: _with(a, parts, settings) for a in assemblies.values()}
    not_here = {
        m.id: why
        for m in records.failure_modes.values()
        if (why := _why_not(library, m, family, {**parts, **settings}))
    }
    modes = {m.id: m for m in records.failure_modes.values() if m.id not in not_here}
    return FamilyView(
        family=family,
        assemblies=assemblies,
        parts=parts,
        settings=settings,
        failure_modes=modes,
        not_here=not_here,
        checks=dict(_checks(records, family, parts)),
        symptoms=dict(_symptoms(library, family, modes)),
        fasteners={f.joint: f for f in records.fasteners.get(family.id, ())},
        tallies=tuple(t for t in records.tallies.values() if t.family == family.id),
        home_of={i: a.id for a in assemblies.values() for i in (*a.parts, *a.settings)},
    )


def _as_used(assembly: Assembly, use: AssemblyUse, family: Family) -> Assembly:
    """The assembly without what this family lacks, its changes laid over."""

    def kept(items: Mapping[str, _Item], changes: Mapping[str, Mapping[str, object]]) -> dict[str, _Item]:
        changed = {i: _changed(item, changes.get(i, {})) for i, item in items.items()}
        return {
            i: item
            for i, item in changed.items()
            if i not in use.without and not unmet(family, item.needs, item.lacks)
        }

    return replace(
        assembly,
        parts=kept(assembly.parts, use.parts),
        settings=kept(assembly.settings, use.settings),
    )


def _changed(item: _Any, changes: Mapping[str, object]) -> _Any:
    """A record's data with some keys laid over; mappings go key by key, the rest is replaced."""
    laid: dict[str, object] = {}
    for key, value in changes.items():
        present = getattr(item, key)
        if is_dataclass(present) and isinstance(value, Mapping):
            laid[key] = _changed(present, value)
        else:
            laid[key] = tuple(value) if isinstance(value, list) else value
    return replace(item, **laid)


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
        )
        for s in settings.values()
    }
    return cut_parts, cut_settings


def _with(assembly: Assembly, parts: Mapping[str, Part], settings: Mapping[str, Setting]) -> Assembly:
    return replace(
        assembly,
        parts={i: parts[i] for i in assembly.parts},
        settings={i: settings[i] for i in assembly.settings},
    )


def unmet(family: Family, needs: tuple[str, ...], lacks: tuple[str, ...]) -> tuple[str, ...]:
    """Features that stand against this family: needed and absent, or barred and present."""
    missing = [f for f in needs if not family.features.get(f, False)]
    barred = [f for f in lacks if family.features.get(f, False)]
    return (*missing, *barred)


def _why_not(
    library: Library, mode: FailureMode, family: Family, items: Mapping[str, Part | Setting]
) -> str | None:
    """Why a family cannot have a failure mode, or None if it can."""
    against = unmet(family, mode.needs, mode.lacks)
    if against:
        return _feature_words(library, against[0], present=against[0] in mode.lacks)
    if seat(mode) in items:
        return None
    return f"this family has no {_seat_title(library, seat(mode))}"


def _feature_words(library: Library, feature: str, present: bool) -> str:
    record = library.records.features.get(feature)
    name = feature.replace("_", " ")
    if present:
        return f"this family {record.present if record and record.present else 'has ' + name}"
    return f"this family {record.absent if record else 'has no ' + name}"


def _seat_title(library: Library, item: str) -> str:
    """The title of a part or setting, as it stands inside a sentence."""
    for home in library.homes.get(item, ()):
        assembly = library.records.assemblies[home]
        title = (assembly.parts.get(item) or assembly.settings[item]).title
        return title if title[1:2].isupper() else title[0].lower() + title[1:]
    return item.replace("-", " ")


def _checks(records: Records, family: Family, parts: Mapping[str, Part]) -> Iterator[tuple[str, Check]]:
    for check in records.checks.values():
        if not unmet(family, check.needs, check.lacks):
            yield check.id, replace(check, reach=tuple(p for p in check.reach if p in parts))


def _symptoms(
    library: Library, family: Family, modes: Mapping[str, FailureMode]
) -> Iterator[tuple[str, Symptom]]:
    """The symptoms that the family lists, or every one that something on it can cause."""
    for symptom in library.records.symptoms.values():
        if family.symptoms is not None and symptom.id not in family.symptoms:
            continue
        if unmet(family, symptom.needs, symptom.lacks):
            continue
        if can_occur(library, symptom.tree, modes):
            yield symptom.id, symptom


def can_occur(library: Library, gate: TreeGate, modes: Mapping[str, FailureMode]) -> bool:
    """Whether the failure modes at hand are enough to bring the gate about."""
    able = 0
    for node in gate.inputs:
        if isinstance(node, TreeGate):
            able += can_occur(library, node, modes)
        elif isinstance(node, TreeTransfer):
            able += can_occur(library, library.gates[node.see], modes)
        else:
            able += node.id in modes
    return able >= gate.k
