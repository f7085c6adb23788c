"""Parts of two states of a book that hold all that a change can touch: what is not in one of them is as it was.

A family that no changed record reaches, in either state, is worked out from the same values as before.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import islice
from typing import Any

from generator.bench.changes.reach import Reach
from generator.cross_references import CrossReferences
from generator.graph import reached
from generator.records.model import Records, TreeGate, TreeTransfer

Key = tuple[str, str]
"Kind and id of a record."
Ids = dict[str, set[str]]
"Group of records -> ids of some of them."
_AT_ONCE = 20
"Families of a part: what is worked out for many more would fill the memory."
_SOME = ("families", "assemblies", "symptoms", "failure_modes", "checks", "fasteners", "tallies")
"Groups of which a part has some; it has all of the others, which are short."


def touched(before: CrossReferences, now: CrossReferences, changed: Collection[Key]) -> Iterator[tuple[Records, Records]]:
    """Parts of the book, before and now, by their families. Complaints and jobs differ in a part as they do in the book.

    Each part has some of the families that are reached, and every record that they rest on in one state or the other.
    """
    states = Reach(before), Reach(now)
    families = iter(sorted({family for state in states for key in changed for family in state.families_of(*key)}))
    while some := list(islice(families, _AT_ONCE)):
        ids = _needed(states, some)
        yield _only(before.records, ids), _only(now.records, ids)


def _needed(states: Sequence[Reach], families: Sequence[str]) -> Ids:
    """What families rest on in any of the states, and what the trees among it name."""
    ids: Ids = {name: set(families) if name in ("families", "fasteners") else set() for name in _SOME}
    for state in states:
        for name, some in _rested_on(state, families).items():
            ids[name] |= some
    ids["symptoms"] |= reached(ids["symptoms"], lambda symptom: {s for state in states for s in _leads_to(state.library, symptom)})
    for state in states:
        ids["failure_modes"].update(*(state.library.causes.get(symptom, ()) for symptom in ids["symptoms"]))
    return ids


def _rested_on(state: Reach, families: Sequence[str]) -> Ids:
    """Of one state; of the trees those that name a failure mode of the families."""
    library, records = state.library, state.records
    held = [records.families[id] for id in families if id in records.families]
    built = {use.use for family in held for use in family.assemblies} & records.assemblies.keys()
    items = {item for id in built for item in (*records.assemblies[id].parts, *records.assemblies[id].settings)}
    modes = {mode.id for mode in library.sitting_on(items)}
    return {
        "assemblies": built.union(*(library.homes[item] for item in items)),
        "symptoms": {symptom for mode in modes for symptom in state.naming.get(mode, ())},
        "failure_modes": modes,
        "checks": {*library.telling(modes), *state.general}.union(*(state.proofs[family.id] for family in held)),
        "tallies": {tally.id for tally in records.tallies.values() if tally.family in families},
    }


def _leads_to(library: CrossReferences, symptom: str) -> Iterable[str]:
    """Symptoms to whose gates its tree transfers."""
    record = library.records.symptoms.get(symptom)
    return {see.partition("/")[0] for see in _transfers(record.tree)} if record else ()


def _transfers(gate: TreeGate) -> Iterator[str]:
    for node in gate.inputs:
        if isinstance(node, TreeGate):
            yield from _transfers(node)
        elif isinstance(node, TreeTransfer):
            yield node.see


def _only(records: Records, ids: Ids) -> Records:
    """These records, in their order, and all that stands in lists."""
    some: dict[str, Any] = {name: {i: r for i, r in getattr(records, name).items() if i in wanted} for name, wanted in ids.items()}
    return replace(records, **some)
