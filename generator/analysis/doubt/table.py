"""A doubtful case in numbers: every id an index, every set an integer with one bit for each.

Causes are the hypotheses of the case in their order; the unlisted cause follows them as the last.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from math import fsum
from operator import itemgetter

from generator.analysis.check_order.case import Check
from generator.analysis.doubt.case import Doubt, Reading, signs
from generator.analysis.doubt.rows import CheckRow, Mending, RemedyRow, Step, Weights, bits, numbers, picks
from generator.analysis.machine import Remedy
from generator.analysis.minutes import but_for_opening, opening

INFINITE = float("inf")


class Table:
    """A doubtful case in numbers; what is asked of it again and again is reckoned once."""

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
        self.cured = tuple(picks(causes) for causes in self.causes)
        "By remedy, the weights of the causes that it cures."
        several = [n for n, causes in enumerate(self.causes) if len(causes) > 1]
        self._several = tuple(self.cured[n] for n in several)
        places = {n: len(self.prior) + place for place, n in enumerate(several)}
        self._place = tuple(places.get(n, causes[0]) for n, causes in enumerate(self.causes))
        rows: tuple[CheckRow | RemedyRow, ...] = (*self.checks, *self.remedies)
        self.every = bits(True for _ in rows)
        "As a set of steps: the bits of the checks, and above them those of the remedies."
        self.powered = bits(c.powered for c in self.checks)
        self.first = self.check_bits(doubt.before)
        self.unproved = bits(r.needs_proof for r in self.remedies)
        "Remedies that want a proof."
        self.proofs = bits(any(n in r.proofs for r in self.remedies if r.needs_proof) for n in range(len(self.checks)))
        "Checks that can give one."
        self.waiting = tuple((1 << n, row.after) for n, row in enumerate(rows) if row.after)
        "Steps, and the checks that must be done before them."
        self.saved = doubt.cures * (doubt.stop_minutes + doubt.come_back_minutes)
        "Minutes that a whole chance to cure is worth: no stopping to think and no coming back."
        self._opening: dict[int, float] = {0: 0.0}
        self._remedy_costs: dict[int, list[float]] = {}
        self._check_costs: dict[int, list[float]] = {}
        self._telling: dict[int, list[list[int]]] = {}
        self._proofs: dict[int, list[list[tuple[float, int]]]] = {}
        self._repeats: dict[int, int] = {}
        self._steps: dict[tuple[int, int], list[Step]] = {}
        self._mending: dict[tuple[int, int, int, int], list[Mending]] = {}

    def opening(self, parts: int) -> float:
        """Off and on minutes of a set of parts."""
        if parts not in self._opening:
            self._opening[parts] = opening(self.doubt.case.machine, self.part_names(parts))
        return self._opening[parts]

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

    def remedy_costs(self, open_parts: int) -> list[float]:
        """Minutes of every remedy where these parts are open."""
        found = self._remedy_costs.get(open_parts)
        if found is None:
            found = [r.minutes + self.opening(r.parts & ~open_parts) for r in self.remedies]
            self._remedy_costs[open_parts] = found
        return found

    def check_costs(self, open_parts: int) -> list[float]:
        """Minutes of every check where these parts are open."""
        found = self._check_costs.get(open_parts)
        if found is None:
            found = [c.minutes + self.opening(c.parts & ~open_parts) for c in self.checks]
            self._check_costs[open_parts] = found
        return found

    def telling(self, tried: int) -> list[list[int]]:
        """By check, the causes that it tells and whose remedies are not done."""
        found = self._telling.get(tried)
        if found is None:
            found = [[c for c in check.tells if not tried >> self.remedy_of[c] & 1] for check in self.checks]
            self._telling[tried] = found
        return found

    def repeats(self, tried: int) -> int:
        """Trials that would only repeat remedies that were done: they count as done with them."""
        found = self._repeats.get(tried)
        if found is None:
            found = self._repeats[tried] = sum([bit for bit, does in self.trials if not does & ~tried])
        return found

    def chances(self, weights: Weights) -> Weights:
        """The weights of the causes, and after them those of the remedies that cure several: `Mending` says where each stands."""
        return (*weights, *[fsum(causes(weights)) for causes in self._several]) if self._several else weights

    def steps(self, open_parts: int, tried: int) -> list[Step]:
        """Every check and every remedy, the least minutes from here first."""
        found = self._steps.get((open_parts, tried))
        if found is None:
            minutes = (*self.check_costs(open_parts), *self.remedy_costs(open_parts))
            told = (*map(picks, self.telling(tried)), *self.cured)
            steps = [Step(m, t, 1 << n) for n, (m, t) in enumerate(zip(minutes, told, strict=True))]
            found = self._steps[open_parts, tried] = sorted(steps, key=itemgetter(0))
        return found

    def mending(self, open_parts: int, remedies: int, unproved: int, checks: int) -> list[Mending]:
        """Those of the remedies that may be worth their minutes: the unproved ones with the cheapest of the checks as a proof."""
        key = open_parts, remedies, unproved, checks
        found = self._mending.get(key)
        if found is None:
            costs, proofs = list(self.remedy_costs(open_parts)), self._cheapest_proofs(open_parts)
            for number in numbers(unproved):
                costs[number] += next((minutes for minutes, check in proofs[number] if check & checks), INFINITE)
            every = enumerate(zip(costs, self._place, strict=True))
            found = self._mending[key] = [row for n, row in every if remedies >> n & 1 and row[0] < self.saved]
        return found

    def _cheapest_proofs(self, open_parts: int) -> list[list[tuple[float, int]]]:
        """By remedy, the minutes and the bits of the checks that can prove it, the cheapest first."""
        found = self._proofs.get(open_parts)
        if found is None:
            costs = self.check_costs(open_parts)
            found = self._proofs[open_parts] = [sorted((costs[n], 1 << n) for n in r.proofs) for r in self.remedies]
        return found

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
