"""Machines made up at random, with all that the laws ask of one."""

from __future__ import annotations

import random
from dataclasses import replace

from generator.analysis.job.types import UPRIGHT, Practice
from generator.analysis.machine import Machine, MachineSetting, Proof, Remedy
from tests.analysis.job.job_cases import random_case_in_place
from tests.laws.facts import Facts, PartFacts, WorkFacts

Case = tuple[Machine, Practice, tuple[Remedy, ...], Facts]


def made_up(number: int) -> Case:
    """A machine with covers that guard, mains parts, joints left nipped, and work under power."""
    machine, practice, remedies = random_case_in_place(number)
    rng = random.Random(number * 7 + 3)
    guards = {p for p in machine.parts if rng.random() < 0.3}
    mains = {p for p in machine.parts if rng.random() < 0.2}
    live = frozenset(w for w in (*sorted(machine.settings), "check-a", "check-b") if rng.random() < 0.2)
    machine = _with_guards_on(machine, mains, guards | mains, live)
    practice = _with_joints(rng, _upright_where_live(practice, live))
    return machine, practice, tuple(remedies), _facts(machine, practice, guards)


def _with_guards_on(machine: Machine, mains: set[str], guards: set[str], live: frozenset[str]) -> Machine:
    """What runs under power has every guard on, but for what is in its own way."""

    def on(work: MachineSetting | Proof) -> tuple[str, ...]:
        return tuple(sorted({*work.on, *(guards - set(work.reach))})) if work.id in live else work.on

    return Machine(
        {p: replace(part, mains=p in mains) for p, part in machine.parts.items()},
        {s: replace(setting, on=on(setting)) for s, setting in machine.settings.items()},
        {c: replace(proof, on=on(proof)) for c, proof in machine.proofs.items()},
        mains_test=6,
    )


def _upright_where_live(practice: Practice, live: frozenset[str]) -> Practice:
    """What runs stands upright, as the records' rule and the bench have it."""
    settings = {s: replace(h, position=UPRIGHT) if s in live else h for s, h in practice.settings.items()}
    proofs = {c: UPRIGHT if c in live else practice.proofs.get(c, "") for c in ("check-a", "check-b")}
    return replace(practice, live=live, settings=settings, proofs=proofs)


def _with_joints(rng: random.Random, practice: Practice) -> Practice:
    joints = sorted({j for h in practice.parts.values() for j in h.joints})
    return replace(
        practice,
        parts={p: replace(h, nips=tuple(j for j in dict.fromkeys(h.joints) if rng.random() < 0.5)) for p, h in practice.parts.items()},
        settings={s: replace(h, joints=tuple(j for j in joints if rng.random() < 0.2)) for s, h in practice.settings.items()},
    )


def _facts(machine: Machine, practice: Practice, guards: set[str]) -> Facts:
    parts = {
        p: PartFacts(part.behind, part.disturbs, p in guards, False, part.mains, False, practice.part(p).joints, practice.part(p).nips)
        for p, part in machine.parts.items()
    }
    settings = {
        s: WorkFacts(m.reach, m.on, _power(s, practice), False, True, m.disturbs, practice.setting(s).joints)
        for s, m in machine.settings.items()
    }
    checks = {c: WorkFacts(m.reach, m.on, _power(c, practice), False, True) for c, m in machine.proofs.items()}
    return Facts(parts, settings, checks)


def _power(work: str, practice: Practice) -> str:
    return "on" if work in practice.live else "off"
