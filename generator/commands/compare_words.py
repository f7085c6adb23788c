"""What `compare` says, as text, as Markdown and as JSON."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Callable, Iterable, Iterator
from dataclasses import asdict

from generator.bench.changes import Changes, Fall, OrderChange, PlanChange, RecordChange
from generator.records.kinds import KINDS
from generator.records.model import Records

_WIDTH = 120
"Characters of a line of text."

Section = tuple[str, list[tuple[str, ...]], tuple[str, ...]]
"Heading, rows, and the headings of their columns."


def sections(found: Changes, records: Records) -> Iterator[Section]:
    """Everything that changed, by what a reviewer asks first; empty sections are left out."""
    lost = [o for o in found.order_changes if o.minutes_now is None]
    gained = [o for o in found.order_changes if o.minutes_before is None]
    moved = [o for o in found.order_changes if o.minutes_now is not None and o.minutes_before is not None]
    all_sections: tuple[Section, ...] = (
        ("Complaints lost", [_complaint(o, records) for o in lost], ("machine", "complaint")),
        ("Complaints gained", [(*_complaint(o, records), _minutes(o.minutes_now)) for o in gained], ("machine", "complaint", "minutes")),
        ("Orders of checks that moved", [_moved(o, records) for o in moved], _MOVED),
        ("Where new failure modes fall in checks", [_fall(f, records) for f in found.falls], ("failure mode", "check", "outcome", "how")),
        ("Told apart no more", [_alike(a, records) for a in found.ambiguous], ("machine", "complaint", "causes", "share")),
        ("Jobs that are others", [_plan(p, records) for p in found.plans], _PLANS),
        ("New records", [_record(r) for r in found.added], ("kind", "id", "title")),
        ("Records taken away", [_record(r) for r in found.removed], ("kind", "id", "title")),
        *((f"{KINDS[r.kind].noun.capitalize()}: {r.title or r.id}", _values(r), ("key", "before", "now")) for r in found.changed),
    )
    yield from (section for section in all_sections if section[1])


_MOVED = ("machine", "complaint", "minutes before", "now", "first before", "first now", "causes that came", "went")
_PLANS = ("machine", "failure mode", "minutes before", "now", "what is done otherwise")


def _complaint(o: OrderChange, records: Records) -> tuple[str, str]:
    symptom = records.symptoms.get(o.symptom)
    return o.family, symptom.title if symptom else o.symptom


def _moved(o: OrderChange, records: Records) -> tuple[str, ...]:
    came, went = set(o.causes_now) - set(o.causes_before), set(o.causes_before) - set(o.causes_now)
    first = (o.first_before or "", "the same" if o.first_before == o.first_now else o.first_now or "")
    minutes = _minutes(o.minutes_before), _minutes(o.minutes_now)
    return *_complaint(o, records), *minutes, *first, ", ".join(sorted(came)), ", ".join(sorted(went))


def _minutes(value: float | None) -> str:
    return "" if value is None else f"{value:.1f}"


_HOW = {
    "named": "named in `fits`",
    "rest": "not named: it falls to the outcome for all else",
    "nowhere": "no outcome takes it",
}


def _fall(fall: Fall, records: Records) -> tuple[str, ...]:
    return fall.mode, records.checks[fall.check].title, fall.says, _HOW[fall.how]


def _alike(alike: object, records: Records) -> tuple[str, ...]:
    family, symptom, causes, share = (getattr(alike, name) for name in ("family", "symptom", "causes", "share"))
    return family, records.symptoms[symptom].title, ", ".join(causes), f"{share:.0%}"


def _plan(plan: PlanChange, records: Records) -> tuple[str, ...]:
    words = (("off too", plan.off), ("stays on", plan.left), ("set too", plan.made), ("not set", plan.kept))
    said = "; ".join(f"{what}: {', '.join(ids)}" for what, ids in words if ids)
    return plan.family, records.failure_modes[plan.mode].title, _minutes(plan.minutes_before), _minutes(plan.minutes_now), said


def _record(change: RecordChange) -> tuple[str, ...]:
    return KINDS[change.kind].noun, change.id, change.title


def _values(change: RecordChange) -> list[tuple[str, ...]]:
    return [(value.key, value.before, value.now) for value in change.values]


def as_text(found: Changes, records: Records) -> str:
    """Sections with their rows, wrapped for a terminal."""
    lines: list[str] = []
    for heading, rows, columns in sections(found, records):
        lines += [heading, *(line for row in rows for line in _row(row, columns)), ""]
    return "\n".join(lines).rstrip() or "Nothing has changed."


def _row(row: Iterable[str], columns: Iterable[str]) -> Iterator[str]:
    """The first cell, and the others by the names of their columns, in one line if they fit; empty ones are left out."""
    cells = [cell if not number else f"{name}: {cell}" for number, (name, cell) in enumerate(zip(columns, row, strict=False)) if cell]
    whole = f"  {'; '.join(cells)}"
    if len(whole) <= _WIDTH:
        yield whole
        return
    for number, cell in enumerate(cells):
        yield from textwrap.wrap(cell, _WIDTH, initial_indent="  " if number == 0 else "    ", subsequent_indent="      ")


def as_markdown(found: Changes, records: Records) -> str:
    """Sections as tables."""
    lines: list[str] = []
    for heading, rows, columns in sections(found, records):
        lines += [f"### {_cell(heading)}", "", _table_row(columns), _table_row("---" for _ in columns)]
        lines += [*(_table_row(map(_cell, row)) for row in rows), ""]
    return "\n".join(lines).rstrip() or "Nothing has changed."


def _table_row(cells: Iterable[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _cell(text: str) -> str:
    """Words of a record as they stand: nothing in them makes a link, a tag, a mention or a new cell."""
    return " ".join(text.split()).translate(_SAFE)


_SAFE = {ord(sign): f"&#{ord(sign)};" for sign in "\\|<>[]@#*_`&"}


def as_json(found: Changes, records: Records) -> str:
    """All of it as data."""
    whole = asdict(found)
    for name in ("added", "removed", "changed"):
        for record, change in zip(whole[name], getattr(found, name), strict=True):
            record["keys"] = list(change.keys)
    return json.dumps(whole, indent=2, ensure_ascii=False)


FORMS: dict[str, Callable[[Changes, Records], str]] = {"text": as_text, "markdown": as_markdown, "json": as_json}
"Name of a form -> its writer."
