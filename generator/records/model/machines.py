"""Families, and the assemblies that they are built from, as the schema has them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.records.model.picture import Picture
from generator.records.model.wait import Wait


@dataclass(frozen=True, slots=True)
class Figure:
    """One measure of a family."""

    value: int | float | str
    "A number, or a quantity with its unit as written."
    source: str | None = None
    "Id of a source."
    note: str | None = None
    "Markdown."


@dataclass(frozen=True, slots=True)
class NeedleFit:
    """The needle that a family takes, and which way it goes in."""

    flat: str
    "Which way the flat or the scarf faces."
    threads_from: str
    "From which side the thread goes through the eye."
    system: str | None = None
    "The needle system, in the trade's words."
    groove: str | None = None
    "Which way the long groove faces."
    source: str | None = None
    "Id of a source."


@dataclass(frozen=True, slots=True)
class AssemblyUse:
    """An assembly as one family uses it."""

    use: str
    "Id of the assembly."
    without: tuple[str, ...] = ()
    "Ids of its parts and settings that this family does not have."
    parts: Mapping[str, Mapping[str, object]] = field(default_factory=dict)
    "Part id -> the keys of a part that differ here, as in the record."
    settings: Mapping[str, Mapping[str, object]] = field(default_factory=dict)
    "Setting id -> the keys of a setting that differ here, as in the record."
    title: str | None = None
    "What this family calls it, where that is not the assembly's title."


@dataclass(frozen=True, slots=True)
class Family:
    """One family of machines."""

    id: str
    "File name."
    title: str
    "The name that a reader sees."
    kind: str
    '"domestic" or "industrial".'
    summary: str
    "Markdown."
    assemblies: tuple[AssemblyUse, ...]
    "In the record's order."
    bed: str | None = None
    "Shape of the bed: flatbed, free-arm, cylinder-arm, post-bed, overlock."
    era: str | None = None
    "When such machines were made."
    models: tuple[str, ...] = ()
    "Names of member models."
    recognise: str | None = None
    "Markdown: how to know it from outside."
    features: Mapping[str, bool] = field(default_factory=dict)
    "Feature id -> whether the family has it."
    figures: Mapping[str, Figure] = field(default_factory=dict)
    "Name of the measure -> its figure."
    needle: NeedleFit | None = None
    "The needle and which way it goes in."
    turns: str | None = None
    "Which way the hand wheel turns when it sews."
    lubrication: str | None = None
    "Markdown."
    weight: str | None = None
    "Quantity of mass, as written."
    rates: Mapping[str, float] = field(default_factory=dict)
    "Failure mode id -> machines in 1,000 of this family."
    unlisted: float | None = None
    "Share of its jobs whose cause no record lists; None: the shop's."
    symptoms: tuple[str, ...] | None = None
    "Ids of its symptoms; None: every one whose tree is not empty for it."
    cautions: tuple[str, ...] = ()
    "Ids of cautions."
    notes: tuple[str, ...] = ()
    "Markdown, a line each."
    was: tuple[str, ...] = ()
    "Ids that it had before."
    pictures: tuple[Picture, ...] = ()
    "Of it, in order."


AS_IT_LIES = "as-it-lies"
"The position of work that is done whichever way the machine lies."


@dataclass(frozen=True, slots=True)
class Move:
    """How a part comes off, or goes on."""

    position: str | None = None
    "How the machine lies: an id of positions.yaml, or `as-it-lies`; upright where nothing is said."
    minutes: float = 0
    "Bench minutes, waiting included."
    wait: Wait | None = None
    "How many of them are waiting."
    says: str | None = None
    "The step in words, where nothing is taken off or fitted."
    how: str | None = None
    "Markdown: what to do, in order."
    technique: str | None = None
    "Id of a technique."
    tools: tuple[str, ...] = ()
    "Ids of tools."
    slackens: tuple[str, ...] = ()
    "Ids of joints: of other parts, slackened to come off; its own, left nipped as it goes on."
    cautions: tuple[str, ...] = ()
    "Ids of cautions that stand before it."


@dataclass(frozen=True, slots=True)
class Part:
    """One part of an assembly."""

    id: str
    "Its key in the assembly."
    title: str
    "The name that a reader sees."
    what: str | None = None
    "Markdown: what it is and does."
    behind: tuple[str, ...] = ()
    "Ids of parts that come off or move first; those that a family lacks are passed over."
    off: Move = Move()
    "How it comes off or out of the way."
    on: Move = Move()
    "How it goes on again."
    joints: tuple[str, ...] = ()
    "Ids of joints that hold it."
    disturbs: tuple[str, ...] = ()
    "Ids of settings upset by taking it off."
    wears: bool = False
    "Whether it is renewed in the ordinary course."
    guards: tuple[str, ...] = ()
    "What it keeps fingers off: mains, belt, drive. With it off, nothing runs under power."
    by_hand: bool = False
    "Whether the machine is turned by hand with it."
    mains: bool = False
    "Whether it carries mains."
    renew_with: tuple[str, ...] = ()
    "Ids of parts renewed together with it."
    price: str | None = None
    "Price or band in the shop's currency, as written; see `price_band`."
    loose: tuple[str, ...] = ()
    "Small pieces that can fall out unseen, in words."
    refit: tuple[str, ...] = ()
    "Markdown, a line each: notes for putting it back."
    needs: tuple[str, ...] = ()
    "Ids of features that a family must have."
    lacks: tuple[str, ...] = ()
    "Ids of features that a family must not have."
    cautions: tuple[str, ...] = ()
    "Ids of cautions."
    pictures: tuple[Picture, ...] = ()
    "Of it, in order."
