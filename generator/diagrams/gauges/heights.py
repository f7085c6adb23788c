"""A height above a face, or a depth below it, drawn at its least and at its most."""

from __future__ import annotations

from generator.diagrams import draw
from generator.diagrams.draw import num
from generator.diagrams.gauges import sheet
from generator.diagrams.gauges.sheet import LEFT, PX_PER_MM, ROW, TOP, WIDE, Measure

_ROOM = 44.0
_BODY = 24.0
"Height of what is measured, px."
_THICK = 7.0
_HALF = 26.0
_COLUMN = WIDE / 2
_BELOW = {"eye-height": 25.0, "teeth-height": 10.0}
"How far a body goes on under where it is measured, px."


def svg(measure: Measure, prefix: str, shape: str) -> str:
    """`shape` is height, foot-height, point-height, eye-height, teeth-height or depth; lengths of the measure in mm."""
    scale = sheet.scale_for(max(abs(measure.low), abs(measure.high)), _ROOM)
    sign = -1 if shape == "depth" else 1
    lengths = [sign * mm * scale * PX_PER_MM for mm in (measure.low, measure.high)]
    above, below = max(0.0, *lengths), max(_THICK, *(_BELOW.get(shape, 0.0) - px for px in lengths))
    face = TOP + ROW + above + (_BODY if sign > 0 else 2)
    under = below + (_BODY if sign < 0 else 2)
    columns = "".join(
        _column(shape, LEFT + _COLUMN * (n + 0.5), face, px) for n, px in enumerate(lengths)
    )
    titles = "".join(
        sheet.small([f"{word} {sheet.figure(mm, measure.unit)}"], LEFT + _COLUMN * (n + 0.5), TOP, middle=True)
        for n, (word, mm) in enumerate((("least", measure.low), ("most", measure.high)))
    )
    foot = (_names(measure, sign), sheet.scale_line(scale, measure.tool))
    says = sheet.said(measure, scale)
    return sheet.svg(prefix, f"Height of {measure.of}", says, columns + titles, face + under - TOP, foot)


def _names(measure: Measure, sign: int) -> str:
    return f"{measure.of} {'above' if sign > 0 else 'below'} {measure.to}"


def _column(shape: str, middle: float, face: float, px: float) -> str:
    """The face, and what stands `px` above it."""
    y = face - px
    gap = {"point-height": 9.0, "eye-height": 9.0, "teeth-height": 15.0}.get(shape, 0.0)
    block = ""
    if shape == "foot-height" and px > 0:
        block = draw.path(f"M{num(middle - 10)} {num(y)}H{num(middle + 12)}V{num(face)}H{num(middle - 10)}Z", "gate leaf")
    return _face(middle, face, gap) + block + draw.path(_OUTLINES[shape](middle, y, face), "box body")


def _face(middle: float, face: float, gap: float) -> str:
    """The face from which is measured, with an opening where something passes it."""
    sides = ((middle - _HALF - 4, middle - gap), (middle + gap, middle + _HALF + 4))
    return "".join(
        draw.path(f"M{num(left)} {num(face)}H{num(right)}V{num(face + _THICK)}H{num(left)}Z", "box face") for left, right in sides
    )


def _block(middle: float, y: float, _face: float) -> str:
    return f"M{num(middle - 18)} {num(y)}H{num(middle + 18)}V{num(y - _BODY)}H{num(middle - 18)}Z"


def _foot(middle: float, y: float, _face: float) -> str:
    """A sole with its toe turned up."""
    return (
        f"M{num(middle - 14)} {num(y)}H{num(middle + 24)}V{num(y - 6)}H{num(middle + 8)}V{num(y - _BODY)}"
        f"H{num(middle - 2)}V{num(y - 6)}H{num(middle - 20)}L{num(middle - 24)} {num(y - 10)}V{num(y - 6)}Z"
    )


def _point(middle: float, y: float, _face: float) -> str:
    return f"M{num(middle)} {num(y)}L{num(middle + 5)} {num(y - 10)}V{num(y - _BODY)}H{num(middle - 5)}V{num(y - 10)}Z"


def _eye(middle: float, y: float, _face: float) -> str:
    """A needle down through the face, the top of its eye at `y`."""
    hole = f"M{num(middle - 2)} {num(y)}h4v10h-4Z"
    needle = f"M{num(middle - 5)} {num(y - _BODY)}h10v{num(_BODY + 14)}l-5 9l-5 -9Z"
    return needle + hole


def _teeth(middle: float, y: float, face: float) -> str:
    """A dog whose teeth stand above the face and whose body goes down through it."""
    crests = "".join(f"L{num(middle - 12 + 6 * n)} {num(y)}L{num(middle - 12 + 6 * (n + 1))} {num(y + 5)}" for n in range(4))
    bottom = max(face + _THICK, y + _BELOW["teeth-height"])
    return f"M{num(middle - 12)} {num(y + 5)}{crests}V{num(bottom)}H{num(middle - 12)}Z"


def _below(middle: float, y: float, _face: float) -> str:
    return f"M{num(middle - 18)} {num(y)}H{num(middle + 18)}V{num(y + _BODY)}H{num(middle - 18)}Z"


_OUTLINES = {"height": _block, "foot-height": _foot, "point-height": _point, "eye-height": _eye, "teeth-height": _teeth, "depth": _below}
