"""A complaint with its doubts: what a sound machine shows, and which remedies want a proof."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from generator.analysis import minutes
from generator.analysis.doubt.case import Doubt, Reading
from generator.analysis.machine import Remedy
from generator.bench.complaint import NONE_OF_THESE, Complaint
from generator.bench.prices import price
from generator.records.model import Check as CheckRecord
from generator.records.model import Shop


def doubt(complaint: Complaint, shop: Shop) -> Doubt:
    """The complaint's case, its readings as the records have them, dear remedies by the shop's line."""
    checks, readings = [], {}
    for check in complaint.case.checks:
        record = complaint.view.checks[check.id]
        sound = _sound(record)
        if sound == len(check.outcomes):
            check = replace(check, outcomes=(*check.outcomes, NONE_OF_THESE))
        checks.append(check)
        readings[check.id] = Reading(sound, (record.trust,) * len(check.outcomes), _does(complaint, record))
    remedies = {h.remedy.id: h.remedy for h in complaint.case.hypotheses}
    own = complaint.view.family.unlisted
    return Doubt(
        case=replace(complaint.case, checks=tuple(checks)),
        readings=readings,
        unlisted=shop.unlisted if own is None else own,
        stop_minutes=shop.stop_and_think_minutes,
        dear=frozenset(r.id for r in remedies.values() if _dear(complaint, r, shop)),
        no_sign=frozenset(h.remedy.id for h in complaint.case.hypotheses if _shows_nothing(complaint, h.causes)),
        before=tuple(check for check in complaint.symptom.before if check in readings),
        lost=tuple(_lost(complaint)),
    )


def _sound(record: CheckRecord) -> int:
    """The outcome that is good, else the one that takes what no other fits, else none of the record's."""
    ordinary = [(n, o) for n, o in enumerate(record.outcomes) if not o.cured]
    named = [n for n, o in ordinary if o.good] or [n for n, o in ordinary if o.otherwise]
    return named[0] if named else len(record.outcomes)


def _does(complaint: Complaint, record: CheckRecord) -> frozenset[str]:
    """Remedies of the case that the check does on its way: those of the causes that the record names."""
    return frozenset(h.remedy.id for h in complaint.case.hypotheses if set(record.does).issuperset(h.causes))


def _lost(complaint: Complaint) -> Iterator[tuple[str, str]]:
    """(what destroys, what reads), of checks that the case has."""
    there = {check.id for check in complaint.case.checks}
    for reads in complaint.case.checks:
        for destroys in complaint.view.checks[reads.id].evidence_lost_by:
            if destroys in there:
                yield destroys, reads.id


def _dear(complaint: Complaint, remedy: Remedy, shop: Shop) -> bool:
    if minutes.remedy(complaint.case.machine, remedy, shop.proving_sew) >= shop.dear_minutes:
        return True
    prices = [price(complaint.view.parts[p], shop) for p in remedy.renew]
    return any(band is not None and band[1] >= shop.dear_price for band in prices)


def _shows_nothing(complaint: Complaint, causes: tuple[str, ...]) -> bool:
    return any(complaint.view.failure_modes[cause].no_sign for cause in causes)
