"""A bench of three remedies and four checks whose every row is worked out by hand."""

from __future__ import annotations

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import Doubt, Reading
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, MachinePart, MachineSetting, Remedy

MACHINE = Machine(
    {"bed": MachinePart("bed", ("arm",), 3, 4), "arm": MachinePart("arm", (), 1, 2), "lid": MachinePart("lid", (), 0.5, 0.5)},
    {"timing": MachineSetting("timing", 20)},
)
"Parts by the alphabet: arm 1, bed 2, lid 4. The bed is behind the arm: 10 minutes for both, 7 for the bed alone."
MOTOR = Hypothesis("motor-worn", ("motor-worn",), 2, Remedy("renew:motor", reach=("bed",), minutes=30))
LATE = Hypothesis("hook-late", ("hook-late",), 3, Remedy("set:timing", set=("timing",)))
EARLY = Hypothesis("hook-early", ("hook-early",), 4, Remedy("set:timing", set=("timing",)))
LINT = Hypothesis("lint", ("lint",), 1, Remedy("clean:hook", reach=("lid",), minutes=5))
IDS = ("motor-worn", "hook-late", "hook-early", "lint")


def check(name: str, sees: tuple[int, ...], outcomes: int, minutes: float, reach: tuple[str, ...] = (), cured: tuple[int, ...] = ()) -> Check:
    return Check(name, minutes, reach, tuple("abcd"[:outcomes]), dict(zip(IDS, sees, strict=True)), frozenset(cured))


LISTEN = check("listen", (0, 2, 2, 2), 3, 1)
TURN = check("turn", (2, 0, 1, 2), 3, 2, ("bed",))
BLOW = check("blow", (1, 1, 1, 0), 2, 4, ("lid",), cured=(0,))
LOOK = check("look", (1, 1, 1, 1), 2, 3, ("lid",))
DOUBT = Doubt(
    Case((MOTOR, LATE, EARLY, LINT), (LISTEN, TURN, BLOW, LOOK), MACHINE, 2),
    {
        "listen": Reading(2, (0.9, 0.8, 0.7)),
        "turn": Reading(2, (0.9, 0.8, 0.7), frozenset({"set:timing"})),
        "blow": Reading(1, (0.9, 0.8)),
        "look": Reading(1, (0.9, 0.8)),
    },
    unlisted=0.2,
    dear=frozenset({"renew:motor", "set:timing"}),
    no_sign=frozenset({"set:timing"}),
    before=("listen",),
    safe=frozenset({"listen"}),
    powered=frozenset({"turn"}),
    lost=(("blow", "turn"), ("blow", "listen"), ("set:timing", "look"), ("turn", "listen")),
)
"Checks: listen 1, turn 2, blow 4, look 8. Remedies: motor 1, timing 2, hook 4."
TABLE = Table(DOUBT)
