"""The job plan for any set of remedies: one way in, every upset setting made again, one proving sew."""

from __future__ import annotations

from collections.abc import Iterable
from math import fsum
from typing import Any

from generator.analysis.job.settings import Making
from generator.analysis.job.steps import Job, all_steps, by_part
from generator.analysis.job.tray import taken_off, tray
from generator.analysis.job.types import Plan, Practice, Step, Weights
from generator.analysis.job.ways import least_ways
from generator.analysis.job.while_open import while_open
from generator.analysis.machine import Machine, Remedy


def plan(
    machine: Machine, practice: Practice, remedies: Iterable[Remedy], weights: Weights = Weights()
) -> Plan:
    """Plan one visit to the bench that carries out all the remedies, each once.

    Parts come off by `way_in.way_in`; they go on again and settings are made by
    `settings.refits_and_makings`, which keeps off what a setting still needs off and puts on what
    it is made with; `ways.least_ways` settles what comes off before the work and what after.
    Minutes are counted from a closed machine: off and on of every part as often as the steps say,
    every setting once, the remedies' own minutes, and one proving sew. `proof.faults` proves the
    result.

    Raises ValueError for no remedies, for ids that the machine has not, and for settings that wait
    for each other.

    >>> from generator.analysis.machine import MachinePart, MachineSetting
    >>> m = Machine({"cover": MachinePart("cover", (), 2, 2), "gear": MachinePart("gear", ("cover",), 6, 6, ("timing",))},
    ...             {"timing": MachineSetting("timing", 20, reach=("cover",))})
    >>> job = plan(m, Practice(), [Remedy("renew-gear", renew=("gear",))])
    >>> [(s.do, s.part) for s in job.steps[2:]]
    [('renew', 'gear'), ('refit', 'gear'), ('set', 'timing'), ('refit', 'cover'), ('sew', '')]
    >>> job.minutes
    38.0
    """
    wanted = tuple(dict.fromkeys(remedies))
    _refuse_unknown(machine, wanted)
    whole = merged(wanted)
    work = machine.work(whole)
    way, back = least_ways(machine, whole, work, practice, weights)
    cells = tray(taken_off(way.parts, back.done), practice)
    steps = all_steps(Job(machine, practice, wanted, way.parts, back.done, by_part(cells), work.read), weights)
    return Plan(
        steps,
        tuple(done.setting for done in back.done if isinstance(done, Making)),
        fsum(step.minutes for step in steps),
        tuple(sorted({tool for step in steps for tool in step.tools})),
        tuple(sorted(set(whole.renew))),
        cells,
        while_open(machine, practice, whole, weights),
        way.position_changes,
        way.tool_changes,
        way.exact,
    )


def merged(remedies: Iterable[Remedy]) -> Remedy:
    """One remedy that is all of them.

    >>> merged([Remedy("a", renew=("belt",)), Remedy("b", set=("tension",), minutes=3)]).minutes
    3.0
    """
    several = tuple(remedies)
    return Remedy(
        " + ".join(r.id for r in several),
        tuple(part for r in several for part in r.renew),
        tuple(setting for r in several for setting in r.set),
        tuple(part for r in several for part in r.reach),
        fsum(r.minutes for r in several),
        tuple(part for r in several for part in r.clean),
    )


def _refuse_unknown(machine: Machine, remedies: tuple[Remedy, ...]) -> None:
    if not remedies:
        raise ValueError("nothing to plan: name a part to renew, a setting to make or a failure mode")
    whole = merged(remedies)
    strange = [f"part '{p}'" for p in sorted({*whole.renew, *whole.reach} - machine.parts.keys())]
    strange += [f"setting '{s}'" for s in sorted(set(whole.set) - machine.settings.keys())]
    if strange:
        raise ValueError(f"this machine has no {', no '.join(strange)}")


def plan_json(plan: Plan) -> dict[str, Any]:
    """The plan as JSON holds it. Minutes are rounded to four decimals, to shed binary dust only.

    Keys: `steps`, `settings`, `while_open`, `minutes`, `waiting` (of those), `tools`, `parts` (those renewed), `tray`,
    `changes` (of the way in).
    """
    return {
        "steps": [_step_json(step) for step in plan.steps],
        "settings": list(plan.settings),
        "while_open": [
            {
                "part": w.part,
                "extra_minutes": round(w.extra_minutes, 4),
                "later_minutes": round(w.later_minutes, 4),
            }
            for w in plan.while_open
        ],
        "minutes": round(plan.minutes, 4),
        "waiting": round(plan.waiting, 4),
        "tools": list(plan.tools),
        "parts": list(plan.parts),
        "tray": [{"cell": c.number, "part": c.part, "holds": c.holds} for c in plan.tray],
        "changes": {
            "position": plan.position_changes,
            "tool": plan.tool_changes,
            "fewest": plan.fewest_changes,
        },
    }


def _step_json(step: Step) -> dict[str, Any]:
    listed = {name: list(getattr(step, name)) for name in ("tools", "joints", "loose", "tray", "notes")}
    return {
        "do": step.do,
        "part": step.part,
        "phase": step.phase,
        "minutes": round(step.minutes, 4),
        "position": step.position,
        "read": step.read,
        "wait": step.wait.minutes if step.wait else 0,
        **listed,
    }
