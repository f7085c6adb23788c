"""Thread notation as people write it, read into a `Thread`."""

from __future__ import annotations

import re
from difflib import get_close_matches

from generator.standards.quantity import format_number, parse_number
from generator.standards.threads import (
    COARSE_PITCH,
    THREADS,
    UNIFIED_PITCHES,
    Thread,
    inch_thread,
    metric_thread,
)

_DECIMAL = r"[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+"
_BETWEEN = r"\s*[-x×*]\s*"
_METRIC = re.compile(rf"M\s*({_DECIMAL})(?:{_BETWEEN}({_DECIMAL})\s*(?:mm)?)?", re.IGNORECASE)
_SIZE = r"(?:#|No\.?\s*)?([0-9]{1,2})|((?:[0-9]+[ -])?[0-9]+/[1-9][0-9]*)\s*(?:\"|″|in)?"
_INCH = re.compile(
    rf"(?:{_SIZE}){_BETWEEN}([0-9]{{1,3}})\s*(?:tpi)?\s*(UNC|UNF|UNS)?(?:\s*-?\s*[123][AB])?", re.IGNORECASE
)
_SIZE_ALONE = re.compile(rf"(?:{_SIZE})\s*(?:UNC|UNF)?", re.IGNORECASE)
_LARGEST_NUMBER = 30
# Wider than any screw at this bench; a slip of the pen lies outside.
_FINEST_MM = 0.05
_THICKEST_MM = 100

EXAMPLES = "'10-32', '1/4-20', '11/64-40', 'M4' or 'M4x0.5'"


def parse_thread(text: str) -> Thread:
    """Read a thread; ValueError says what is wrong with it and what to write.

    The numbers are exact. A thread that no table lists is of the series "unknown".

    >>> parse_thread("No. 10-32 UNF").name, parse_thread("M4 × 0,7").name, parse_thread('3/32"-56').series
    ('10-32', 'M4', 'trade')
    >>> float(parse_thread("11/64 x 40").pitch_mm)
    0.635
    """
    given = text.strip()
    if match := _METRIC.fullmatch(given):
        return _sane(_metric(given, *match.groups()), given)
    if match := _INCH.fullmatch(given):
        return _sane(_inch(given, *match.groups()), given)
    raise ValueError(_complaint(given))


def threads_like(thread: Thread, count: int = 3) -> tuple[Thread, ...]:
    """The listed threads nearest in diameter and pitch, itself left out, nearest first."""

    def distance(other: Thread) -> tuple[float, str]:
        diameter = abs(other.diameter_mm - thread.diameter_mm) / thread.diameter_mm
        pitch = abs(other.pitch_mm - thread.pitch_mm) / thread.pitch_mm
        return float(diameter + pitch), other.name

    others = (other for other in THREADS.values() if other.name != thread.name)
    return tuple(sorted(others, key=distance)[:count])


def _metric(given: str, diameter_text: str, pitch_text: str | None) -> Thread:
    diameter = parse_number(diameter_text)
    pitch = parse_number(pitch_text) if pitch_text else COARSE_PITCH.get(diameter)
    if pitch is None:
        near = min(COARSE_PITCH, key=lambda d: (abs(d - diameter), d))
        raise ValueError(
            f"thread {given!r} has no coarse pitch in the table: write the pitch too, as in "
            f"'M{format_number(diameter)}x{format_number(COARSE_PITCH[near])}', or did you mean 'M{format_number(near)}'?"
        )
    thread = metric_thread(diameter, pitch, "unknown", "")
    return THREADS.get(thread.name, thread)


def _inch(given: str, number: str | None, fraction: str | None, per_inch: str, form: str | None) -> Thread:
    if int(per_inch) == 0:
        raise ValueError(f"thread {given!r} has no turns to the inch: write it like {EXAMPLES}.")
    size = _number(given, number) if number else _fraction(fraction or "")
    thread = inch_thread(size, int(per_inch), "unknown", "")
    _check_form(given, size, int(per_inch), (form or "").upper())
    return THREADS.get(thread.name, thread)


def _number(given: str, number: str) -> str:
    if int(number) > _LARGEST_NUMBER:
        raise ValueError(f"thread {given!r}: number sizes end at {_LARGEST_NUMBER}; write it like {EXAMPLES}.")
    return str(int(number))


def _fraction(text: str) -> str:
    """In lowest terms, mixed; a whole inch keeps a denominator, or it would read as a number size."""
    value = parse_number(text)
    whole, rest = divmod(value, 1)
    if rest == 0:
        return f"{whole}/1"
    return f"{whole} {rest}" if whole else str(rest)


def _check_form(given: str, size: str, per_inch: int, form: str) -> None:
    """UNC or UNF written after a pitch of the other form is a slip worth stopping at."""
    coarse, fine = UNIFIED_PITCHES.get(size, (None, None))
    wanted = {"UNC": coarse, "UNF": fine}.get(form, per_inch)
    if wanted != per_inch:
        mend = f"the {form} thread of that size is '{size}-{wanted}'" if wanted else f"that size has no {form} thread"
        raise ValueError(f"thread {given!r} is not {form}: {mend}.")


def _sane(thread: Thread, given: str) -> Thread:
    if not (_FINEST_MM <= thread.pitch_mm < thread.diameter_mm <= _THICKEST_MM):
        raise ValueError(
            f"thread {given!r} cannot be right: it would be {float(thread.diameter_mm):.3g} mm thick with a pitch of "
            f"{float(thread.pitch_mm):.3g} mm. A pitch is at least {_FINEST_MM} mm and less than the diameter, "
            f"a screw at most {_THICKEST_MM} mm thick."
        )
    return thread


def _complaint(given: str) -> str:
    if match := re.fullmatch(r"#?([0-9]{1,2})\s*/\s*([0-9]{2})", given):
        swapped = f"{match[1]}-{match[2]}"
        if swapped in THREADS:
            return f"thread {given!r} reads as a fraction: for size {match[1]}, {match[2]} to the inch, write {swapped!r}."
    if match := _SIZE_ALONE.fullmatch(given):
        return _without_pitch(given, match[1] or _fraction(match[2]))
    near = get_close_matches(given, list(THREADS), n=3, cutoff=0.5)
    hint = f" Near ones: {', '.join(map(repr, near))}." if near else ""
    return f"{given!r} is no thread: write it like {EXAMPLES}.{hint}"


def _without_pitch(given: str, size: str) -> str:
    names = [name for name in THREADS if name.rpartition("-")[0] == size]
    mend = f"write {' or '.join(map(repr, names))}" if names else f"write it like {EXAMPLES}"
    return f"thread {given!r} gives no turns to the inch: {mend}."
