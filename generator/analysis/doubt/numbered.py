"""A doubtful case with a number for every id: a row for each check and each remedy, every set an integer with one bit for each.

Causes are the hypotheses of the case in their order; the unlisted cause follows them as the last.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from generator.analysis.check_order.case import Check
from generator.analysis.doubt.case import Doubt, Reading, signs
from generator.analysis.doubt.rows import CheckRow, RemedyRow, bits, numbers
from generator.analysis.machine import Remedy
from generator.analysis.minutes import but_for_opening


class Numbered:
    """The rows of a case, and the sets that ids stand for."""

    def __init__(self, doubt: Doubt) -> None:
        self.doubt = doubt
        case = doubt.case
        self.part_ids = tuple(sorted(case.machine.parts))
        self._part_bit = {p: 1 << n for n, p in enumerate(self.part_ids)}
        self._check_bit = {c.id: 1 << n for n, c in enumerate(case.checks)}
        found = {h.remedy.id: h.remedy for h in case.hypotheses}
        self._remedy_bit = {r: 1 << n for n, r in enumerate(found)}
        self.remedy_of = tuple(self._remedy_bit[h.remedy.id].bit_length() - 1 for h in case.hypotheses)
        self.prior = (*(h.share * (1 - doubt.unlisted) for h in case.hypotheses), doubt.unlisted)
        self.unlisted = len(case.hypotheses)
        self.before = tuple(self._check_bit[c] for c in doubt.before)
        self.checks = tuple(self._check(c, doubt.readings[c.id]) for c in case.checks)
        self.trials = tuple((1 << n, c.does) for n, c in enumerate(self.checks) if c.cured and c.does)
        self.remedies = tuple(self._remedy(r) for r in found.values())
        self.checks = tuple(replace(c, tells=self._told(n)) for n, c in enumerate(self.checks))
        self.causes = tuple(r.causes for r in self.remedies)
        "Of every remedy."
        self.powered = bits(c.powered for c in self.checks)
        self.first = self.check_bits(doubt.before)
        self.unproved = bits(r.needs_proof for r in self.remedies)
        "Remedies that want a proof."
        self.proofs = bits(any(n in r.proofs for r in self.remedies if r.needs_proof) for n in range(len(self.checks)))
        "Checks that can give one."
        rows: tuple[CheckRow | RemedyRow, ...] = (*self.checks, *self.remedies)
        self.every = bits(True for _ in rows)
        "As a set of steps: the bits of the checks, and above them those of the remedies."
        self.waiting = tuple((1 << n, row.after) for n, row in enumerate(rows) if row.after)
        "Steps, and the checks that must be done before them."

    def part_names(self, parts: int) -> tuple[str, ...]:
        """The ids of a set of parts, sorted."""
        return tuple([self.part_ids[n] for n in numbers(parts)])

    def parts(self, ids: Iterable[str]) -> int:
        """The set of the parts."""
        return sum(self._part_bit[p] for p in set(ids))

    def check_bits(self, ids: Iterable[str]) -> int:
        """The set of the checks among the ids."""
        return sum(self._check_bit.get(i, 0) for i in set(ids))

    def remedy_bits(self, ids: Iterable[str]) -> int:
        """The set of the remedies among the ids."""
        return sum(self._remedy_bit.get(i, 0) for i in set(ids))

    def _check(self, check: Check, reading: Reading) -> CheckRow:
        case = self.doubt.case
        sees = (*(check.sees[h.id] for h in case.hypotheses), reading.sound)
        outcomes = range(len(check.outcomes))
        chances = [[chance(check, reading, outcome, s) for s in outcomes] for outcome in outcomes]
        proves = tuple(self.remedy_bits(signs(case, check, reading.sound, n)) for n in outcomes)
        return CheckRow(
            id=check.id,
            minutes=check.minutes,
            parts=self.parts(case.machine.way_in(check.reach)),
            sees=sees,
            sound=reading.sound,
            outcomes=tuple(n for n in outcomes if n not in check.cured),
            cured=check.cured,
            chances=tuple(tuple([of_shown[s] for s in sees]) for of_shown in chances),
            proves=proves,
            tells=tuple(c for c, s in enumerate(sees) if s != reading.sound),
            does=self.remedy_bits(reading.does) | self._tried(check),
            safe=check.id in self.doubt.safe,
            powered=check.id in self.doubt.powered,
            after=self.check_bits(reads for by, reads in self.doubt.lost if by == check.id),
        )

    def _told(self, number: int) -> tuple[int, ...]:
        """Causes that a check tells, and those that what must wait for it tells or mends."""
        told = set(self.checks[number].tells)
        for waiting, check in enumerate(self.checks):
            if check.after >> number & 1:
                told.update(self._told(waiting))
        for remedy in self.remedies:
            if remedy.after >> number & 1:
                told.update(remedy.causes)
        return tuple(sorted(told))

    def _tried(self, check: Check) -> int:
        """Remedies that a trial does: it would cure all that they cure."""
        not_cured = {h.remedy.id for h in self.doubt.case.hypotheses if check.sees[h.id] not in check.cured}
        return self.remedy_bits(self._remedy_bit.keys() - not_cured)

    def _remedy(self, remedy: Remedy) -> RemedyRow:
        bit, case = self._remedy_bit[remedy.id], self.doubt.case
        work = case.machine.work(remedy)
        return RemedyRow(
            id=remedy.id,
            minutes=but_for_opening(case.machine, remedy, work, case.proving_minutes),
            parts=self.parts(work.parts),
            causes=tuple(n for n, r in enumerate(self.remedy_of) if 1 << r == bit),
            proofs=tuple(n for n, c in enumerate(self.checks) if any(p & bit for p in c.proves)),
            needs_proof=self.doubt.needs_proof(remedy.id),
            after=self.check_bits(reads for by, reads in self.doubt.lost if by == remedy.id),
        )


def chance(check: Check, reading: Reading, outcome: int, shows: int) -> float:
    """How likely an outcome is seen of a cause that shows a certain one."""
    others = [n for n in range(len(check.outcomes)) if n != shows and n not in check.cured]
    if outcome == shows:
        return reading.trust[shows] if others else 1.0
    return (1 - reading.trust[shows]) / len(others) if outcome in others else 0.0
