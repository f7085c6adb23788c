"""What the browser alone reckons, once more in Python: needle sizes, thread sizes, a V-belt, what a set screw holds.

The vectors are made with these, and handbook values hold them: see make_reckoners.py.
"""

from __future__ import annotations

import re
from typing import Literal

from generator.standards.needles import NEEDLES

ThreadSystem = Literal["tex", "denier", "cotton", "metric", "ticket"]
NeedleSystem = Literal["metric", "american"]

_PER_TEX: dict[ThreadSystem, float] = {"tex": 1.0, "denier": 9.0}
_OVER_TEX: dict[ThreadSystem, float] = {"cotton": 590.5, "metric": 1000.0, "ticket": 3000.0}
_NEEDLE = re.compile(r"(\d{1,3})(?:\s*[/-]\s*(\d{1,3}))?")



def stitches_per_cm(length_mm: float) -> float:
    """Stitches per centimetre from the stitch length in mm.

    >>> stitches_per_cm(2.5)
    4.0
    """
    return 10 / _positive(length_mm, "The stitch length")


def blade_mm(metric: float) -> float:
    """Nominal blade diameter in mm of a metric needle number.

    >>> blade_mm(90)
    0.9
    """
    return _positive(metric, "A needle number") / 100


def metric_needle(american: int) -> int:
    """Metric number of an older American needle size; ValueError names the nearest size.

    Below 19: 60 + 5 (size - 8). Above, the numbers are no longer in step and come from the table.

    >>> metric_needle(14)
    90
    """
    return _paired({n.american: n.metric for n in NEEDLES}, american, "older American", "metric")


def american_needle(metric: int) -> int:
    """Older American size of a metric needle number; ValueError names the nearest number.

    >>> american_needle(80)
    12
    """
    return _paired({n.metric: n.american for n in NEEDLES}, metric, "metric", "older American")


def needle_pair(text: str, given: NeedleSystem) -> tuple[int, int]:
    """Metric and older American number of a needle, from one number of the system or from both, 80/12 or 12/80.

    ValueError in a sentence where it is no needle of the table, or the two numbers do not agree.

    >>> needle_pair("14", "american"), needle_pair("80/12", "metric")
    ((90, 14), (80, 12))
    """
    written = _NEEDLE.fullmatch(text.strip())
    if written is None:
        raise ValueError("Write a needle number, such as 80, 12 or 80/12.")
    numbers = [int(n) for n in written.groups() if n]
    if len(numbers) == 1:
        metric = numbers[0] if given == "metric" else metric_needle(numbers[0])
        return metric, american_needle(metric)
    metric, american = max(numbers), min(numbers)
    if american_needle(metric) != american:
        raise ValueError(f"{metric} goes with {american_needle(metric)}, not with {american}: read the packet again.")
    return metric, american


def thread_size(value: float, given: ThreadSystem, wanted: ThreadSystem) -> float:
    """A thread size in another system.

    tex = g/km (ISO 1144); denier = 9 tex; cotton count = 590.5 / tex; metric count = 1000 / tex; ticket number
    of synthetic thread = 3 x 1000 / tex (practice of the trade, from memory). In the counts and the ticket number
    a larger number is a finer thread.

    >>> thread_size(30, "tex", "denier"), round(thread_size(50, "cotton", "tex"), 2)
    (270.0, 11.81)
    """
    _positive(value, "A thread size")
    tex = value / _PER_TEX[given] if given in _PER_TEX else _OVER_TEX[given] / value
    return tex * _PER_TEX[wanted] if wanted in _PER_TEX else _OVER_TEX[wanted] / tex


def whole_thread(size: float, plies: int, given: ThreadSystem) -> float:
    """The size of the whole thread where a label gives size and plies, as in 60/3.

    Cotton and metric count and denier give the single yarn. Tex so written is of the whole thread (R 60 tex/3,
    ISO 1139, from memory), and so is the ticket number.

    >>> whole_thread(60, 3, "metric"), whole_thread(210, 3, "denier"), whole_thread(60, 3, "tex")
    (20.0, 630.0, 60.0)
    """
    _positive(size, "A thread size")
    _positive(plies, "The number of plies")
    if given in ("cotton", "metric"):
        return size / plies
    return float(size * plies) if given == "denier" else float(size)


def v_belt_deflection(span: float) -> float:
    """How far a V-belt should give at mid-span under a light push, span / 64; any one unit of length.

    Plant maintenance handbooks. For toothed belts follow the machine's own service data.

    >>> v_belt_deflection(160)
    2.5
    """
    return _positive(span, "The span") / 64


def holding_torque(force: float, shaft_diameter: float) -> float:
    """Torque at which a set screw slips round its shaft, T = F d / 2, in the units of force times length.

    Shigley, Mechanical Engineering Design.

    >>> holding_torque(160, 0.25)
    20.0
    """
    if force <= 0 or shaft_diameter <= 0:
        raise ValueError("The force and the shaft diameter must be more than zero.")
    return force * shaft_diameter / 2


def _paired(pairs: dict[int, int], size: int, name: str, other: str) -> int:
    if size in pairs:
        return pairs[size]
    if size in pairs.values():
        twin = next(known for known, paired in pairs.items() if paired == size)
        raise ValueError(f"{size:g} is no {name} needle size: as the {other} one it is {max(size, twin)}/{min(size, twin)}.")
    near = min(pairs, key=lambda known: (abs(known - size), known))
    raise ValueError(f"{size:g} is no {name} needle size in the table: the nearest is {near}.")


def _positive(value: float, name: str) -> float:
    if not 0 < value < float("inf"):
        raise ValueError(f"{name} must be more than zero, not {value:g}.")
    return value


def from_ten(length: float) -> float:
    """Stitch length in mm from the length of ten stitches.

    >>> from_ten(25.4)
    2.54
    """
    return length / 10


def differential(front: float, rear: float) -> float:
    """Differential ratio: what the front dog goes for what the rear one goes, in the same stitches."""
    if rear <= 0:
        raise ValueError("The rear dog must go more than nothing: look at the length again.")
    return front / rear
