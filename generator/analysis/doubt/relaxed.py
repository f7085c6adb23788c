"""A lower bound from the certain world: what the same job takes where no reading deceives.

Whoever reads without fail can garble each reading to what the doubtful bench would have shown, so no
policy under doubt takes fewer minutes than the best one where readings are true, remedies always
cure, nothing wants a proof and no check must wait (Blackwell, Equivalent comparisons of experiments,
1953: a garbled experiment is worth no more). The unlisted cause is a hypothesis whose remedy is to
stop and think; a trial that ends every job stands for a listed cause that is left in the machine.
The bound of that case's tolls (`check_order.bounds`) then holds here too.
"""

from __future__ import annotations

from dataclasses import replace

from generator.analysis.check_order.bounds import Lower
from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.check_order.cost import board
from generator.analysis.check_order.states import States
from generator.analysis.doubt.case import SOMETHING_ELSE as UNLISTED
from generator.analysis.doubt.case import Doubt
from generator.analysis.machine import Remedy
from generator.analysis.minutes import but_for_opening, opening


def certain_bound(doubt: Doubt) -> float:
    """Minutes that no policy under doubt can go below; 0 where one remedy cures all that it may be.

    The certain world does that one remedy whatever way out is cheaper, and so bounds nothing here.
    """
    states = States(board(relaxed(doubt)))
    first = states.start()
    return 0.0 if states.last(first[0]) else Lower(states).bound(first)


def relaxed(doubt: Doubt) -> Case:
    """The case with true readings, the unlisted cause and the way out as hypothesis and check."""
    listed = [replace(h, share=h.share * (1 - doubt.unlisted)) for h in doubt.case.hypotheses]
    listed = [replace(h, remedy=_no_dearer(doubt, h.remedy)) for h in listed]
    case, unlisted = doubt.case, tuple[Hypothesis, ...]()
    if doubt.unlisted:
        thinking = Remedy(UNLISTED, minutes=max(0.0, doubt.stop_minutes - case.proving_minutes))
        unlisted = (Hypothesis(UNLISTED, (UNLISTED,), doubt.unlisted, thinking),)
    checks = [_with_unlisted(doubt, c) for c in case.checks]
    hypotheses = (*listed, *unlisted)
    leaving = Check(UNLISTED, doubt.come_back_minutes, (), ("left",), dict.fromkeys((h.id for h in hypotheses), 0), frozenset({0}))
    return Case(hypotheses, (*checks, leaving), case.machine, min(case.proving_minutes, _proving(doubt)))


def _proving(doubt: Doubt) -> float:
    return doubt.stop_minutes if doubt.unlisted else doubt.case.proving_minutes


def _with_unlisted(doubt: Doubt, check: Check) -> Check:
    if not doubt.unlisted:
        return check
    return replace(check, sees={**check.sees, UNLISTED: doubt.readings[check.id].sound})


def _no_dearer(doubt: Doubt, remedy: Remedy) -> Remedy:
    """The remedy; one that costs more than the way out becomes as cheap as that, with nothing to open."""
    case = doubt.case
    work = case.machine.work(remedy)
    minutes = but_for_opening(case.machine, remedy, work, case.proving_minutes)
    if minutes + opening(case.machine, work.parts) <= doubt.come_back_minutes:
        return remedy
    return Remedy(remedy.id, minutes=max(0.0, min(minutes, doubt.come_back_minutes) - case.proving_minutes))
