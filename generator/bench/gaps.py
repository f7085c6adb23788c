"""What the records leave open: one rule, one function; each finding says where it stands."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

from generator.analysis.coverage import silent_checks
from generator.analysis.doubt.case import unprovable
from generator.bench.bench import Bench
from generator.bench.coverage import PairCoverage, Pairs
from generator.family_view import FamilyView
from generator.records.as_used import unmet
from generator.records.model import Part, Setting
from generator.records.trees import can_occur
from generator.watched import Known

T = TypeVar("T")

KINDS = {
    "cause-not-named": "Causes that no check names",
    "check-changes-nothing": "Checks that change nothing",
    "mode-without-sign": "Failure modes without a sign",
    "mode-with-one-sign": "Failure modes with one sign alone",
    "dear-remedy-without-proof": "Causes whose dear remedy no check can prove",
    "mode-without-remedy": "Failure modes whose remedy names nothing that the machine has",
    "symptom-not-listed": "Symptoms that a machine can have but does not list",
    "joint-without-note": "Joints without a fastener note",
    "setting-without-target": "Settings without a target",
    "setting-without-proof": "Settings that no check proves",
    "part-without-price": "Parts that wear, without a price",
}
"Kind -> its heading, in the order of the page."


@dataclass(frozen=True, slots=True)
class Gap:
    """One thing that the records do not say."""

    kind: str
    "A key of `KINDS`."
    record: str
    "Id of what the gap is about."
    record_kind: str
    'Of `record`: "failure-mode", "check", "symptom", "joint", "setting" or "part".'
    family: str | None = None
    "None: the gap stands for every family."
    symptom: str | None = None
    "None: the gap stands for every symptom."


class Gaps:
    """The gaps of families and of their complaints, found once each."""

    def __init__(self, bench: Bench, pairs: Pairs) -> None:
        watch = bench.library.watch
        self._bench, self._pairs = bench, pairs
        self._of_pair = Known(watch, "gaps.pair", lambda pair: self._found(_PAIR_RULES, self._coverage(pair)), dear=True)
        self._of_view = Known(watch, "gaps.family", lambda family: self._found(_VIEW_RULES, bench.library.for_family(family)), dear=True)
        self._telling = Known(watch, "gaps.telling", lambda pair: _telling(self._coverage(pair)), dear=True)

    def of(self, families: Sequence[str] = ()) -> tuple[Gap, ...]:
        """Every gap of the families named, or of all; in the order of `KINDS`, then by id."""
        views = [v for v in self._bench.library.views if not families or v.id in families]
        pairs = [f"{view.id}/{symptom}" for view in views for symptom in sorted(view.symptoms)]
        found = {gap for view in views for gap in self._of_view(view.id)}.union(*map(self._of_pair, pairs))
        telling = frozenset[str]().union(*map(self._telling, pairs))
        idle = {check for view in views for check in view.checks} - telling
        found |= {Gap("check-changes-nothing", check, "check") for check in idle}
        order = list(KINDS)
        return tuple(sorted(found, key=lambda g: (order.index(g.kind), g.family or "", g.symptom or "", g.record)))

    def _coverage(self, pair: str) -> PairCoverage:
        family, _, symptom = pair.partition("/")
        return self._pairs.of(self._bench.complaint(self._bench.library.for_family(family), symptom))

    def _found(self, rules: Iterable[Callable[[Bench, T], Iterator[Gap]]], of: T) -> tuple[Gap, ...]:
        return tuple(gap for rule in rules for gap in rule(self._bench, of))


def _telling(pair: PairCoverage) -> tuple[str, ...]:
    """The checks that tell anything of a complaint."""
    case = pair.complaint.case
    silent = silent_checks(case)
    return tuple(check.id for check in case.checks if check.id not in silent)


def _not_named(bench: Bench, pair: PairCoverage) -> Iterator[Gap]:
    for hypothesis in pair.unnamed:
        yield Gap("cause-not-named", hypothesis, "failure-mode", pair.complaint.view.id, pair.complaint.symptom_id)


def _no_proof(bench: Bench, pair: PairCoverage) -> Iterator[Gap]:
    complaint = pair.complaint
    wanting = unprovable(complaint.doubt)
    for hypothesis in complaint.case.hypotheses:
        if hypothesis.remedy.id in wanting:
            yield Gap("dear-remedy-without-proof", hypothesis.id, "failure-mode", complaint.view.id, complaint.symptom_id)


def _signs(bench: Bench, view: FamilyView) -> Iterator[Gap]:
    for mode in view.failure_modes.values():
        if len(mode.signs) < 2:
            yield Gap("mode-with-one-sign" if mode.signs else "mode-without-sign", mode.id, "failure-mode")


def _no_remedy(bench: Bench, view: FamilyView) -> Iterator[Gap]:
    for mode in view.failure_modes.values():
        spec = mode.remedy
        there = {*spec.renew, *spec.clean} & view.parts.keys() or set(spec.set) & view.settings.keys()
        if not there and not spec.advise:
            yield Gap("mode-without-remedy", mode.id, "failure-mode", view.id)


def _not_listed(bench: Bench, view: FamilyView) -> Iterator[Gap]:
    for symptom in bench.library.records.symptoms.values():
        able = not unmet(view.family.features, symptom.needs, symptom.lacks)
        unlisted = able and symptom.id not in view.symptoms
        if unlisted and can_occur(symptom.tree, view.failure_modes.__contains__, bench.library.gates):
            yield Gap("symptom-not-listed", symptom.id, "symptom", view.id, symptom.id)


def _no_note(bench: Bench, view: FamilyView) -> Iterator[Gap]:
    items: tuple[Part | Setting, ...] = (*view.parts.values(), *view.settings.values())
    for joint in {j for item in items for j in item.joints} - view.fasteners.keys():
        yield Gap("joint-without-note", joint, "joint", view.id)


def _settings(bench: Bench, view: FamilyView) -> Iterator[Gap]:
    """A family's own target or proof fills the gap for that family alone."""
    for setting in view.settings.values():
        if setting.target is None:
            yield Gap("setting-without-target", setting.id, "setting", view.id)
        if setting.proved_by is None:
            yield Gap("setting-without-proof", setting.id, "setting", view.id)


def _no_price(bench: Bench, view: FamilyView) -> Iterator[Gap]:
    prices = bench.library.records.shop.prices
    for part in view.parts.values():
        if part.wears and not part.price and part.id not in prices:
            yield Gap("part-without-price", part.id, "part", view.id)


_PAIR_RULES = (_not_named, _no_proof)
_VIEW_RULES = (_signs, _no_remedy, _not_listed, _no_note, _settings, _no_price)
