"""All that is said of one screw: what is known, and a sentence where it is not."""

from __future__ import annotations

import pytest

from generator.analysis.fasteners.answer import answer
from generator.standards.threads import THREADS


@pytest.mark.parametrize(
    ("name", "caveat"),
    [
        ("10-32", ""),  # ASME B18.3 has it
        ("11/64-40", "nearest standard screw, 8. Measure it."),  # a thread of the trade, in no standard of keys
        ("M4.5", "No table gives a key"),
    ],
)
def test_a_key_without_a_standard_comes_with_a_sentence(name: str, caveat: str) -> None:
    found = answer(THREADS[name], "set")
    assert caveat in found.caveat and bool(found.caveat) == bool(caveat)
    assert bool(found.near_misses) == (found.key is not None)


def test_holding_power_is_that_of_set_screws_alone() -> None:
    assert answer(THREADS["10-32"], "set").charts and not answer(THREADS["10-32"], "cap").charts


def test_turns_are_said_only_where_shaft_and_flat_are_known() -> None:
    thread = THREADS["10-32"]
    assert answer(thread, "set", 8, 4).backing and not answer(thread, "set", 8).backing and not answer(thread, "set", None, 4).backing
