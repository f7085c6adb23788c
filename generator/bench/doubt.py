"""A complaint with its doubts: what a sound machine shows, what comes first, which remedies want a proof."""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis import minutes
from generator.analysis.check_order import Case, Check
from generator.analysis.doubt.case import Doubt, Reading
from generator.analysis.machine import Remedy
from generator.bench.prices import dear_part
from generator.family_view import FamilyView
from generator.records.model import Check as CheckRecord
from generator.records.model import Shop, Symptom

NONE_OF_THESE = "None of these"
"What is seen where a record's outcomes leave a cause or a sound machine out and none is `otherwise`."


def doubt(view: FamilyView, symptom: Symptom, case: Case, shop: Shop) -> Doubt:
    """The case, its readings as the records have them, dear remedies by the shop's line."""
    remedies = {h.remedy.id: h.remedy for h in case.hypotheses}
    there = {check.id: view.checks[check.id] for check in case.checks}
    before = tuple(check for check in symptom.before if check in there)
    own = view.family.unlisted
    return Doubt(
        case=case,
        readings={c.id: _reading(case, c, there[c.id]) for c in case.checks},
        unlisted=shop.unlisted if own is None else own,
        stop_minutes=shop.stop_and_think_minutes,
        dear=frozenset(r.id for r in remedies.values() if _dear(view, case, r, shop)),
        no_sign=frozenset(h.remedy.id for h in case.hypotheses if _shows_nothing(view, h.causes)),
        before=before,
        safe=frozenset(before) if symptom.stop else frozenset(),
        powered=frozenset(c for c, record in there.items() if record.power == "on"),
        lost=tuple((by, reads) for reads, record in there.items() for by in record.evidence_lost_by if by in there),
    )


def sound_outcome(record: CheckRecord) -> int:
    """The outcome that is good, else the one that takes what no other fits, else none of the record's."""
    ordinary = [(n, o) for n, o in enumerate(record.outcomes) if not o.cured]
    named = [n for n, o in ordinary if o.good] or [n for n, o in ordinary if o.otherwise]
    return named[0] if named else len(record.outcomes)


def _reading(case: Case, check: Check, record: CheckRecord) -> Reading:
    does = frozenset(_does(case, record))
    return Reading(sound_outcome(record), (record.trust,) * len(check.outcomes), does)


def _does(case: Case, record: CheckRecord) -> Iterator[str]:
    """Remedies of the case that the check does on its way: those of the causes that the record names."""
    yield from (h.remedy.id for h in case.hypotheses if set(record.does).issuperset(h.causes))


def _dear(view: FamilyView, case: Case, remedy: Remedy, shop: Shop) -> bool:
    whole = minutes.remedy(case.machine, remedy, shop.proving_sew)
    if round(whole, 6) >= shop.dear_minutes:  # a sum of decimals that comes to 15 may be a hair below it
        return True
    return any(dear_part(view.parts[p], shop) for p in remedy.renew)


def _shows_nothing(view: FamilyView, causes: tuple[str, ...]) -> bool:
    return any(view.failure_modes[cause].no_sign for cause in causes)
