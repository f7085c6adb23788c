"""The flat on a shaft under a set screw, and how far to back the screw off to clear it."""

from __future__ import annotations

from math import ceil, sqrt

MARGIN_MM = 0.25
"""How far beyond the round of the shaft the point should stand, mm.

For the burr that a cup point raises round its seat; an estimate, from memory.
"""

_HAIR = 1e-9  # what floating point may leave over a whole quarter turn

_NUMBERS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
_QUARTERS = ("", "a quarter", "a half", "three quarters")


def flat_depth(diameter: float, width: float) -> float:
    """Depth of a flat of the given width on a round shaft; any one unit of length.

    h = r - sqrt(r^2 - (w/2)^2), the sagitta of the chord w. ValueError if the flat is wider than the shaft.

    >>> flat_depth(20, 12), round(flat_depth(30, 20), 2)
    (2.0, 3.82)
    """
    _positive(diameter=diameter, width=width)
    if width > diameter:
        raise ValueError(f"A flat {width:g} wide does not go on a shaft {diameter:g} thick: measure both again.")
    return (diameter - sqrt(diameter**2 - width**2)) / 2


def flat_width(diameter: float, depth: float) -> float:
    """Width of a flat of the given depth, w = 2 sqrt(h (D - h)); ValueError if it goes past the middle.

    >>> flat_width(20, 2)
    12.0
    """
    _positive(diameter=diameter, depth=depth)
    if depth > diameter / 2:
        raise ValueError(
            f"A flat {depth:g} deep goes past the middle of a shaft {diameter:g} thick: measure both again."
        )
    return 2 * sqrt(depth * (diameter - depth))


def turns_to_clear(depth: float, pitch: float, margin: float = MARGIN_MM) -> float:
    """Turns that lift a screw's point out of a flat and the margin beyond: (depth + margin) / pitch, in mm.

    >>> round(turns_to_clear(0.536, 0.79375), 2)
    0.99
    """
    _positive(pitch=pitch)
    if depth < 0 or margin < 0:
        raise ValueError("A depth and a margin are zero or more.")
    return (depth + margin) / pitch


def whole_quarters(turns: float) -> float:
    """Rounded up to the next quarter turn, as a hand can count it.

    >>> whole_quarters(0.99), whole_quarters(1.25), whole_quarters(1.26)
    (1.0, 1.25, 1.5)
    """
    return ceil(turns * 4 - _HAIR) / 4


def safe_turns(turns: float) -> int:
    """The next whole number of turns above the quarters, and never under two (common practice)."""
    return max(2, int(whole_quarters(turns)) + 1)


def advice(turns: float) -> str:
    """What to do, in words.

    >>> advice(1.2)
    'Clear of the flat after one and a quarter turns. Give it two turns, or take it right out if in doubt.'
    """
    clear, give = turns_in_words(whole_quarters(turns)), turns_in_words(safe_turns(turns))
    return f"Clear of the flat after {clear}. Give it {give}, or take it right out if in doubt."


def lift_in_words(depth: float, thread: str, pitch: float) -> str:
    """The figures behind the advice; depth and pitch in mm.

    >>> lift_in_words(0.536, "10-32", 0.79375)
    'The flat is 0.54 mm deep, and a turn of 10-32 lifts the screw 0.79 mm.'
    """
    return f"The flat is {depth:.2f} mm deep, and a turn of {thread} lifts the screw {pitch:.2f} mm."


def turns_in_words(turns: float) -> str:
    """Quarter turns as they are said at the bench.

    >>> turns_in_words(0.5), turns_in_words(1), turns_in_words(2.75)
    ('half a turn', 'one turn', 'two and three quarters turns')
    """
    whole, quarters = divmod(round(turns * 4), 4)
    if whole == 0 and quarters:
        return ("a quarter of a turn", "half a turn", "three quarters of a turn")[quarters - 1]
    said = _number(whole) + (f" and {_QUARTERS[quarters]}" if quarters else "")
    return f"{said} {'turn' if turns == 1 else 'turns'}"


def _number(whole: int) -> str:
    return _NUMBERS[whole] if whole < len(_NUMBERS) else str(whole)


def _positive(**lengths: float) -> None:
    for name, length in lengths.items():
        if not 0 < length < float("inf"):
            raise ValueError(f"The {name} must be more than zero, not {length:g}.")
