"""A book small enough to read off by eye what reaches what."""

from __future__ import annotations

from dataclasses import replace

from generator.records.model import Assembly, Check, FailureMode, Outcome, Records, RemedySpec
from tests.building import by_id, two_families

OTHERWISE = (Outcome("As it should be", otherwise=True),)


def book() -> Records:
    """Two families, "full" and "slow", with a drive, and "plain" with a needle bar alone, as they all have.

    The stand has a gear too, and nobody is built from it. To sew proves the timing as the drive is written, and to hem
    as "slow" has it.
    """
    made = two_families()
    drive, slow = made.assemblies["drive"], made.families["slow"]
    drive = replace(drive, settings=by_id(replace(drive.settings["timing"], proved_by="sew")))
    bar, use = slow.assemblies
    slow = replace(slow, assemblies=(bar, replace(use, settings={"timing": {"proved_by": "hem"}})))
    checks = (Check(id, id.title(), "Sew.", 1, "on", OTHERWISE) for id in ("hem", "sew", "idle"))
    advice = RemedySpec(advise="Try it.")
    modes = FailureMode("stand-worn", "Stand worn", 1, advice, part="foot"), FailureMode("nowhere", "Nowhere", 1, advice)
    return replace(
        made,
        families={**made.families, "slow": slow},
        assemblies={**made.assemblies, "drive": drive, "stand": Assembly("stand", "Stand", parts=by_id(drive.parts["gear"]))},
        checks={**made.checks, **by_id(*checks)},
        failure_modes={**made.failure_modes, **by_id(*modes)},
    )
