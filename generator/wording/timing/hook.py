"""Hook and needle in words."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.timing import Timing
from generator.family_view import FamilyView


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
    if hook.at_most:
        yield (
            f"The hook swings. Where it goes fastest it turns about {hook.rate:.1f}° for a degree of hand "
            "wheel, if it swings as a sine; its cranks differ a little."
        )
    elif hook.swinging:
        yield (
            f"It swings, and turns about {hook.rate:.2g}° for a degree of hand wheel as the point passes: reckoned as a sine, "
            "from which its cranks differ a little."
        )
    else:
        yield f"The hook turns {hook.rate:g}° for a degree of hand wheel."
    path = f", {hook.path_per_tenth:.2f} mm along its path" if hook.path_per_tenth else ""
    most = "at most " if hook.at_most else ""
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


def swing_lines(found: Timing) -> Iterator[str]:
    """Zigzag: the compromise, and which side goes first."""
    if found.swings is None or found.middle is None or found.even is None:
        return
    first, last = sides(found)
    rises = found.swings.rises
    yield (
        f"At the widest zigzag the {first} swing meets the point at {rises[0]:.2f} mm of rise and the "
        f"{last} swing at {rises[2]:.2f} mm, "
        f"where the middle has {found.middle.rise:.2f} mm: {found.swings.before:.1f}° of hand wheel before the middle and "
        f"{found.swings.after:.1f}° after it."
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


def caveats(view: FamilyView, found: Timing) -> Iterator[str]:
    """Where the reckoning is only near."""
    if view.family.features.get("loopers"):
        yield (
            "The bar is driven through a rock shaft: the degrees are those of a plain crank, and near only. "
            "The rise is what counts."
        )
    if view.family.features.get("zigzag") and found.swings is None:
        yield (
            "How the hook goes as it passes the needle is not recorded, so the two swings of the zigzag are not "
            "reckoned: read rise and height on the left and on the right. The swing with the smaller rise is lost first when "
            "the hook is early, the other when it is late."
        )
