"""Where a joint that was left nipped is done up."""

from __future__ import annotations

from generator.analysis.job.joints import with_joints
from generator.analysis.job.types import Handling, Practice, SettingHandling, Step

FIT = Step("refit", "gear", "way-out")
PRACTICE = Practice(
    {"gear": Handling(nips=("gear-screws", "collar-screw"))},
    {"timing": SettingHandling(joints=("gear-screws",)), "play": SettingHandling(joints=("collar-screw",))},
    live=frozenset({"running"}),
)
HERE = "Do up tight here: the {}; nothing in this job sets it."


def notes(*later: Step) -> list[tuple[str, ...]]:
    return [step.notes for step in with_joints((FIT, *later), PRACTICE)]


def test_each_joint_is_done_up_by_the_setting_that_works_it() -> None:
    fit, play, timing = notes(Step("set", "play", "set"), Step("set", "timing", "set"))
    assert fit == ("Left nipped: the gear screws, done up at step 3.", "Left nipped: the collar screw, done up at step 2.")
    assert play == ("Do up tight at the end: the collar screw, left nipped at step 1.",)
    assert timing == ("Do up tight at the end: the gear screws, left nipped at step 1.",)


def test_a_setting_that_is_only_read_first_does_nothing_up() -> None:
    """Read and found right it is left alone, and so would be the joint."""
    fit, timing = notes(Step("set", "timing", "set", read=True))
    assert timing == ()
    assert fit == (
        "Do up tight here: the gear screws and the collar screw; nothing in this job sets them.",
    )


def test_neither_a_check_nor_another_part_of_that_name_does_a_joint_up() -> None:
    assert notes(Step("check", "timing", "prove"), Step("refit", "play", "way-out"))[1:] == [(), ()]


def test_nothing_runs_with_a_nipped_joint() -> None:
    fit, _, _, timing = notes(Step("set", "play", "set"), Step("check", "running", "prove"), Step("set", "timing", "set"))
    assert fit == (HERE.format("gear screws"), "Left nipped: the collar screw, done up at step 2.")
    assert timing == ()
