"""Threads that start where another belongs.

Which pairs the trade warns of, and how near they must be, is common practice, from memory. The fractions here are
written anew, so that the rule cannot drift without a word.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.analysis.fasteners.lookalikes import lookalikes
from generator.standards.notation import parse_thread
from generator.standards.threads import THREADS, Thread

FAR = Fraction(1, 4)
"mm of diameter."
STEEP = Fraction(1, 5)
"Of the coarser pitch."
ALIKE = Fraction(1, 50)
"Of the screw's own pitch."


def near(one: Thread, other: Thread) -> bool:
    thick, thin = max(one.diameter_mm, other.diameter_mm), min(one.diameter_mm, other.diameter_mm)
    coarse, fine = max(one.pitch_mm, other.pitch_mm), min(one.pitch_mm, other.pitch_mm)
    return (thick, coarse) != (thin, fine) and thick <= thin + FAR and fine >= coarse * (1 - STEEP)


@pytest.mark.parametrize("name", sorted(THREADS))
def test_all_that_are_near_in_diameter_and_pitch_and_no_others_are_told_slowest_to_part_first(name):
    thread = THREADS[name]
    found = lookalikes(thread)
    assert {like.thread.name for like in found} == {n for n, other in THREADS.items() if near(thread, other)}
    parting = [(like.out_of_step_mm, abs(like.diameter_mm)) for like in found]
    assert parting == sorted(parting)


@pytest.mark.parametrize("name", sorted(THREADS))
def test_each_says_what_tells_it_from_the_right_one(name):
    thread = THREADS[name]
    for like in lookalikes(thread):
        step = abs(thread.pitch_mm - like.thread.pitch_mm)
        assert (like.diameter_mm, like.out_of_step_mm) == (like.thread.diameter_mm - thread.diameter_mm, step)
        assert like.says.startswith(f"{like.thread.name} starts in place of {name} and does not belong: ")
        if step > thread.pitch_mm * ALIKE:
            assert f"part by {float(step):.2f} mm at each turn" in like.says
        else:
            assert ("nearly the same pitch" in like.says) == (step != 0)
            thinner = like.thread.diameter_mm < thread.diameter_mm
            assert f"{float(abs(like.diameter_mm)):.2f} mm {'thinner, it sits loose' if thinner else 'thicker, it starts tight'}" in like.says


@pytest.mark.parametrize(("thread", "taken_for_it"), [("9/64-40", "6-40"), ("9/64-40", "M3.5"), ("11/64-40", "M4.5"), ("3/16-32", "10-32")])
def test_pairs_that_the_trade_warns_of(thread, taken_for_it):
    assert taken_for_it in {like.thread.name for like in lookalikes(parse_thread(thread))}
