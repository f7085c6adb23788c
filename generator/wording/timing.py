"""Timing in words: for the sheet and for the command."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.timing import Timing
from generator.family_view import FamilyView

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
    "hook_turns_per_stitch": (
        "Hook turns are not recorded. Mark the hook and count its turns for one turn of the hand wheel."
    ),
    "hook_radius": (
        "The hook's radius is not recorded. With the needle out, measure from the middle of the hook to "
        "its point; for a hook in its race take half of the circle that the point goes round."
    ),
    "first_swing": (
        "Which swing the point meets first is not recorded. At the widest zigzag turn by hand in the "
        "sewing direction and read the rise at both swings; the smaller rise is the swing met first."
    ),
    "upper_pulley_teeth": "Teeth of the upper pulley are not recorded. Mark one and count once round.",
    "lower_pulley_teeth": "Teeth of the lower pulley are not recorded. Mark one and count once round.",
}
"Figure -> that it is missing, and how to measure it."


def plain(found: Timing) -> str:
    """The timing in one paragraph."""
    return " ".join(_plain(found))


def _plain(found: Timing) -> Iterator[str]:
    if not (found.middle and found.window):
        return
    low, high = found.window
    yield (
        f"Turn past lowest until the bar has risen {low:g} to {high:g} mm. That is {found.table[0].degrees:.0f} to "
        f"{found.table[-1].degrees:.0f} degrees of hand wheel, and the point should then stand at the needle."
    )
    yield (
        f"One degree of hand wheel is about {found.middle.rate:.2f} mm of rise there, so measure the "
        "rise and do not judge the wheel by eye."
    )
    yield "Early, the loop has not yet opened; late, it has begun to close and the point comes down towards the eye."


def hook_lines(found: Timing) -> Iterator[str]:
    """What the hook does meanwhile."""
    hook = found.hook
    if hook is None:
        return
    if hook.swinging:
        yield (
            f"The hook swings. Where it goes fastest it turns about {hook.rate:.1f}° for a degree of hand "
            "wheel, if it swings as a sine; its cranks differ a little."
        )
    else:
        yield f"The hook turns {hook.rate:g}° for a degree of hand wheel."
    path = f", {hook.path_per_tenth:.2f} mm along its path" if hook.path_per_tenth else ""
    most = "at most " if hook.swinging else ""
    yield f"While the bar rises 0.1 mm the point goes {most}{hook.degrees_per_tenth:.1f}°{path}."


def backlash_lines(found: Timing) -> Iterator[str]:
    """Play at the rim of the hook."""
    back = found.backlash
    if back:
        yield (
            f"Play of {back.play:g} mm at the point, the most that the gears should have, is "
            f"{back.hook_degrees:.1f}° of hook "
            f"and {back.rise:.2f} mm of rise: take it up in the sewing direction before you read."
        )


def tooth_lines(found: Timing) -> Iterator[str]:
    """A belt a tooth off."""
    tooth = found.tooth
    if tooth is None or found.middle is None:
        return
    most = " at most" if found.hook and found.hook.swinging else ""
    hook = f",{most} {tooth.hook_degrees:.0f}° of the hook" if tooth.hook_degrees else ""
    yield f"One tooth, on either pulley, is {tooth.degrees:.1f}° of the hand wheel{hook}."
    before = " while still going down" if tooth.early_before else ""
    yield (
        f"Set at {found.middle.rise:.2f} mm and a tooth early, the point comes at {tooth.early:.1f} mm{before}; "
        f"a tooth late, at {tooth.late:.1f} mm."
    )
    yield (
        f"A timing out by {tooth.degrees:.0f}° or {2 * tooth.degrees:.0f}°, to within 2°, is the belt; "
        "any other angle is a slipped pulley. "
        "A pulley that slipped by just a tooth looks the same: the marks and its screws decide."
    )


def swing_lines(found: Timing) -> Iterator[str]:
    """Zigzag: the compromise, and which side goes first."""
    if found.swings is None or found.middle is None or found.even is None:
        return
    first, last = sides(found)
    rises = found.swings.rises
    yield (
        f"At the widest zigzag the {first} swing meets the point at {rises[0]:.2f} mm of rise and the "
        f"{last} swing at {rises[2]:.2f} mm, "
        f"where the middle has {found.middle.rise:.2f} mm: {found.swings.degrees:.1f}° of hand wheel each way."
    )
    yield (
        f"Both swings lie evenly about {found.middle.rise:.2f} mm where the middle is set at "
        f"{found.even.rise:.2f} mm."
    )
    yield (
        f"Early, the {first} swing is lost first, its loop not yet open. Late, the {last} swing is lost "
        "first, its point too near the eye."
    )


def sides(found: Timing) -> tuple[str, str]:
    """The swing met first and the one met last; without the record they are named by that."""
    others = {"left": "right", "right": "left"}
    return (found.first, others[found.first]) if found.first in others else ("first-met", "last-met")


def feed_lines(found: Timing) -> Iterator[str]:
    """Feed, as far as it is recorded."""
    feed = found.feed
    if feed.longest_mm and feed.longest_spi and feed.ten_mm:
        yield (
            f"Longest stitch {feed.longest_mm:.2f} mm, {feed.longest_spi:.1f} to the inch; ten of them "
            f"measure {feed.ten_mm:.1f} mm."
        )
    if feed.differential:
        yield (
            f"Differential {feed.differential[0]:g} to {feed.differential[1]:g}: front dogs go so far for "
            "each mm of the back ones."
        )


def caveats(view: FamilyView) -> Iterator[str]:
    """Where the reckoning is only near."""
    if view.family.features.get("loopers"):
        yield (
            "The bar is driven through a rock shaft: the degrees are those of a plain crank, and near only. "
            "The rise is what counts."
        )
    if view.family.features.get("zigzag") and "hook_swing" in view.family.figures:
        yield (
            "How fast a swinging hook goes as it passes the needle is not recorded, so the two swings of the zigzag are not "
            "reckoned: read rise and height on the left and on the right. The swing with the smaller rise is lost first when "
            "the hook is early, the other when it is late."
        )


def missing_lines(found: Timing) -> list[str]:
    """What to measure, and how."""
    return [HOW_TO_MEASURE[name] for name in found.missing]
