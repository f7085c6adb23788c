"""A fault tree cut down to what one machine family can show."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from generator.analysis.tree import Event, Gate, GateKind, Node, event_ids, gates_upward


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A basic event that the family's tree does not hold."""

    id: str
    reason: str
    "In words, for a reader of the page."


@dataclass(frozen=True, slots=True)
class Folded:
    """One family's tree and what was taken out of it."""

    tree: Gate | None
    "None when the top event cannot occur on this family."
    left_out: tuple[LeftOut, ...]
    "In the order in which the events first stand in the full tree."


def fold(top: Gate, left_out: Callable[[str], str | None]) -> Folded:
    """The tree without the events that a family cannot have: they are taken as never occurring.

    `left_out` gives the reason why an event goes, or None where it stays. An `any` gate goes on
    without a lost input; an `all` gate cannot occur without one, and an `at_least` gate not with
    fewer than `k`. A gate left with one input becomes that input; the top gate stays the top event.

    >>> low = Gate("low", "Feed stays low", "all", (Event("lever-down"), Event("spring-weak")))
    >>> fold(Gate("top", "No feed", "any", (Event("lint"), low)),
    ...      lambda event: "this family has no drop-feed lever" if event == "lever-down" else None)
    ... # doctest: +NORMALIZE_WHITESPACE
    Folded(tree=Gate(id='top', title='No feed', kind='any',
                     inputs=(Event(id='lint', title=''),), k=0, transfer=''),
           left_out=(LeftOut(id='lever-down', reason='this family has no drop-feed lever'),
                     LeftOut(id='spring-weak', reason='it counts only together with “lever-down”,
                     and this family has no drop-feed lever')))
    """
    reasons = {event: reason for event in event_ids(top) if (reason := left_out(event)) is not None}
    lost = dict(reasons)
    folded: dict[int, Node | None] = {}
    for gate in gates_upward(top):
        kept = _kept(gate, folded, reasons)
        folded[id(gate)] = _fold_gate(gate, kept, lost, reasons, gate is top)
    tree = folded[id(top)]
    standing = frozenset(event_ids(tree)) if isinstance(tree, Gate) else frozenset()
    gone = (LeftOut(e, lost[e]) for e in event_ids(top) if e not in standing)
    return Folded(tree if isinstance(tree, Gate) else None, tuple(gone))


def _kept(
    gate: Gate, folded: dict[int, Node | None], reasons: dict[str, str]
) -> tuple[Node | None, ...]:
    """What became of each input of a gate, None where it went."""
    return tuple(
        folded[id(n)] if isinstance(n, Gate) else None if n.id in reasons else n
        for n in gate.inputs
    )


def _fold_gate(
    gate: Gate,
    kept: tuple[Node | None, ...],
    lost: dict[str, str],
    reasons: dict[str, str],
    is_top: bool,
) -> Node | None:
    """What becomes of a gate; events that go with it are noted in `lost`."""
    inputs = tuple(n for n in kept if n is not None)
    why = _why_never(gate, kept, len(inputs), reasons)
    if why is not None:
        for event in (e for n in inputs for e in event_ids(n)):
            lost.setdefault(event, why)
        return None
    kind, k = _kind(gate, len(inputs))
    inputs = _without_repeats(inputs) if kind == "any" else inputs
    if len(inputs) == 1 and not is_top:
        return inputs[0]
    return replace(gate, kind=kind, k=k, inputs=inputs)


def _why_never(
    gate: Gate, kept: tuple[Node | None, ...], left: int, reasons: dict[str, str]
) -> str | None:
    """Why the gate cannot occur any more, or None if it can."""
    if gate.kind == "all" and left < len(kept):
        missing = gate.inputs[kept.index(None)]
        because = reasons.get(missing.id) if isinstance(missing, Event) else None
        name = missing.title or missing.id
        return f"it counts only together with “{name}”, {_because(because)}"
    if gate.kind == "at_least" and left < gate.k:
        name = gate.title or gate.id
        return f"“{name}” takes {gate.k} of its causes, and this family has {left}"
    return "no cause is left" if left == 0 else None


def _because(reason: str | None) -> str:
    return "which cannot occur on this family" if reason is None else f"and {reason}"


def _kind(gate: Gate, left: int) -> tuple[GateKind, int]:
    """The plainest kind that says the same of the inputs that are left."""
    if gate.kind != "at_least":
        return gate.kind, 0
    if gate.k == 1:
        return "any", 0
    return ("all", 0) if gate.k == left else ("at_least", gate.k)


def _without_repeats(inputs: tuple[Node, ...]) -> tuple[Node, ...]:
    """An event that stands twice under one `any` gate says nothing the second time."""
    first = {n.id: n for n in reversed(inputs) if isinstance(n, Event)}
    return tuple(n for n in inputs if isinstance(n, Gate) or first[n.id] is n)
