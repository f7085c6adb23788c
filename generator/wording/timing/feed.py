"""The feed in words."""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.timing.feed import Match
from generator.bench.timing import Timing
from generator.bench.timing.feed import OFF, Path


def feed_lines(found: Timing) -> Iterator[str]:
    """Feed, as far as it is recorded."""
    feed = found.feed
    if feed.longest_mm and feed.longest_spi and feed.ten_mm:
        yield (
            f"Longest stitch {feed.longest_mm:.2f} mm, {feed.longest_spi:.1f} to the inch; ten of them "
            f"measure {feed.ten_mm:.1f} mm."
        )
    if feed.path:
        yield from _path_lines(feed.path)
    if feed.with_needle:
        yield (
            "The needle goes along with the dog and is in the cloth while it feeds. Early and late show where both have come back "
            "and stand: read the feed timing there, as its setting has it."
        )
    if feed.match:
        yield from _match_lines(feed.match)
    if feed.play_mm:
        yield f"The most play that the feed gears should have is worth {feed.play_mm:.2f} mm of stitch."
    if feed.differential:
        yield (
            f"Differential {feed.differential[0]:g} to {feed.differential[1]:g}: front dogs go so far for "
            "each mm of the back ones."
        )


def _path_lines(path: Path) -> Iterator[str]:
    turn = path.turn
    stands = f"{abs(path.sinking):.1f} mm {'above' if path.sinking >= 0 else 'below'} the plate"
    yield (
        f"The teeth come up {turn.emerges:.0f}° after lowest and sink at {turn.sinks:.0f}°, the needle's point then {stands}; "
        f"it was out at {turn.leaves:.0f}° and goes in at {turn.enters:.0f}°."
    )
    if path.room_late >= 0:
        yield f"The feed may come {path.room_early:.0f}° early or {path.room_late:.0f}° late before it pulls at a needle in the cloth."
    else:
        yield (
            f"As it should be, the dog still goes {path.right:.2f} mm with the point in the cloth, at the end of its run where it "
            "goes slowest."
        )
    early = f"; {OFF:g}° early, {path.early:.2f} mm" if path.early else ""
    yield f"{OFF:g}° late it goes {path.late:.2f} mm with the point in, and the needle bends its way{early}."


def _match_lines(match: Match) -> Iterator[str]:
    yield (
        f"Reverse may differ from forward by {abs(match.apart):.2f} mm to a stitch, {abs(match.share):.0%}: sew ten each way and "
        "measure both."
    )
