"""Words of the steps of a job."""

from __future__ import annotations

import pytest

from generator.records.model import Family
from generator.wording.jobs.turning import lift_words


@pytest.mark.parametrize(
    ("weight", "said"),
    [
        (None, "A heavy head takes two people."),
        ("12 kg", "The head weighs 12 kg."),
        ("22.9 kg", "The head weighs 22.9 kg."),
        ("23 kg", "The head weighs 23 kg: two people."),
        ("38 kg", "The head weighs 38 kg: two people."),
    ],
)
def test_a_turn_of_the_machine_says_its_weight_and_from_the_lifting_limit_asks_for_two_people(weight, said):
    """The load constant of the revised NIOSH lifting equation is 23 kg (51 lb); from memory."""
    assert lift_words(Family("f", "F", "domestic", "A family.", (), weight=weight)) == said
