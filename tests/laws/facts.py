"""What the laws need to know of a machine, from records or made up."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from generator.family_view import FamilyView
from generator.records.model import Check, Setting

NEEDLE_OUT = "needle-out-first"
LIVE_AND_OPEN = "power-on-open-machine"


@dataclass(frozen=True)
class PartFacts:
    """A part as it bears on the laws."""

    behind: tuple[str, ...] = ()
    disturbs: tuple[str, ...] = ()
    guards: bool = False
    by_hand: bool = False
    mains: bool = False
    needle_out: bool = False
    "Whether the needle is out before it comes off."
    joints: tuple[str, ...] = ()
    "Those that it frees coming off."
    nips: tuple[str, ...] = ()
    "Those that it may leave nipped going on."


@dataclass(frozen=True)
class WorkFacts:
    """A setting or a check."""

    reach: tuple[str, ...] = ()
    on: tuple[str, ...] = ()
    power: str = ""
    needle_out: bool = False
    open_on_purpose: bool = False
    "Whether it is done live with a cover off and says so with its caution."
    disturbs: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()


@dataclass(frozen=True)
class Facts:
    """One machine."""

    parts: Mapping[str, PartFacts]
    settings: Mapping[str, WorkFacts]
    checks: Mapping[str, WorkFacts] = field(default_factory=dict)
    needle: str = "needle"
    thread: str = "thread"

    def with_front(self, ids: Iterable[str]) -> set[str]:
        """The parts and all that must come off before them."""
        found: set[str] = set()
        waiting = list(ids)
        while waiting:
            part = waiting.pop()
            if part not in found:
                found.add(part)
                waiting += self.parts[part].behind
        return found


def of_family(view: FamilyView) -> Facts:
    """A family as its records have it."""
    parts = {
        p.id: PartFacts(
            p.behind, p.disturbs, bool(p.guards), p.by_hand, p.mains,
            NEEDLE_OUT in (*p.cautions, *p.off.cautions),
            (*p.joints, *p.off.slackens), p.on.slackens,
        )
        for p in view.parts.values()
    }  # fmt: skip
    settings = {s.id: _work(s, s.disturbs, s.joints) for s in view.settings.values()}
    return Facts(parts, settings, {c.id: _work(c) for c in view.checks.values()})


def _work(work: Setting | Check, disturbs: tuple[str, ...] = (), joints: tuple[str, ...] = ()) -> WorkFacts:
    cautions = work.cautions
    return WorkFacts(
        work.reach, work.in_place, work.power or "", NEEDLE_OUT in cautions, LIVE_AND_OPEN in cautions, disturbs, joints
    )
