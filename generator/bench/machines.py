"""A family's view as the machine that analysis reckons with."""

from __future__ import annotations

from dataclasses import replace

from generator.analysis.machine import Machine, MachinePart, MachineSetting, MachineWait, Proof
from generator.family_view import FamilyView
from generator.records.model import Check, Part, Setting, Shop, Wait


def machine(view: FamilyView, shop: Shop) -> Machine:
    """Parts and settings of one family with their minutes, and the checks that prove the settings."""
    proving = sorted({s.proved_by for s in view.settings.values() if s.proved_by and s.proved_by in view.checks})
    whole = Machine(
        parts={
            p.id: MachinePart(p.id, p.behind, p.off.minutes, p.on.minutes, p.disturbs, _lost(p, view), p.mains)
            for p in view.parts.values()
        },
        settings={
            s.id: MachineSetting(s.id, s.minutes, s.after, s.disturbs, s.reach, parts_on(s, view), s.read.minutes if s.read else None)
            for s in view.settings.values()
        },
        found_out=shop.found_out,
        mains_test=shop.mains_test,
    )
    return replace(whole, proofs={c: _proof(view.checks[c], view, whole) for c in proving})


def waiting(wait: Wait | None) -> MachineWait | None:
    """A record's wait as analysis reckons with it; none for a reason why nothing waits."""
    return MachineWait(wait.minutes, wait.why) if wait and wait.minutes else None


def _lost(part: Part, view: FamilyView) -> tuple[str, ...]:
    """Settings that do up a joint which the part is fitted with only nipped."""
    return tuple(s for s in part.disturbs if set(view.settings[s].joints) & set(part.on.slackens))


def _proof(check: Check, view: FamilyView, whole: Machine) -> Proof:
    """Where a part cannot be out of the way without one that must be on, it is looked at as it stands."""
    on = parts_on(check, view)
    return Proof(check.id, tuple(p for p in check.reach if not whole.way_in((p,)) & set(on)), on)


def parts_on(work: Setting | Check, view: FamilyView) -> tuple[str, ...]:
    """Parts that must be on: those named, and those that the power asks for.

    Under power every guard of mains, belt and drive and every mains part is on, but for what must be out of the way; a
    machine that is turned by hand has on it what it is turned by.
    """
    asked = [p.id for p in view.parts.values() if p.by_hand and work.power == "handwheel-only"]
    asked += [p.id for p in view.parts.values() if (p.guards or p.mains) and work.power == "on"]
    return tuple(dict.fromkeys((*work.in_place, *(p for p in asked if p not in work.reach))))
