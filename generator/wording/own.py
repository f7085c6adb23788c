"""What a page says of records that are the shop's own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from generator.records.model import Records
from generator.wording import words
from generator.wording.links import Titled

SHOWN = 6
"Entries that a page names; the rest are counted."


def own_words(records: Records, about: Iterable[tuple[str, str]]) -> str:
    """What of these records, by kind and id, comes from a shop's own folder; empty where nothing does."""
    said = [entry for kind, id in about if (entry := _entry(records, kind, id))]
    more = len(said) - SHOWN
    return "; ".join(said[:SHOWN]) + (f"; and {more} more" if more > 0 else "")


def _entry(records: Records, kind: str, id: str) -> str:
    own = records.own.get(kind, {}).get(id)
    if own is None:
        return ""
    title = _title(records, kind, id)
    return f"{title} ({words.listed([_key(k) for k in own.keys])})" if own.keys else title


def _key(key: str) -> str:
    """A key as people read it.

    >>> _key("parts.hook-gear.off.minutes")
    'parts: hook gear: off: minutes'
    """
    return ": ".join(words.spaced(word) for word in key.replace("_", "-").split("."))


def _title(records: Records, kind: str, id: str) -> str:
    groups: dict[str, Mapping[str, Titled]] = {
        "family": records.families,
        "assembly": records.assemblies,
        "symptom": records.symptoms,
        "failure-mode": records.failure_modes,
        "check": records.checks,
        "technique": records.techniques,
        "fasteners": records.families,
    }
    record = groups.get(kind, {}).get(id)
    title = record.title if record else words.spaced(id)
    return f"fasteners of {title}" if kind == "fasteners" else title
