"""A set screw on the flat of a shaft, in section and to scale: seated, and backed off clear."""

from __future__ import annotations

from html import escape
from math import ceil, sqrt

from generator.analysis.fasteners.flats import (
    flat_depth,
    turns_to_clear,
    whole_quarters,
)
from generator.diagrams.screw_outline import Points, Scene, scene_of, screw, threaded
from generator.standards.threads import INCH, Thread

_WIDTH = 340
_SEATED, _RAISED = 96.0, 244.0  # middles of the two views
_HALF_VIEW = 70.0
_HEADING = 44
_LINE = 19.0


def svg(shaft_mm: float, flat_mm: float, thread: Thread, prefix: str = "flat-section") -> str:
    """The section as one inline SVG: type is 13 px where it is shown 340 px wide.

    `flat_mm` is the width of the flat. Colours stand in the style sheet (`reckoners.css`); hatching and
    dashes tell the parts apart without them. `prefix` keeps ids apart on one page. ValueError as `flat_depth`.
    """
    depth = flat_depth(shaft_mm, flat_mm)
    turns = whole_quarters(turns_to_clear(depth, float(thread.pitch_mm)))
    scene = scene_of(shaft_mm, flat_mm, depth, thread, turns)
    headings = _heading(_SEATED, "Seated", "on the flat") + _heading(_RAISED, "Backed off", _turns(turns))
    views = (
        _view(scene, _SEATED, 0, prefix)
        + _view(scene, _RAISED, scene.lift, prefix)
        + _flat_measure(scene)
        + _text(_RAISED, scene.flat + 20, "shaft", "", "middle")
        + _gap_measure("B", _SEATED - _HALF_VIEW, -1, scene.crown, scene.flat)
        + _gap_measure("C", _RAISED + _HALF_VIEW, 1, scene.flat - scene.lift, scene.flat)
    )
    drawing = f'{headings}<g transform="translate(0 {_HEADING})">{views}</g>'
    return _frame(prefix, scene, drawing, _legend(shaft_mm, flat_mm, depth, thread, turns))


def _view(scene: Scene, middle: float, lift: float, prefix: str) -> str:
    """Hub with its tapped hole, bore, shaft and the screw raised by `lift`."""
    head, point = scene.crown - scene.wall - lift, scene.flat - lift
    hole = threaded(scene, middle, 0, scene.hole_end)
    half, deep = scene.half_screw / 2, 0.8 * scene.half_screw
    view = f"{prefix}-raised" if lift else f"{prefix}-seated"
    return (
        f'<g clip-path="url(#{view})">'
        + f'<g fill="url(#{prefix}-hatch)">{_disc("hub", middle, scene.centre, scene.radius + scene.wall)}</g>'
        + f'<g clip-path="url(#{view}-hub)">{_polygon("bare", hole)}</g>'
        + _disc("bare", middle, scene.centre, scene.radius)
        + "</g>"
        + _shaft(scene, middle)
        + _path("crown", f"M{middle - _HALF_VIEW:.1f} {scene.crown:.1f}h{2 * _HALF_VIEW:.1f}")
        + _polygon("screw", screw(scene, middle, head, point))
        + _path("hidden", f"M{middle - half:.1f} {head:.1f}v{deep:.1f}h{2 * half:.1f}v{-deep:.1f}")
    )


def _shaft(scene: Scene, middle: float) -> str:
    """The shaft with the flat on top and a wavy break below."""
    half = sqrt(scene.radius**2 - (scene.bottom - scene.centre) ** 2)
    arc = f"A{scene.radius:.1f} {scene.radius:.1f} 0 0 1"
    return _path(
        "metal",
        f"M{middle - half:.1f} {scene.bottom:.1f}{arc} {middle - scene.half_flat:.1f} {scene.flat:.1f}"
        f"h{2 * scene.half_flat:.1f}{arc} {middle + half:.1f} {scene.bottom:.1f}"
        f"q{-half / 2:.1f} 8 {-half:.1f} 0t{-half:.1f} 0Z",
    )


def _flat_measure(scene: Scene) -> str:
    """Measure A, in the shaft under the flat."""
    left, right, y = _SEATED - scene.half_flat, _SEATED + scene.half_flat, scene.flat + 15
    ends = f"M{left:.1f} {scene.flat:.1f}V{y + 4:.1f}M{right:.1f} {scene.flat:.1f}V{y + 4:.1f}"
    line = _path("measure", f"{ends}M{left:.1f} {y:.1f}H{right:.1f}")
    heads = _path("arrow", f"M{left:.1f} {y:.1f}l5 -3v6ZM{right:.1f} {y:.1f}l-5 -3v6Z")
    return line + heads + _text(_SEATED, y + 17, "A", "head", "middle")


def _gap_measure(letter: str, edge: float, side: int, top: float, end: float) -> str:
    """Measures B and C, beside a view: the arrows point at the gap from outside, for it may be a hair."""
    x = edge + 10 * side
    lines = "".join(f"M{edge:.1f} {y:.1f}h{14 * side}" for y in (top, end))
    line = _path("measure", f"{lines}M{x:.1f} {top - 14:.1f}V{top:.1f}M{x:.1f} {end:.1f}V{end + 14:.1f}")
    heads = _path("arrow", f"M{x:.1f} {top:.1f}l-3 -5h6ZM{x:.1f} {end:.1f}l-3 5h6Z")
    return line + heads + _text(x, top - 19, letter, "head", "middle")


def _legend(
    shaft_mm: float, flat_mm: float, depth_mm: float, thread: Thread, turns: float
) -> tuple[tuple[str, str], ...]:
    """Letter and meaning, line by line."""
    lift = turns * float(thread.pitch_mm)
    return (
        ("A", f"flat {_both(flat_mm)} wide"),
        ("B", f"flat {_both(depth_mm)} deep"),
        ("C", f"point lifted {_both(lift)}"),
        ("", f"so clear of the round by {_both(lift - depth_mm)}"),
        ("", f"shaft {_both(shaft_mm)}"),
        ("", f"screw {thread.name}; all drawn to scale"),
    )


def _both(mm: float) -> str:
    return f"{mm:.2f}".rstrip("0").rstrip(".") + f" mm ({mm / float(INCH):.3f} in)"


def _turns(turns: float) -> str:
    whole, quarters = divmod(round(turns * 4), 4)
    said = (str(whole) if whole else "") + ("", "¼", "½", "¾")[quarters]
    return f"{said} {'turn' if turns <= 1 else 'turns'}"


def _frame(prefix: str, scene: Scene, drawing: str, legend: tuple[tuple[str, str], ...]) -> str:
    """Title, description and definitions around the drawing, the legend under it."""
    top = _HEADING + scene.bottom + 24
    height = ceil(top + _LINE * len(legend) - 10)
    lines = "".join(
        (_text(8, top + _LINE * row, letter, "head") if letter else "") + _text(26, top + _LINE * row, line)
        for row, (letter, line) in enumerate(legend)
    )
    told = "; ".join(f"{letter} {line}".strip() for letter, line in legend)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" id="{prefix}" class="hw-flat-section" viewBox="0 0 {_WIDTH} {height}" '
        f'role="img" aria-labelledby="{prefix}-title {prefix}-desc">'
        f'<title id="{prefix}-title">Set screw on the flat of a shaft, seated and backed off</title>'
        f'<desc id="{prefix}-desc">{escape(told)}.</desc>'
        f"<defs>{_definitions(prefix, scene)}</defs>{drawing}{lines}</svg>"
    )


def _definitions(prefix: str, scene: Scene) -> str:
    """The hub's hatching; for each view the window and, within it, the hub's outer round."""
    hatch = (
        f'<pattern id="{prefix}-hatch" width="6" height="6" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(45)"><path class="hatch" d="M0 0v6"/></pattern>'
    )
    window = f'y="0" width="{2 * _HALF_VIEW:.0f}" height="{scene.bottom:.1f}"'
    return hatch + "".join(
        f'<clipPath id="{prefix}-{name}"><rect x="{middle - _HALF_VIEW:.1f}" {window}/></clipPath>'
        f'<clipPath id="{prefix}-{name}-hub">{_disc("", middle, scene.centre, scene.radius + scene.wall)}</clipPath>'
        for name, middle in (("seated", _SEATED), ("raised", _RAISED))
    )


def _heading(x: float, first: str, second: str) -> str:
    return _text(x, 14, first, "head", "middle") + _text(x, 30, second, "", "middle")


def _text(x: float, y: float, words: str, look: str = "", anchor: str = "start") -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" class="{look}" text-anchor="{anchor}">{escape(words)}</text>'


def _path(look: str, data: str) -> str:
    return f'<path class="{look}" d="{data}"/>'


def _polygon(look: str, points: Points) -> str:
    return f'<polygon class="{look}" points="{" ".join(f"{x:.1f},{y:.1f}" for x, y in points)}"/>'


def _disc(look: str, x: float, y: float, radius: float) -> str:
    return f'<circle class="{look}" cx="{x:.1f}" cy="{y:.1f}" r="{radius:.1f}"/>'
