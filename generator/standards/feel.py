"""Play that is felt with the fingers: how to feel it, what is right, what is wrong."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FeelNote:
    """One kind of play at the bench."""

    id: str
    title: str
    how: str
    "What to do to feel or gauge it, power off."
    right: str
    wrong: str
    source: str


_UNPLUGGED = "Unplug the machine, needle out. "

FEEL_NOTES: tuple[FeelNote, ...] = (
    FeelNote(
        "end-play",
        "End play of a shaft",
        _UNPLUGGED + "Push and pull the shaft along its length with the belt slack or off. Turn it a little between tries. "
        "Set it with a collar pressed up by finger, its screw then tightened.",
        "Only a trace: you feel that it moves, you hardly see it. The shaft still turns freely all the way round.",
        "None at all, and it binds as it warms. Or a click you can see, and gears and hook wander along with it.",
        "common-practice",
    ),
    FeelNote(
        "backlash",
        "Backlash between gears",
        _UNPLUGGED + "Hold one gear still and rock the other. Try at four places round the wheel, for a gear may run out of true.",
        "A trace at the tightest place. It is felt and not heard.",
        "None at the tightest place: the gears bind, whine and wear. Plenty everywhere: timing wanders and the machine knocks.",
        "common-practice",
    ),
    FeelNote(
        "gear-mesh",
        "Depth of gear mesh",
        _UNPLUGGED + "Roll a strip of thin paper through the mesh by the hand wheel and look at the print of the teeth.",
        "The paper comes out creased evenly across the tooth, not cut. The hand wheel turns with the same ease all the way.",
        "Cut paper means too deep. A crease at one end of the tooth means the gear sits too far along its shaft.",
        "common-practice",
    ),
)
