"""The one way from an assembly as written to the assembly that a family has."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import TypeVar

from generator.records.model import Assembly, AssemblyUse, Part, Setting
from generator.records.shapes import with_changes

Features = Mapping[str, bool]
"Feature id -> whether a family has it; what is not named, it has not."

T = TypeVar("T", Part, Setting)


def unmet(features: Features, needs: Iterable[str], lacks: Iterable[str]) -> tuple[str, ...]:
    """Features that stand against a family: needed and absent, or barred and present.

    >>> unmet({"zigzag": True}, ["zigzag", "free_arm"], ["zigzag"])
    ('free_arm', 'zigzag')
    """
    missing = [f for f in needs if not features.get(f, False)]
    barred = [f for f in lacks if features.get(f, False)]
    return (*missing, *barred)


def as_used(assembly: Assembly, use: AssemblyUse, features: Features | None) -> Assembly:
    """The assembly with the family's changes laid over it and without what the family lacks, under the family's title.

    Without `features`, everything that any family could have of it.
    """
    return replace(
        assembly,
        title=use.title or assembly.title,
        parts=_there(assembly.parts, use.parts, use, features),
        settings=_there(assembly.settings, use.settings, use, features),
    )


def _there(
    items: Mapping[str, T],
    changes: Mapping[str, Mapping[str, object]],
    use: AssemblyUse,
    features: Features | None,
) -> dict[str, T]:
    left = {id: item for id, item in items.items() if id not in use.without}
    changed = {id: with_changes(item, changes[id]) if id in changes else item for id, item in left.items()}
    if features is None:
        return changed
    return {id: item for id, item in changed.items() if not unmet(features, item.needs, item.lacks)}
