"""Quantities as people write them: a number and a unit, "3/32 in", "0.7 mm", "6 spi"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction

_INCH = Fraction("25.4")  # exact since 1959
_LBF = Fraction("4.4482216152605")  # exact: 0.45359237 kg x 9.80665 m/s2

UNITS: dict[str, tuple[str, Fraction]] = {
    "mm": ("length", Fraction(1)),
    "cm": ("length", Fraction(10)),
    "m": ("length", Fraction(1000)),
    "in": ("length", _INCH),
    "s": ("time", Fraction(1)),
    "min": ("time", Fraction(60)),
    "h": ("time", Fraction(3600)),
    "g": ("mass", Fraction(1)),
    "kg": ("mass", Fraction(1000)),
    "N": ("force", Fraction(1)),
    "cN": ("force", Fraction(1, 100)),
    "gf": ("force", Fraction("0.00980665")),
    "lbf": ("force", _LBF),
    "N·m": ("torque", Fraction(1)),
    "mN·m": ("torque", Fraction(1, 1000)),
    "lbf·in": ("torque", _LBF * _INCH / 1000),
    "deg": ("angle", Fraction(1)),
    "turns": ("angle", Fraction(360)),
    "spi": ("stitches per length", 1 / _INCH),
    "spcm": ("stitches per length", Fraction(1, 10)),
    "tex": ("thread size", Fraction(1)),
    "dtex": ("thread size", Fraction(1, 10)),
    "den": ("thread size", Fraction(1, 9)),
    "rpm": ("speed of rotation", Fraction(1)),
    "spm": ("sewing speed", Fraction(1)),
    "V": ("voltage", Fraction(1)),
    "mA": ("current", Fraction(1, 1000)),
    "A": ("current", Fraction(1)),
    "W": ("power", Fraction(1)),
    "ohm": ("resistance", Fraction(1)),
    "kohm": ("resistance", Fraction(1000)),
    "Mohm": ("resistance", Fraction(1000000)),
    "µF": ("capacitance", Fraction(1)),
    "Hz": ("frequency", Fraction(1)),
    "°C": ("temperature", Fraction(1)),
    "%": ("share", Fraction(1)),
    "drops": ("drops", Fraction(1)),
    "teeth": ("teeth", Fraction(1)),
    "stitches": ("stitches", Fraction(1)),
}
"Unit -> what it measures, and how many of that measure's base unit it is."

ALIASES: dict[str, str] = {
    '"': "in",
    "inch": "in",
    "N m": "N·m",
    "mN m": "mN·m",
    "lbf in": "lbf·in",
    "°": "deg",
    "turn": "turns",
    "drop": "drops",
    "tooth": "teeth",
    "Ω": "ohm",
    "kΩ": "kohm",
    "MΩ": "Mohm",
    "uF": "µF",
}
"Other ways to write a unit -> the unit."

NUMBER = r"[0-9]+[ -][0-9]+/[1-9][0-9]*|[0-9]+/[1-9][0-9]*|[0-9]+[.,][0-9]+|[.,][0-9]+|[0-9]+"
"A number as written at the bench: 3, 0.7, 0,7, .035, 3/32, 1 1/4, 1-1/4. Both Python and JavaScript read it."

PATTERN = f"^(-?)({NUMBER}) ?({'|'.join((*UNITS, *ALIASES))})$"
"What `Quantity.parse` accepts, for a JSON Schema `pattern`."

_READ = re.compile(PATTERN)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its unit. 1 in and 25.4 mm are not equal as written; compare them with `to`."""

    value: Fraction
    "Exact, in `unit`."
    unit: str
    "A key of `UNITS`."

    @classmethod
    def parse(cls, text: str) -> Quantity:
        """Read "3/32 in", "1 1/4 in", "0,7 mm" or "6 spi"; ValueError says what to write instead.

        >>> Quantity.parse("1 1/4 in").to("mm")
        Quantity(value=Fraction(127, 4), unit='mm')
        >>> str(Quantity.parse("0,7mm"))
        '0.7 mm'
        """
        match = _READ.fullmatch(text.strip())
        if match is None:
            raise ValueError(_complaint(text))
        sign, number, unit = match.groups()
        value = parse_number(number)
        return cls(-value if sign else value, ALIASES.get(unit, unit))

    @property
    def dimension(self) -> str:
        """What is measured, such as "length" or "torque"."""
        return UNITS[self.unit][0]

    def to(self, unit: str) -> Quantity:
        """The same in another unit of the same dimension, exactly; ValueError for any other unit."""
        dimension, factor = UNITS.get(unit, ("", Fraction(1)))
        if dimension != self.dimension:
            raise ValueError(f"{self} is a {self.dimension} and cannot be given in {unit!r}.")
        return Quantity(self.value * UNITS[self.unit][1] / factor, unit)

    def number(self, unit: str) -> float:
        """How many of `unit`, as a float."""
        return float(self.to(unit).value)

    def __str__(self) -> str:
        """Canonical text: `Quantity.parse(str(q)) == q`. Inches stay fractions where they are ones."""
        return f"{format_number(self.value, fractions=self.unit == 'in')} {self.unit}"


def parse_number(text: str) -> Fraction:
    """The exact value of a number written in any form of `NUMBER`.

    >>> parse_number("1-1/4"), parse_number(",5")
    (Fraction(5, 4), Fraction(1, 2))
    """
    if "/" not in text:
        return Fraction(text.replace(",", "."))
    whole, _, rest = text.replace("-", " ").rpartition(" ")
    return Fraction(whole or 0) + Fraction(rest)


def format_number(value: Fraction, fractions: bool = False) -> str:
    """A decimal where it ends, else a fraction; with `fractions`, halves to 128ths stay fractions.

    >>> format_number(Fraction(5, 4)), format_number(Fraction(5, 4), fractions=True)
    ('1.25', '1 1/4')
    """
    sign, size = ("-" if value < 0 else ""), abs(value)
    decimal = _ending_decimal(size)
    if size.denominator == 1:
        return f"{sign}{size}"
    if decimal and not (fractions and 128 % size.denominator == 0):
        return sign + decimal
    whole, rest = divmod(size, 1)
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"


def _ending_decimal(size: Fraction) -> str:
    """All decimals of a number that ends, or nothing for one that goes on for ever."""
    places, scaled = 0, size
    while scaled.denominator != 1:
        divisor = next((p for p in (10, 2, 5) if scaled.denominator % p == 0), None)
        if divisor is None:
            return ""
        scaled, places = scaled * 10, places + 1
    digits = str(scaled.numerator).rjust(places + 1, "0")
    return f"{digits[:-places]}.{digits[-places:]}" if places else digits


def _complaint(text: str) -> str:
    example = "a number and a unit, such as '3/32 in', '0.7 mm' or '6 spi'"
    match = re.fullmatch(rf"-?(?:{NUMBER}) ?(\S.*)", text.strip())
    if match is None:
        return f"{text!r} is no quantity: write {example}."
    near = get_close_matches(match[1], (*UNITS, *ALIASES), n=1, cutoff=0.5)
    hint = f" Did you mean {near[0]!r}?" if near else ""
    return f"{text!r} has no unit that is known here: write {example}.{hint}"
