"""Notes on play felt by hand."""

import pytest

from generator.standards.feel import FEEL_NOTES


@pytest.mark.parametrize("note", FEEL_NOTES, ids=lambda note: note.id)
def test_every_note_unplugs_before_a_hand_goes_in(note: object) -> None:
    assert note.how.startswith("Unplug the machine, needle out.")


def test_a_trace_of_end_play_is_right() -> None:
    # Common practice, no source: only a trace of end play when a collar is set.
    notes = {note.id: note for note in FEEL_NOTES}
    assert "Only a trace" in notes["end-play"].right
    assert {note.source for note in FEEL_NOTES} == {"common-practice"}
