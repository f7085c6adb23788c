"""What a family's record lacks, and how to measure it."""

from __future__ import annotations

from generator.bench.timing import Timing

ABOVE_ALL = "The machine's own service data, and lines on its bar, stand above every figure here."

HOW_TO_MEASURE: dict[str, str] = {
    "needle_bar_stroke": (
        "Needle-bar stroke is not recorded. Measure with a caliper from a line on the bar to its bush, "
        "at the highest and at the lowest; take the difference."
    ),
    "connecting_rod": (
        "The connecting rod is not recorded. Measure it out of the machine, from the middle of the "
        "crank pin to the middle of the pin on the bar."
    ),
    "needle_depth": (
        "How deep the needle goes is not recorded. Needle plate off, bar at its lowest: measure from the plate's seat on the "
        "bed to the needle's point, and add the plate's thickness."
    ),
    "point_below_eye": (
        "The needle's length below its eye is not recorded. Measure a new needle of the machine's system from the top of its "
        "eye to its point."
    ),
    "looper_above_eye": (
        "How far the lower looper's point passes above the eye is not recorded. Turn by hand until the point stands at the left "
        "needle, and measure from the top of the eye to it."
    ),
    "hook_turns_per_stitch": (
        "Hook turns are not recorded. Mark the hook and count its turns for one turn of the hand wheel."
    ),
    "hook_swing": (
        "How far the hook or the shuttle's lever swings is not recorded. Mark both ends of its swing on the race or the bed, and "
        "take the angle between them with a protractor at its pivot."
    ),
    "hook_start": (
        "Where the hook sets out is not recorded. Turn by hand in the sewing direction until the hook stands and turns back "
        "towards the needle, mark the hand wheel, go on to the needle bar's lowest, and take the angle between."
    ),
    "hook_radius": (
        "The hook's radius is not recorded. With the needle out, measure from the middle of the hook to "
        "its point; for a hook in its race take half of the circle that the point goes round."
    ),
    "first_swing": (
        "Which swing the point meets first is not recorded. At the widest zigzag turn by hand in the "
        "sewing direction and read the rise at both swings; the smaller rise is the swing met first."
    ),
    "feed_lift": (
        "The dog's lift is not recorded. Plate off, turn by hand: measure how high one tooth stands at its highest and at its "
        "lowest, and take the difference."
    ),
    "upper_pulley_teeth": "Teeth of the upper pulley are not recorded. Mark one and count once round.",
    "lower_pulley_teeth": "Teeth of the lower pulley are not recorded. Mark one and count once round.",
    "motor_pulley": (
        "The motor's pulley is not recorded. Unplugged and with the belt off, measure its diameter where the belt lies."
    ),
    "wheel_pulley": (
        "The pulley of the hand wheel is not recorded. With the belt off, measure its diameter where the belt lies."
    ),
}
"Figure -> that it is missing, and how to measure it."


def missing_lines(found: Timing) -> list[str]:
    """What to measure, and how."""
    return [HOW_TO_MEASURE[name] for name in found.missing]
