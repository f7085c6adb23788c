"""Which failure modes an outcome of a check fits."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

Fits = Mapping[str, frozenset[str]]
"What an entry of `fits` may name -> the failure modes that it stands for."


def what_fits(
    modes: Iterable[str],
    sit_on: Iterable[tuple[str, str]],
    owners: Mapping[str, Iterable[str]],
    gates: Mapping[str, Iterable[str]],
) -> Fits:
    """A failure mode stands for itself; a part, setting or assembly for what sits on it; a gate for what is under it.

    `sit_on` are failure modes with the part or setting that each sits on, `owners` the assemblies of a part
    or setting, and `gates` the failure modes under each "symptom/gate", which may be named without its
    symptom too.

    >>> found = what_fits(["worn"], [("worn", "gear")], {"gear": ["drive"]}, {"skips/hook": ["worn"]})
    >>> sorted(found)
    ['drive', 'gear', 'hook', 'skips/hook', 'worn']
    """
    found: dict[str, set[str]] = defaultdict(set)
    for mode in modes:
        found[mode].add(mode)
    for mode, item in sit_on:
        for place in (item, *owners.get(item, ())):
            found[place].add(mode)
    for gate, under in gates.items():
        for name in (gate, gate.partition("/")[2]):
            found[name].update(under)
    return {name: frozenset(fitted) for name, fitted in found.items()}
