"""A family's view as the machine that analysis reckons with."""

from __future__ import annotations

from generator.analysis.machine import Machine
from generator.analysis.machine import Part as MachinePart
from generator.analysis.machine import Setting as MachineSetting
from generator.family_view import FamilyView


def machine(view: FamilyView) -> Machine:
    """Parts and settings of one family with their minutes."""
    return Machine(
        parts={
            p.id: MachinePart(p.id, p.behind, p.off.minutes, p.on.minutes, p.disturbs)
            for p in view.parts.values()
        },
        settings={
            s.id: MachineSetting(s.id, s.minutes, s.after, s.disturbs, s.reach)
            for s in view.settings.values()
        },
    )
