"""What a change does to complaints: their orders of checks, and what is no longer told apart."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import fsum

from generator.analysis.coverage import ambiguity_groups
from generator.analysis.policy import CheckNode, RemedyNode
from generator.bench.bench import Bench
from generator.bench.complaint import Complaint


@dataclass(frozen=True, slots=True)
class OrderChange:
    """A complaint whose order of checks, or its minutes, is another."""

    family: str
    symptom: str
    minutes_before: float | None
    "None where the family could not have the symptom."
    minutes_now: float | None
    first_before: str | None
    "The first check, or the remedy where none comes before it."
    first_now: str | None
    causes_before: tuple[str, ...] = ()
    "Failure modes in its tree."
    causes_now: tuple[str, ...] = ()

    @property
    def size(self) -> float:
        """Minutes by which it moved; a complaint that came or went moves by all of its own."""
        return abs((self.minutes_now or 0) - (self.minutes_before or 0))


@dataclass(frozen=True, slots=True)
class Ambiguity:
    """Causes of a complaint with several remedies that every check shows alike, and did not before."""

    family: str
    symptom: str
    causes: tuple[str, ...]
    share: float


Pair = tuple[Complaint | None, Complaint | None]
"A complaint before and now; None where the family could not have it."


def affected(before: Bench, now: Bench) -> dict[tuple[str, str], Pair]:
    """Family and symptom -> the complaint before and now, where its case is another."""
    old, new = (_by_name(bench) for bench in (before, now))
    pairs = {key: (old.get(key), new.get(key)) for key in sorted(old.keys() | new.keys())}
    return {key: (one, other) for key, (one, other) in pairs.items() if not (one and other and one.case == other.case)}


def _by_name(bench: Bench) -> dict[tuple[str, str], Complaint]:
    return {(c.view.id, c.symptom_id): c for c in bench.complaints()}


def order_changes(before: Bench, now: Bench, pairs: dict[tuple[str, str], Pair]) -> Iterator[OrderChange]:
    """Every complaint of which a reader sees another first check or other minutes."""
    found = (
        OrderChange(*key, was[0], is_now[0], was[1], is_now[1], _causes(pair[0]), _causes(pair[1]))
        for key, pair in pairs.items()
        for was, is_now in ((_order(before, pair[0]), _order(now, pair[1])),)
    )
    yield from (change for change in found if _is_seen(change))


def _is_seen(change: OrderChange) -> bool:
    """Whether what is printed of it differs."""
    shown = [None if m is None else f"{m:.1f}" for m in (change.minutes_before, change.minutes_now)]
    return shown[0] != shown[1] or change.first_before != change.first_now


def _order(bench: Bench, complaint: Complaint | None) -> tuple[float | None, str | None]:
    if complaint is None:
        return None, None
    order = bench.diagnosed(complaint).order
    step = order.policy
    if isinstance(step, CheckNode):
        return order.expected_minutes, step.check
    return order.expected_minutes, step.remedy if isinstance(step, RemedyNode) else None


def _causes(complaint: Complaint | None) -> tuple[str, ...]:
    return tuple(sorted(complaint.rates)) if complaint else ()


def ambiguities(pairs: dict[tuple[str, str], Pair]) -> Iterator[Ambiguity]:
    """Groups with several remedies of which some two were told apart before, or were not both there."""
    for (family, symptom), (was, is_now) in pairs.items():
        old = [set(group) for group in _groups(was)] if was else []
        for group, share in (_groups(is_now) if is_now else {}).items():
            if was and not any(set(group) <= before for before in old):
                yield Ambiguity(family, symptom, group, share)


def _groups(complaint: Complaint) -> dict[tuple[str, ...], float]:
    """Groups of causes that no check tells apart and that have several remedies, with their share."""
    whole = fsum(h.share for h in complaint.case.hypotheses)
    groups = (group for group in ambiguity_groups(complaint.case) if group.remedy_size > 1)
    return {tuple(sorted(h.id for h in group.hypotheses)): group.weight / whole for group in groups}
