"""A plan replayed on a closed machine, for the rules that prove it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from generator.analysis.job.types import Plan, Step
from generator.analysis.machine import Machine, Remedy


@dataclass(frozen=True, slots=True)
class Replay:
    """The plan beside what it was meant to do."""

    plan: Plan
    machine: Machine
    remedies: tuple[Remedy, ...]

    def __iter__(self) -> Iterator[tuple[Step, frozenset[str]]]:
        """Each step with the parts that are off as it begins."""
        off: set[str] = set()
        for step in self.plan.steps:
            yield step, frozenset(off)
            if step.do == "take off":
                off.add(step.part)
            elif step.do == "refit":
                off.discard(step.part)

    def count(self, do: str) -> Counter[str]:
        """How often each id is done."""
        return Counter(step.part for step in self.plan.steps if step.do == do)

    def minutes(self, step: Step) -> tuple[float, ...]:
        """Minutes that a step may have by the records; the shop alone says how long it sews."""
        if step.do == "take off":
            return (self.machine.parts[step.part].off_minutes,)
        if step.do == "refit":
            return (self.machine.parts[step.part].on_minutes,)
        if step.do == "set":
            return (self._to_set(step),)
        if step.do == "remedy":
            return tuple(r.minutes for r in self.remedies if r.id == step.part) or (0.0,)
        if step.do == "test":
            return (self.machine.mains_test,)
        return (max(step.minutes, 0.0),) if step.do == "sew" else (0.0,)

    def _to_set(self, step: Step) -> float:
        setting = self.machine.settings[step.part]
        if step.read and setting.read_minutes is not None:
            return setting.read_minutes + self.machine.found_out * setting.minutes
        return setting.minutes


def in_front(machine: Machine, parts: Iterable[str]) -> set[str]:
    """The parts and all that must come off before them."""
    found = set(parts)
    while more := {b for p in found for b in machine.parts[p].behind} - found:
        found |= more
    return found


def needs_off(machine: Machine, step: Step) -> set[str]:
    """What a setting or check needs off, with all in front; nothing for any other step."""
    if step.do == "set":
        return in_front(machine, machine.settings[step.part].reach)
    proof = machine.proofs.get(step.part) if step.do == "check" else None
    return in_front(machine, proof.reach) if proof else set()


def needs_on(replay: Replay, step: Step) -> set[str]:
    """Parts of the plan that a setting or check needs on: those it names and all behind them, but for its reach."""
    machine = replay.machine
    if step.do == "set":
        named = set(machine.settings[step.part].on)
    else:
        proof = machine.proofs.get(step.part) if step.do == "check" else None
        named = set(proof.on) if proof else set()
    moved = replay.count("take off").keys() if named else set()
    return {p for p in moved if in_front(machine, [p]) & named} - needs_off(machine, step)
