"""`timing`: a family's rise, hook, belt and feed in figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import asdict
from pathlib import Path

import click

from generator.bench.timing import Timing
from generator.bench.timing import timing as timed
from generator.commands import common
from generator.commands.folders import content_option
from generator.family_view import FamilyView
from generator.own_words import told
from generator.wording import timing as said
from generator.wording import words
from generator.wording.ranges import range_words


@click.command()
@click.argument("family")
@common.json_option
@content_option
def timing(family: str, as_json: bool, folders: Sequence[Path]) -> None:
    """Say when the point should meet the needle of FAMILY, and what a degree, a tooth and a stitch are there."""
    view = common.view_of(common.open_bench(folders), family)
    found = timed(view)
    if as_json:
        common.print_json(_json(view, found))
    else:
        click.echo("\n".join(_lines(view, found)))


def _json(view: FamilyView, found: Timing) -> dict[str, object]:
    """Lengths in mm, angles in degrees; null where a figure is not recorded."""
    return {
        "rise": {
            "low": found.window[0] if found.window else None,
            "high": found.window[1] if found.window else None,
            "source": found.setting.target.source if found.setting and found.setting.target else None,
            "table": [asdict(row) for row in found.table],
            "swings": asdict(found.swings) if found.swings else None,
            "even_middle": found.even.rise if found.even else None,
        },
        "teeth": asdict(found.tooth) if found.tooth else None,
        "hook": asdict(found.hook) if found.hook else None,
        "backlash": asdict(found.backlash) if found.backlash else None,
        "instants": [asdict(i) for i in found.instants or ()],
        "gears": asdict(found.gears) if found.gears else None,
        "feed": asdict(found.feed),
        "motor": asdict(found.motor) if found.motor else None,
        "gauges": [
            {"setting": s.id, "of": s.gauge.of, "to": s.gauge.to, "tool": s.gauge.tool, "range": range_words(s.target)}
            for s in view.settings.values()
            if s.gauge
        ],
        "missing": list(found.missing),
    }


def _gauge_lines(view: FamilyView) -> Iterator[str]:
    """Settings that are gauged, with tolerance and gauge."""
    for setting in view.settings.values():
        if setting.gauge and (good := range_words(setting.target)):
            tool = words.spaced(setting.gauge.tool) if setting.gauge.tool else "by eye"
            yield f"  {setting.title}: {good}, {tool}"


def _lines(view: FamilyView, found: Timing) -> Iterator[str]:
    """The sheet in lines and in the family's own words, cautions first."""
    if view.by_hand:
        yield "By hand only, in the sewing direction; mind the needle."
    else:
        yield "Unplug it. Turn the hand wheel by hand, in the sewing direction; mind the needle."
    yield from (told(line, view.calls) for line in _figures(view, found))
    yield said.ABOVE_ALL


def _figures(view: FamilyView, found: Timing) -> Iterator[str]:
    """What was worked out, and what is still to be measured."""
    yield said.plain(found)
    yield from said.caveats(view, found)
    yield from (f"  {r.rise:.2f} mm  {r.degrees:5.1f}°  {r.rate:.3f} mm a degree" for r in found.table)
    for lines in (said.swing_lines, said.hook_lines, said.backlash_lines, said.belt_lines, said.gear_lines):
        yield from lines(found)
    yield from said.feed_lines(found)
    yield from said.motor_lines(found)
    yield from _gauge_lines(view)
    yield from said.missing_lines(found)
