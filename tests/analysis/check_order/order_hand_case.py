"""A case small enough to reckon by hand."""

from generator.analysis.check_order import Case, Check, Hypothesis
from generator.analysis.machine import Machine, MachinePart, Remedy

MACHINE = Machine({"plate": MachinePart("plate", (), 1, 1), "gear": MachinePart("gear", ("plate",), 4, 4)})
DULL = Hypothesis("dull", ("needle-dull",), 0.5, Remedy("renew-needle", minutes=1))
LINT = Hypothesis("lint", ("lint",), 0.3, Remedy("clean", reach=("plate",), minutes=3))
GEAR = Hypothesis("gear", ("gear-cracked",), 0.2, Remedy("renew-gear", renew=("gear",)))
WATCH = Check("watch", 1, ("plate",), ("stands", "turns"), {"gear": 0, "lint": 1, "dull": 1})
TRIAL = Check(
    "trial", 2, (), ("sews", "still skips"), {"dull": 0, "lint": 1, "gear": 1}, frozenset({0})
)
CASE = Case((DULL, LINT, GEAR), (WATCH, TRIAL), MACHINE, 2)
