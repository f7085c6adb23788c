"""Symptoms in the groups of the lists."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.records.model import Symptom

GROUPS = {
    "stitch": "Stitch",
    "running": "Running",
    "feed": "Feed",
    "zigzag": "Zigzag and patterns",
    "bobbin-and-foot": "Bobbin and foot",
    "oil": "Oil",
    "overlock": "Overlock",
    "other": "Other",
}


@dataclass(frozen=True, slots=True)
class Group:
    """One group of symptoms."""

    id: str
    title: str
    symptoms: tuple[Symptom, ...]


def grouped(symptoms: Iterable[Symptom]) -> tuple[Group, ...]:
    """Groups that hold anything, in the order of the lists; symptoms by title."""
    by_title = sorted(symptoms, key=lambda s: (s.title.lower(), s.id))
    groups = (
        Group(name, title, tuple(s for s in by_title if (s.group or "other") == name))
        for name, title in GROUPS.items()
    )
    return tuple(group for group in groups if group.symptoms)
