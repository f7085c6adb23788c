"""What a plate on a motor says of its windings: an upper bound from Ohm's law, reckoned and not measured."""

from __future__ import annotations


def running_current(watts: float, volts: float) -> float:
    """Amperes at most that the plate's watts allow, P / V.

    >>> running_current(90, 230) < 0.4
    True
    """
    return watts / volts


def resistance_below(watts: float, volts: float) -> float:
    """Ohms that a cold winding stays below, V^2 / P.

    A motor that took its watts in a plain resistance would have as much; a motor that turns makes a voltage of
    its own against the mains, and has less.

    >>> round(resistance_below(90, 230)), round(resistance_below(90, 120))
    (588, 160)
    """
    return volts**2 / watts
