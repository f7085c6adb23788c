"""`fastener`: the key, the near misses and the turns to clear for one screw."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator

import click

from generator.analysis.fasteners.answer import ScrewAnswer, answer
from generator.analysis.fasteners.holding import CAUTION
from generator.commands.refusing import refuse
from generator.standards.keys import KIND_WORDS, Key, Kind
from generator.standards.notation import parse_thread, threads_like
from generator.standards.quantity import NUMBER, Quantity


@click.command()
@click.argument("thread")
@click.option(
    "--kind", type=click.Choice(list(KIND_WORDS)), default="set", show_default=True, help="What sort of socket screw it is."
)
@click.option("--shaft", metavar="D", help="How thick the shaft is, with --flat: '8 mm', '5/16 in'; a bare number is mm.")
@click.option("--flat", metavar="W", help="How wide the flat on it is, with --shaft.")
@click.option("--json", "as_json", is_flag=True, help="Give the answer as data.")
def fastener(thread: str, kind: Kind, shaft: str | None, flat: str | None, as_json: bool) -> None:
    """Say which key THREAD takes, which wrong keys nearly fit, and how far to back it off a flat.

    THREAD as people write it: 10-32, 1/4-20, M4, M4x0.5, 11/64-40.
    """
    if (shaft is None) != (flat is None):
        refuse("--shaft and --flat belong together: give both or neither.")
    try:
        found = answer(parse_thread(thread), kind, _mm(shaft), _mm(flat))
    except ValueError as error:
        refuse(str(error))
    click.echo(json.dumps(as_data(found), indent=2, ensure_ascii=False) if as_json else "\n".join(as_lines(found)))


def as_data(found: ScrewAnswer) -> dict[str, object]:
    """The answer as plain data for JSON; lengths in mm."""
    thread, key, backing = found.thread, found.key, found.backing
    return {
        "thread": thread.name,
        "kind": found.kind,
        "series": thread.series,
        "diameter_mm": float(thread.diameter_mm),
        "pitch_mm": float(thread.pitch_mm),
        "threads_per_inch": float(thread.threads_per_inch),
        "source": thread.source or None,
        "key": str(key.size) if key else None,
        "key_mm": key.mm if key else None,
        "key_source": key.source if key else None,
        "key_inferred_from": key.screw or None if key else None,
        "caveat": found.caveat or None,
        "near_misses": [
            {"key": str(m.key), "mm": m.key.number("mm"), "miss_mm": m.miss_mm, "fit": m.fit, "says": m.says}
            for m in found.near_misses
        ],
        "tapping_drill_mm": float(found.tapping_drill.mm),
        "clearance_drill_mm": float(found.clearance_drill.mm),
        "drill_source": found.tapping_drill.source,
        "lookalikes": [{"thread": like.thread.name, "says": like.says} for like in found.lookalikes],
        "seating": [
            {"torque_lbf_in": row.seating_torque_lbf_in, "holding_lbf": row.holding_force_lbf, "source": row.source}
            for row in found.charts
        ],
        "seating_caution": CAUTION if found.charts else None,
        "flat_depth_mm": backing.flat_depth_mm if backing else None,
        "turns_to_clear": backing.turns_to_clear if backing else None,
        "turns_advised": backing.turns_advised if backing else None,
        "margin_mm": backing.margin_mm if backing else None,
        "advice": backing.advice if backing else None,
    }


def as_lines(found: ScrewAnswer) -> Iterator[str]:
    """The answer in a few lines for a person at the bench."""
    yield _thread_line(found)
    if found.key:
        yield f"Key: {_in_both(found.key)} ({found.key.source})"
    if found.caveat:
        yield found.caveat
    yield from (f"  {miss.says}" for miss in found.near_misses)
    yield (
        f"Drill: {float(found.tapping_drill.mm):.2f} mm to tap, {float(found.clearance_drill.mm):.2f} mm to clear "
        f"({found.tapping_drill.source})"
    )
    if found.lookalikes:
        yield f"Start in its hole and do not belong: {', '.join(like.thread.name for like in found.lookalikes)}"
    if found.charts:
        torques = " or ".join(f"{row.seating_torque_lbf_in:g} ({row.source})" for row in found.charts)
        yield f"Seating torque in charts: {torques} lbf·in. {CAUTION}"
    if found.backing:
        yield f"Flat: {found.backing.flat_depth_mm:.2f} mm deep. {found.backing.advice}"


def _thread_line(found: ScrewAnswer) -> str:
    thread = found.thread
    start = (
        f"{thread.name} {KIND_WORDS[found.kind]}: {float(thread.diameter_mm):.4g} mm thick, "
        f"pitch {float(thread.pitch_mm):.3g} mm, {float(thread.threads_per_inch):.3g} to the inch"
    )
    if thread.source:
        return f"{start} ({thread.source})"
    near = ", ".join(like.name for like in threads_like(thread))
    return f"{start}. No table here lists it; the nearest are {near}."


def _in_both(key: Key) -> str:
    return str(key.size) if key.size.unit == "mm" else f"{key.size}, {key.mm:.2f} mm"


def _mm(text: str | None) -> float | None:
    """A length in mm; a bare number is mm."""
    if text is None:
        return None
    bare = re.fullmatch(NUMBER, text.strip())
    return Quantity.parse(f"{text} mm" if bare else text).number("mm")
