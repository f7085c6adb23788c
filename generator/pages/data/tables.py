"""A family's charts as tables that any spreadsheet opens: comma-separated values, cells in quotes as RFC 4180 has them."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator

from generator.family_view import FamilyView
from generator.wording import words
from generator.wording.joints import joint_title
from generator.wording.ranges import range_words

_FORMULA = ("=", "+", "-", "@", "\t")
"What a spreadsheet takes for the beginning of a formula. Common practice, from memory."

CHARTS = ("fasteners", "oil", "settings")


def table_address(chart: str, family: str) -> str:
    """Where a chart's table stands, from the site's root.

    >>> table_address("oil", "tessaly-40")
    'tables/oil-tessaly-40.csv'
    """
    return f"tables/{chart}-{family}.csv"


def tables(view: FamilyView) -> Iterator[tuple[str, str]]:
    """Address and content of a family's tables: fasteners, oil points, settings."""
    for chart, rows in zip(CHARTS, (_fasteners(view), _oil(view), _settings(view)), strict=True):
        yield table_address(chart, view.id), as_csv(rows)


def as_csv(rows: Iterable[Iterable[object]]) -> str:
    """Rows as text, each cell as words: none is taken for a formula.

    >>> as_csv([["joint", "note"], ["gear", "=1+1"], ["cap", None]])
    "joint,note\\ngear,'=1+1\\ncap,\\n"
    """
    text = io.StringIO(newline="")
    csv.writer(text, lineterminator="\n").writerows([_safe(cell) for cell in row] for row in rows)
    return text.getvalue()


def _safe(cell: object) -> str:
    said = "" if cell is None else str(cell).replace("\r", "")
    return f"'{said}" if said.startswith(_FORMULA) else said


def _fasteners(view: FamilyView) -> Iterator[tuple[object, ...]]:
    yield "joint", "title", "count", "kind", "thread", "hand", "length", "key", "torque", "source"
    for joint, f in view.fasteners.items():
        yield joint, joint_title(f), f.count, f.kind, f.thread, f.hand, f.length, f.drive, f.torque, f.source


def _oil(view: FamilyView) -> Iterator[tuple[object, ...]]:
    yield "point", "title", "mechanism", "drops", "oil", "how", "every", "source"
    for assembly, o in view.oil():
        title, how = o.title or words.spaced(o.point).capitalize(), words.plain(o.how) if o.how else None
        yield o.point, title, assembly.title, o.drops, o.oil, how, o.every, o.source


def _settings(view: FamilyView) -> Iterator[tuple[object, ...]]:
    yield "setting", "title", "minutes", "measure", "target", "after", "upsets", "proved by", "source"
    for s in view.settings.values():
        t = s.target
        said = (t.measure, range_words(t), t.source) if t else (None, None, None)
        yield s.id, s.title, s.minutes, *said[:2], " ".join(s.after), " ".join(s.disturbs), s.proved_by, said[2]
