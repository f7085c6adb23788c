"""A doubtful case in numbers, and what is asked of it again and again, reckoned once."""

from __future__ import annotations

from math import fsum
from operator import itemgetter

from generator.analysis.doubt.case import Doubt
from generator.analysis.doubt.numbered import Numbered
from generator.analysis.doubt.rows import Mending, Step, Weights, numbers, picks
from generator.analysis.minutes import opening

INFINITE = float("inf")


class Table(Numbered):
    """A doubtful case in numbers with its costs: what a step takes from here, and whom it tells or cures."""

    def __init__(self, doubt: Doubt) -> None:
        super().__init__(doubt)
        self.cured = tuple(picks(causes) for causes in self.causes)
        "By remedy, the weights of the causes that it cures."
        several = [n for n, causes in enumerate(self.causes) if len(causes) > 1]
        self._several = tuple(self.cured[n] for n in several)
        places = {n: len(self.prior) + place for place, n in enumerate(several)}
        self._place = tuple(places.get(n, causes[0]) for n, causes in enumerate(self.causes))
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
