"""What settings and the checks that prove them need off and on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.analysis.job.types import Practice
from generator.analysis.machine import Machine, Proof, Work

Key = tuple[str, str]
"What is done and to what: ('set', setting) or ('check', check)."


@dataclass(frozen=True, slots=True)
class Needs:
    """What settings and checks need off and on: with all in front of what is off and all behind what is on."""

    off: Mapping[Key, frozenset[str]]
    on: Mapping[Key, frozenset[str]]
    later: Mapping[str, set[str]]
    "For each setting, those made after it."


def wishes(
    machine: Machine,
    off: Mapping[str, frozenset[str]],
    later: Mapping[str, set[str]],
    parts: Sequence[str],
    practice: Practice,
) -> Iterator[Needs]:
    """What is needed off and on; then the same with less wanted, for a machine that cannot give it all."""
    whole = needs(machine, off, later, parts, practice)
    yield whole
    yield needs(machine, off, later, parts, practice, frozenset(p for p in parts if machine.parts[p].disturbs))
    yield Needs({key: ids for key, ids in whole.off.items() if key[0] == "set"}, {}, later)


def needs(
    machine: Machine,
    off: Mapping[str, frozenset[str]],
    later: Mapping[str, set[str]],
    parts: Sequence[str],
    practice: Practice,
    spared: frozenset[str] = frozenset(),
) -> Needs:
    """What settings and the checks that prove them need off and on among these parts; off wins.

    `spared` are not asked for.
    """
    checks = {c: machine.proofs.get(c, Proof(c)) for c in proofs(later, practice)}
    out = {("set", s): off[s] for s in later}
    out |= {("check", c): machine.way_in(proof.reach) & set(parts) for c, proof in checks.items()}
    wanted = {("set", s): machine.settings[s].on for s in later}
    wanted |= {("check", c): proof.on for c, proof in checks.items()}
    named = {key: set(ids) - spared for key, ids in wanted.items()}
    on = {key: frozenset(p for p in parts if machine.way_in((p,)) & ids) for key, ids in named.items()}
    return Needs(out, {key: ids - out[key] for key, ids in on.items()}, later)


def proofs(later: Mapping[str, set[str]], practice: Practice) -> dict[str, frozenset[str]]:
    """Checks that prove the settings made, each with the settings that share it."""
    found: dict[str, frozenset[str]] = {}
    for setting in sorted(later):
        check = practice.setting(setting).proved_by
        if check:
            found[check] = found.get(check, frozenset()) | {setting}
    return found


def wanted_on(machine: Machine, work: Work, practice: Practice) -> frozenset[str]:
    """Parts of the work that a setting or check needs on, with all behind them."""
    checks = {practice.setting(s).proved_by for s in work.settings} & machine.proofs.keys()
    named = {p for s in work.settings for p in machine.settings[s].on}
    named |= {p for c in checks for p in machine.proofs[c].on}
    return frozenset(p for p in work.parts if machine.way_in((p,)) & named)
