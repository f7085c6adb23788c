"""Two faults, two looks: a case small enough to be reckoned by hand."""

from __future__ import annotations

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import Doubt, plain
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, MachinePart, Remedy

MOTOR = Hypothesis("motor-worn", ("motor-worn",), 2, Remedy("renew:motor", reach=("cover",), minutes=37))
BELT = Hypothesis("belt-loose", ("belt-loose",), 3, Remedy("set:belt", minutes=5))
LOOK_BELT = Check("look-belt", 1, (), ("loose", "right"), {"motor-worn": 1, "belt-loose": 0})
LOOK_MOTOR = Check("look-motor", 0.5, ("cover",), ("brushes worn", "brushes good"), {"motor-worn": 0, "belt-loose": 1})
MACHINE = Machine({"cover": MachinePart("cover", (), 1, 3)})


def doubtful(*more: Check, come_back: float = 45, before: tuple[str, ...] = ()) -> Table:
    """0.36 motor, 0.54 belt, 0.1 neither; readings right in 95 of 100; the cover is 4 minutes, the proving sew 2."""
    case = Case((MOTOR, BELT), (LOOK_BELT, LOOK_MOTOR, *more), MACHINE, 2)
    told: Doubt = plain(
        case, trust=0.95, unlisted=0.1, cures=0.9, stop_minutes=15, come_back_minutes=come_back, dear=frozenset({"renew:motor"}),
        before=before, safe=frozenset(before),
    )  # fmt: skip
    return Table(told)


def tension(looks: int = 1) -> Table:
    """Half the jobs want a spring set, 1.2 minutes, half a hook, 20; each look of 1 minute tells them apart without fail."""
    causes = tuple(Hypothesis(i, (i,), 1, Remedy(f"set-{i}", minutes=m)) for i, m in (("spring", 1.2), ("hook", 20)))
    told = tuple(Check(f"look-{n}", 1, (), ("slack", "taut"), {"spring": 0, "hook": 1}) for n in range(looks))
    return Table(plain(Case(causes, told, Machine(), 0), 1.0, unlisted=0.0, cures=1.0))
