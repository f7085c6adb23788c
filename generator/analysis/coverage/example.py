"""One small case for the examples: a needle bent or blunt, a hook late, a burr that no check finds."""

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.machine import Machine, Remedy

_NEEDLE = Remedy("renew:needle", minutes=1)

CASE = Case(
    (
        Hypothesis("bent", ("bent",), 3, _NEEDLE),
        Hypothesis("blunt", ("blunt",), 2, _NEEDLE),
        Hypothesis("late", ("late",), 4, Remedy("set:timing", minutes=20)),
        Hypothesis("burr", ("burr",), 1, Remedy("clean:plate", minutes=5)),
    ),
    (
        Check("roll", 1, (), ("rocks", "lies true"), {"bent": 0, "blunt": 0, "late": 1, "burr": 1}),
        Check("watch", 2, (), ("late", "in time"), {"bent": 1, "blunt": 1, "late": 0, "burr": 1}),
    ),
    Machine(),
    2,
)
"Shares .3, .2, .4, .1."
