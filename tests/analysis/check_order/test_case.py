"""A case that cannot be reckoned is refused with one sentence."""

from __future__ import annotations

import math
from dataclasses import replace
from math import inf, nan

import pytest

from generator.analysis.check_order import Case, Check, Hypothesis, solve_from
from generator.analysis.machine import Machine, MachinePart, MachineSetting, Remedy

DULL = Hypothesis("dull", ("needle-dull",), 3, Remedy("renew-needle", renew=("needle",)))
LATE = Hypothesis("late", ("hook-late",), 1, Remedy("set-timing", set=("timing",)))
LOOK = Check("look", 1, ("plate",), ("dull", "sharp"), {"dull": 0, "late": 1})
MACHINE = Machine(
    {"needle": MachinePart("needle", (), 0.5, 0.5), "plate": MachinePart("plate", (), 1, 1)},
    {"timing": MachineSetting("timing", 20)},
)
SOUND = Case((DULL, LATE), (LOOK,), MACHINE, 2)

FAULTY = {
    "A case needs at least one hypothesis": lambda: replace(SOUND, hypotheses=()),
    "hypothesis ids are 'dull'": lambda: replace(SOUND, hypotheses=(DULL, DULL)),
    "check ids are 'look'": lambda: replace(SOUND, checks=(LOOK, LOOK)),
    "'dull' has the share 0;": lambda: _with(replace(DULL, share=0)),
    "'dull' has the share -1;": lambda: _with(replace(DULL, share=-1)),
    "'dull' has the share nan;": lambda: _with(replace(DULL, share=nan)),
    "'dull' has the share inf;": lambda: _with(replace(DULL, share=inf)),
    "The proving sew takes -2 minutes": lambda: replace(SOUND, proving_minutes=-2),
    "Check 'look' takes nan minutes": lambda: _check(minutes=nan),
    "Remedy 'renew-needle' takes -1 minutes": lambda: _remedy(minutes=-1),
    "Taking off 'plate' takes -1 minutes": lambda: _part(off_minutes=-1),
    "Refitting 'plate' takes inf minutes": lambda: _part(on_minutes=inf),
    "Setting 'timing' takes -3 minutes": lambda: replace(
        SOUND, machine=Machine(MACHINE.parts, {"timing": MachineSetting("timing", -3)})
    ),
    "names 'lid', which is no part": lambda: _check(reach=("lid",)),
    "names 'gear', which is no part": lambda: _remedy(renew=("gear",)),
    "names 'belt', which is no part": lambda: _remedy(reach=("belt",)),
    "names 'gap', which is no setting": lambda: _remedy(set=("gap",)),
    "does not say what 'late' shows": lambda: _check(sees={"dull": 0}),
    "tells of 'worn', which is no hypothesis": lambda: _check(sees={**LOOK.sees, "worn": 0}),
    "'look' has no outcome 2": lambda: _check(sees={"dull": 2, "late": 1}),
    "'look' has no outcome -1": lambda: _check(cured=frozenset({-1})),
    "Two different remedies have the id 'renew-needle'": lambda: replace(
        SOUND, hypotheses=(DULL, replace(LATE, remedy=replace(DULL.remedy, minutes=9)))
    ),
}


def _with(hypothesis: Hypothesis) -> Case:
    return replace(SOUND, hypotheses=(hypothesis, LATE))


def _check(**changes: object) -> Case:
    return replace(SOUND, checks=(replace(LOOK, **changes),))


def _remedy(**changes: object) -> Case:
    return _with(replace(DULL, remedy=replace(DULL.remedy, **changes)))


def _part(**changes: object) -> Case:
    parts = {**MACHINE.parts, "plate": replace(MACHINE.parts["plate"], **changes)}
    return replace(SOUND, machine=Machine(parts, MACHINE.settings))


@pytest.mark.parametrize("message", FAULTY)
def test_a_faulty_case_is_refused(message: str) -> None:
    with pytest.raises(ValueError, match=message):
        FAULTY[message]()


def test_shares_are_scaled_to_sum_to_one() -> None:
    assert [h.share for h in SOUND.hypotheses] == [0.75, 0.25]
    assert math.fsum(h.share for h in replace(SOUND, checks=()).hypotheses) == 1


@pytest.mark.parametrize(
    ("left", "opened", "message"),
    [
        (["worn"], [], "'worn' is no hypothesis"),
        ([], [], "No hypothesis is left"),
        (["dull"], ["lid"], "'lid' is no part"),
    ],
)
def test_solving_from_an_unknown_place_is_refused(
    left: list[str], opened: list[str], message: str
) -> None:
    with pytest.raises(ValueError, match=message):
        solve_from(SOUND, left, opened)
