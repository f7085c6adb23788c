"""Fastener notes, tallies, techniques and the shop's own figures, as the schema has them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Flat:
    """The flat on a shaft: one of its two measures."""

    width: str | None = None
    "Width across the flat: a length as written."
    depth: str | None = None
    "Depth below the round: a length as written."


@dataclass(frozen=True, slots=True)
class Fastener:
    """The fastener note of one joint of one family."""

    joint: str
    "Id of the joint, as parts and settings name it."
    kind: str
    "What kind of fastener, in words."
    title: str | None = None
    "The joint in words."
    thread: str | None = None
    "The thread as people write it."
    length: str | None = None
    "Length under the head, or overall for a set screw: a length as written."
    drive: str | None = None
    "What turns it: size and shape."
    count: int | None = None
    "How many."
    hand: str | None = None
    '"right" or "left": which way the thread runs.'
    seats_on: str | None = None
    "What it bears on: flat, round, groove, dimple, taper, face, clearance, thread."
    shaft: str | None = None
    "Diameter of the shaft: a length as written."
    flat: Flat | None = None
    "The flat that it seats on."
    first_in_rotation: str | None = None
    "Where the first screw in the direction of rotation seats."
    torque: str | None = None
    "How tight, in words."
    note: str | None = None
    "Markdown."
    loose: tuple[str, ...] = ()
    "Small pieces that can fall out with it, in words."
    cautions: tuple[str, ...] = ()
    "Ids of cautions."
    key_confirmed: bool = False
    "Whether the key was tried and does differ from the standard."
    key_reason: str | None = None
    "Markdown: why the key differs."
    source: str | None = None
    "Id of a source."


@dataclass(frozen=True, slots=True)
class Found:
    """How often one failure mode was found behind one complaint."""

    mode: str
    "Id of the failure mode."
    count: int
    "Machines that had it."
    symptom: str | None = None
    "Id of the complaint; None: not known."


@dataclass(frozen=True, slots=True)
class Took:
    """How long finished jobs with one cause took."""

    mode: str
    "Id of the failure mode."
    minutes: tuple[float, ...]
    "A figure a job, from the first look to the proved machine."


@dataclass(frozen=True, slots=True)
class Tally:
    """What one shop found on one family in one period."""

    id: str
    "File name."
    family: str
    "Id of the family."
    machines: int
    "Machines of the family seen in that time."
    found: tuple[Found, ...]
    "What they had. A complaint that is named is counted whole."
    shop: str | None = None
    "The shop."
    period: str | None = None
    "When, in words."
    took: tuple[Took, ...] = ()
    "Minutes of finished jobs, a line for each failure mode."
    note: str | None = None
    "Markdown."


@dataclass(frozen=True, slots=True)
class TechniqueStep:
    """One step of a technique."""

    do: str
    "Markdown."
    caution: str | None = None
    "Id of a caution that stands before it."
    minutes: float = 0
    "Bench minutes, waiting included."
    stop_if: str | None = None
    "Markdown: when to go no further."


@dataclass(frozen=True, slots=True)
class Technique:
    """A way of working that plans call on."""

    id: str
    "File name."
    title: str
    "The name that a reader sees."
    use_when: str
    "Markdown."
    steps: tuple[TechniqueStep, ...]
    "Gentle first, firm last."
    cautions: tuple[str, ...] = ()
    "Ids of cautions."
    tools: tuple[str, ...] = ()
    "Ids of tools."
    done_when: str | None = None
    "Markdown: how to know that it is done."
    source: str | None = None
    "Id of a source."
    was: tuple[str, ...] = ()
    "Ids that it had before."


@dataclass(frozen=True, slots=True)
class ClosingTest:
    """Something that is sewn before a machine goes home."""

    sew: str
    "What to sew or look at, without its full stop."
    minutes: float = 1
    "What it takes."
    figure: str | None = None
    "A figure of the family that is shown after it."
    needs: tuple[str, ...] = ()
    "Features that a family must have for it."
    lacks: tuple[str, ...] = ()
    "Features that a family must not have for it."


@dataclass(frozen=True, slots=True)
class Shop:
    """The shop's own figures."""

    currency: str = "€"
    "The sign or code before an amount."
    labour_rate: float = 0
    "Money for an hour at the bench; 0 while no shop says."
    shop: str | None = None
    "The shop's name."
    private: bool = False
    "Whether the folder stays in the shop; see `records/private.py`, which asks each folder by itself."
    invented: bool = False
    "Whether the figures are made up."
    proving_sew: float = 2
    "Minutes of a proving sew after a remedy that is tried while the cause is looked for."
    mains_test: float = 6
    "Minutes of the earth and insulation tests after a mains part was renewed or opened."
    found_out: float = 0.3
    "How often a setting that access alone upset is found out when it is read, as a share."
    dear_minutes: float = 15
    "Bench minutes from which a remedy is dear."
    dear_price: float = 20
    "Price of a part from which renewing it is dear."
    unlisted: float = 0.03
    "Share of the jobs whose cause no record lists."
    stop_and_think_minutes: float = 15
    "Stopping to think where nothing listed fits."
    spread: float = 0.25
    "How far real minutes run over the plan, as a share."
    margin: float = 0
    "What is added to the price of parts, as a share."
    rounding: float = 1
    "Quotes are rounded outward to this amount of money."
    tax: str | None = None
    "What to print about tax."
    closing_tests: tuple[ClosingTest, ...] = ()
    "In the order of sewing."
    prices: Mapping[str, str] = field(default_factory=dict)
    "Part id -> price or band, as written."
    stock: Mapping[str, int] = field(default_factory=dict)
    "Part id -> how many lie on the shelf."


def price_band(text: str) -> tuple[Fraction, Fraction]:
    """Low and high of a price or a price band, in the shop's currency.

    >>> price_band("9..18.50")
    (Fraction(9, 1), Fraction(37, 2))
    >>> price_band("4")
    (Fraction(4, 1), Fraction(4, 1))
    """
    low, _, high = text.partition("..")
    return Fraction(low), Fraction(high or low)
