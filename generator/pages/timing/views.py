"""The drawings of a timing sheet, from what was worked out."""

from __future__ import annotations

from markupsafe import Markup

from generator.bench.timing import Timing
from generator.bench.timing.feed import OFF
from generator.bench.timing.hook import Instant
from generator.bench.timing.timing import TURN_FROM
from generator.diagrams.timing import feed_view, hook_view, needle_view, rise_plot
from generator.diagrams.timing.needle import SCALE
from generator.diagrams.timing.needle_view import Meeting, Position
from generator.family_view import FamilyView
from generator.wording import timing as said


def plot(view: FamilyView, found: Timing) -> Markup:
    """Rise against hand wheel."""
    if not (found.bar and found.window):
        return Markup()
    return Markup(rise_plot.svg(found.bar, *found.window, f"rise-{view.id}"))


def needle(view: FamilyView, found: Timing) -> Markup:
    """Needle and point as the point passes, and the gap."""
    if not (found.middle and found.needle):
        return Markup()
    meeting = Meeting(found.needle, positions(found), found.height, found.gap)
    return Markup(needle_view.svg(meeting, f"needle-{view.id}"))


def positions(found: Timing) -> list[Position]:
    """The middle, or left, middle and right of a zigzag where they are known; heights from the target's middle."""
    if found.middle is None:
        return []
    above = sum(found.height) / 2 if found.height else None
    if found.swings is None:
        return [Position("As the point passes", found.middle.rise, above)]
    first, last = said.sides(found)
    named = zip((first, "middle", last), found.swings.rises, strict=True)
    drawn = [
        Position(title.capitalize(), rise, None if above is None else above - (rise - found.middle.rise))
        for title, rise in named
    ]
    return drawn[::-1] if first == "right" else drawn


def instants(view: FamilyView, found: Timing) -> Markup:
    """The point before the needle, at it and past it."""
    if not (found.instants and found.needle and found.height):
        return Markup()
    return Markup(hook_view.svg(found.needle, [_drawn(i) for i in found.instants], f"instants-{view.id}"))


def _drawn(instant: Instant) -> hook_view.Instant:
    return hook_view.Instant(instant.degrees, instant.rise, instant.past, instant.above or 0.0)


def slider(view: FamilyView, found: Timing) -> dict[str, object] | None:
    """The view that the hand wheel moves, with rise, path and height at every degree."""
    if not (found.followed and found.needle and found.middle and found.height):
        return None
    above = sum(found.height) / 2
    moving = hook_view.moving(found.needle, found.middle.rise, above, f"moving-{view.id}")
    return {
        "svg": Markup(moving),
        "from": TURN_FROM,
        "to": TURN_FROM + len(found.followed) - 1,
        "at": round(found.middle.degrees),
        "scale": f"{SCALE:.4f}",
        "set": f"{found.middle.rise:.3f}",
        "rises": " ".join(f"{i.rise:.3f}" for i in found.followed),
        "past": " ".join(f"{i.past:.3f}" for i in found.followed),
        "above": " ".join(f"{i.above:.3f}" for i in found.followed if i.above is not None),
    }


def feed(view: FamilyView, found: Timing) -> Markup:
    """The dog's path, and dog and needle over one turn."""
    path = found.feed.path
    if path is None or found.bar is None:
        return Markup()
    return Markup(feed_view.svg(feed_view.Shown(found.bar, path.depth, path.dog, path.turn, OFF), f"feed-{view.id}"))
