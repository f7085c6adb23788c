"""The joints of a job sheet: what the hands need of the family's fastener chart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.analysis.fasteners.flats import safe_turns, turns_in_words
from generator.bench.fastener_facts import fastener_facts
from generator.family_view import FamilyView
from generator.records.model import Fastener
from generator.wording import words
from generator.wording.joints import joint_title
from generator.wording.links import Links


@dataclass(frozen=True, slots=True)
class JointView:
    """A joint undone or done up."""

    title: str
    href: str
    "Its entry in the family's fastener chart."
    facts: tuple[str, ...]
    "Count and kind, key, seat, how far to back it out; only what the chart has."


def joint_cautions(view: FamilyView, joints: Sequence[str]) -> Iterator[str]:
    """Ids of the cautions that the chart has for the joints."""
    for joint in joints:
        if joint in view.fasteners:
            yield from view.fasteners[joint].cautions


def joint_view(view: FamilyView, joint: str, link: Links) -> JointView:
    """The joint as a step shows it, with the way to its entry in the chart."""
    note = view.fasteners.get(joint)
    if note is None:
        return JointView(words.spaced(joint).capitalize(), "", ("not on the chart yet: write down what you find",))
    return JointView(joint_title(note), f"{link('fasteners', view.id)}#{joint}", tuple(_facts(note)))


def _facts(note: Fastener) -> Iterator[str]:
    """What the hands need of a chart's entry."""
    yield f"{note.count} × {note.kind}" if note.count else note.kind
    if note.drive:
        yield note.drive
    if note.hand == "left":
        yield "**left-hand thread**"
    if note.seats_on in ("flat", "groove", "dimple", "round", "taper"):
        yield f"seats on the {note.seats_on}"
    if note.first_in_rotation:
        yield f"first in the direction of rotation: {note.first_in_rotation}"
    if turns := fastener_facts(note).turns:
        yield f"back out {turns_in_words(safe_turns(turns))}"
    if note.loose:
        yield f"can fall out: {words.listed(note.loose)}"


def seat_again(note: Fastener) -> str:
    """How the joint is done up, where it matters which screw goes where or how tight."""
    first = f"first in the direction of rotation {note.first_in_rotation}" if note.first_in_rotation else ""
    left = "left-hand thread" if note.hand == "left" else ""
    said = "; ".join(filter(None, (first, left, note.torque or "")))
    return f"{joint_title(note)}: {said.rstrip('.')}." if said else ""
