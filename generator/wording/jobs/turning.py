"""How a machine is turned over, and by how many people."""

from __future__ import annotations

from generator.analysis.job.types import UPRIGHT
from generator.records.model import Family, Records
from generator.standards.quantity import Quantity

_ALONE_KG = 23
"Least weight for two people: the load constant of the revised NIOSH lifting equation; from memory."


def turn_words(records: Records) -> dict[str, str]:
    """How the machine lies -> what to do to bring it there."""
    return {UPRIGHT: "Stand the machine upright."} | {p.id: p.turn for p in records.positions.values()}


def leaving_words(records: Records) -> dict[str, str]:
    """How the machine lies -> what to see to before it leaves that, where there is anything."""
    return {p.id: p.leaving for p in records.positions.values() if p.leaving}


def lift_words(family: Family) -> str:
    """What the head weighs, and from what weight one pair of hands is not enough."""
    if family.weight is None:
        return "A heavy head takes two people."
    alone = Quantity.parse(family.weight).number("kg") < _ALONE_KG
    return f"The head weighs {family.weight}{'' if alone else ': two people'}."
