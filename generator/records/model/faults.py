"""Symptoms with their fault trees, failure modes and checks, as the schema has them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from generator.records.model.picture import Picture
from generator.records.model.wait import Wait


@dataclass(frozen=True, slots=True)
class TreeEvent:
    """A basic event: a failure mode named in a tree."""

    id: str
    "Id of the failure mode."


@dataclass(frozen=True, slots=True)
class TreeTransfer:
    """A transfer to a gate of another symptom's tree."""

    see: str
    "symptom/gate."


@dataclass(frozen=True, slots=True)
class TreeGate:
    """A gate over its inputs."""

    id: str | None
    "Its id within the tree, if it has one."
    title: str | None
    "What has gone wrong at this level."
    kind: Literal["any", "all", "at_least"]
    "any: OR. all: AND. at_least: a vote of `k`."
    inputs: tuple[TreeNode, ...]
    "In the record's order."
    k: int
    "How many inputs it takes: 1 for any, all of them for all."


TreeNode: TypeAlias = TreeEvent | TreeTransfer | TreeGate
"What a gate's input can be."


@dataclass(frozen=True, slots=True)
class Symptom:
    """What is wrong, as the customer says it and as a fault tree."""

    id: str
    "File name."
    title: str
    "The name that a reader sees."
    said_as: tuple[str, ...]
    "The customers' own words."
    tree: TreeGate
    "The fault tree's top gate."
    group: str | None = None
    "Where the list of symptoms shows it."
    summary: str | None = None
    "Markdown."
    stop: bool = False
    "Whether the owner should stop using the machine."
    stop_why: str | None = None
    "Markdown."
    first: str | None = None
    "Markdown: what to do before anything is opened."
    before: tuple[str, ...] = ()
    "Ids of checks that come before all others, in this order."
    cautions: tuple[str, ...] = ()
    "Ids of cautions."
    needs: tuple[str, ...] = ()
    "Ids of features that a family must have."
    lacks: tuple[str, ...] = ()
    "Ids of features that a family must not have."
    was: tuple[str, ...] = ()
    "Ids that it had before."
    pictures: tuple[Picture, ...] = ()
    "Of it, in order."


@dataclass(frozen=True, slots=True)
class LooksLike:
    """Another failure mode that looks the same, and the difference."""

    mode: str
    "Id of the other failure mode."
    tell: str
    "Markdown: how to tell them apart."


@dataclass(frozen=True, slots=True)
class RemedySpec:
    """What puts a failure mode right."""

    renew: tuple[str, ...] = ()
    "Ids of parts to renew."
    set: tuple[str, ...] = ()
    "Ids of settings to make."
    clean: tuple[str, ...] = ()
    "Ids of parts to clean or free."
    advise: str | None = None
    "Markdown: what to tell the owner or do at the machine."
    how: str | None = None
    "Markdown."
    technique: str | None = None
    "Id of a technique."
    minutes: float = 0
    "Bench minutes for cleaning or advice, waiting included."
    wait: Wait | None = None
    "How many of them are waiting."
    reach: tuple[str, ...] = ()
    "Ids of parts that must be out of the way for cleaning or advice."
    tools: tuple[str, ...] = ()
    "Ids of tools."


@dataclass(frozen=True, slots=True)
class FailureMode:
    """One way in which one part or setting fails."""

    id: str
    "File name."
    title: str
    "The name that a reader sees."
    seen: float
    "Machines in 1,000 through the bench."
    remedy: RemedySpec
    "What puts it right."
    part: str | None = None
    "Id of the part it sits on; this or `setting`."
    setting: str | None = None
    "Id of the setting it sits on; this or `part`."
    needs: tuple[str, ...] = ()
    "Ids of features that a family must have."
    lacks: tuple[str, ...] = ()
    "Ids of features that a family must not have."
    shows: Mapping[str, str | float] = field(default_factory=dict)
    "Symptom id -> how many of the machines that have it come in so: a word of the scale, or a number."
    source: str | None = None
    "Id of the source of `seen`."
    comes_about: str | None = None
    "Markdown."
    signs: tuple[str, ...] = ()
    "Markdown, a tell-tale each."
    looks_like: tuple[LooksLike, ...] = ()
    "What it can be taken for."
    effects: str | None = None
    "Markdown: what it does to the sewing."
    no_sign: str | None = None
    "Markdown: why no check can show it."
    unseen_by: Mapping[str, str] = field(default_factory=dict)
    "Id of a check that seems to show it -> why it does not."
    if_left: str | None = None
    "Markdown."
    cautions: tuple[str, ...] = ()
    "Ids of cautions."
    was: tuple[str, ...] = ()
    "Ids that it had before."


@dataclass(frozen=True, slots=True)
class Outcome:
    """One thing that a check can show."""

    says: str
    "What is seen, heard or felt."
    fits: tuple[str, ...] = ()
    "Ids of failure modes, gates (also symptom/gate), parts, settings or assemblies that would show it."
    otherwise: bool = False
    "Whether it takes all causes that no other outcome fits."
    cured: bool = False
    "Whether seeing it ends the job."
    good: bool = False
    "Whether a sound machine shows it; where none says so, the one that is `otherwise`."
    means: str | None = None
    "Markdown."
    pictures: tuple[Picture, ...] = ()
    "Of it, in order."


@dataclass(frozen=True, slots=True)
class Check:
    """Something to look at, feel, measure or try, that tells failure modes apart."""

    id: str
    "File name."
    title: str
    "The name that a reader sees."
    how: str
    "Markdown."
    minutes: float
    "Bench minutes, opening not counted."
    power: str
    "off, on or handwheel-only."
    outcomes: tuple[Outcome, ...]
    "In order: the first that fits a cause is the one that it shows."
    expect: str | None = None
    "What a good machine shows. A family's view adds the figures of its settings."
    figures: tuple[str, ...] = ()
    "Ids of settings whose figures it reads, beside those that it proves."
    only_for: tuple[str, ...] = ()
    "Ids of symptoms with which it can be done; empty for any."
    reach: tuple[str, ...] = ()
    "Ids of parts that must be out of the way; those that a family lacks are passed over."
    in_place: tuple[str, ...] = ()
    "Ids of parts that must be on; those that a family lacks are passed over."
    position: str | None = None
    "How the machine lies; see `Move.position`."
    tools: tuple[str, ...] = ()
    "Ids of tools."
    cautions: tuple[str, ...] = ()
    "Ids of cautions."
    needs: tuple[str, ...] = ()
    "Ids of features that a family must have."
    lacks: tuple[str, ...] = ()
    "Ids of features that a family must not have."
    does: tuple[str, ...] = ()
    "Ids of failure modes whose remedy it does on its way; what it cures as a trial is not named."
    wait: Wait | None = None
    "How many of its minutes are waiting."
    evidence_lost_by: tuple[str, ...] = ()
    "Ids of checks that destroy what it reads, and so come after it."
    trust: float = 0.95
    "Probability that what is seen follows the true cause."
    source: str | None = None
    "Id of a source."
    was: tuple[str, ...] = ()
    "Ids that it had before."
    pictures: tuple[Picture, ...] = ()
    "Of it, in order."
