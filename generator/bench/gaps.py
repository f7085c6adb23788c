"""What the records leave open: one rule, one function; each finding says where it stands."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from generator.analysis.coverage import silent_checks
from generator.analysis.doubt.case import unprovable
from generator.bench.bench import Bench
from generator.bench.coverage import Coverage
from generator.family_view import FamilyView
from generator.records.as_used import unmet
from generator.records.model import FailureMode, Part, Setting
from generator.records.trees import can_occur

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


Rule = Callable[[Bench, Sequence[FamilyView], Coverage], Iterator[Gap]]


def gaps(bench: Bench, coverage: Coverage, families: Sequence[str] = ()) -> tuple[Gap, ...]:
    """Every gap of the families named, or of all; in the order of `KINDS`, then by id."""
    views = [v for v in bench.library.views if not families or v.id in families]
    found = {gap for rule in _RULES for gap in rule(bench, views, coverage)}
    order = list(KINDS)
    return tuple(
        sorted(found, key=lambda g: (order.index(g.kind), g.family or "", g.symptom or "", g.record))
    )


def _not_named(bench: Bench, views: Sequence[FamilyView], coverage: Coverage) -> Iterator[Gap]:
    for pair in coverage.pairs:
        where = pair.complaint.view.id, pair.complaint.symptom.id
        for hypothesis in pair.unnamed:
            yield Gap("cause-not-named", hypothesis, "failure-mode", *where)


def _changes_nothing(bench: Bench, views: Sequence[FamilyView], coverage: Coverage) -> Iterator[Gap]:
    cases = [pair.complaint.case for pair in coverage.pairs]
    useful = {c.id for case in cases for c in case.checks if c.id not in silent_checks(case)}
    for check in {c for v in views for c in v.checks} - useful:
        yield Gap("check-changes-nothing", check, "check")


def _signs(bench: Bench, views: Sequence[FamilyView], coverage: Coverage) -> Iterator[Gap]:
    for mode in _modes(views):
        if len(mode.signs) < 2:
            kind = "mode-with-one-sign" if mode.signs else "mode-without-sign"
            yield Gap(kind, mode.id, "failure-mode")


def _modes(views: Sequence[FamilyView]) -> Iterator[FailureMode]:
    yield from {m.id: m for v in views for m in v.failure_modes.values()}.values()


def _no_proof(bench: Bench, views: Sequence[FamilyView], coverage: Coverage) -> Iterator[Gap]:
    for complaint in (pair.complaint for pair in coverage.pairs):
        wanting = unprovable(complaint.doubt)
        for hypothesis in complaint.case.hypotheses:
            if hypothesis.remedy.id in wanting:
                where = complaint.view.id, complaint.symptom.id
                yield Gap("dear-remedy-without-proof", hypothesis.id, "failure-mode", *where)


def _no_remedy(bench: Bench, views: Sequence[FamilyView], coverage: Coverage) -> Iterator[Gap]:
    for view in views:
        for mode in view.failure_modes.values():
            spec = mode.remedy
            there = {*spec.renew, *spec.clean} & view.parts.keys() or set(spec.set) & view.settings.keys()
            if not there and not spec.advise:
                yield Gap("mode-without-remedy", mode.id, "failure-mode", view.id)


def _not_listed(bench: Bench, views: Sequence[FamilyView], coverage: Coverage) -> Iterator[Gap]:
    for view in views:
        for symptom in bench.library.records.symptoms.values():
            able = not unmet(view.family.features, symptom.needs, symptom.lacks)
            unlisted = able and symptom.id not in view.symptoms
            if unlisted and can_occur(symptom.tree, view.failure_modes.__contains__, bench.library.gates):
                yield Gap("symptom-not-listed", symptom.id, "symptom", view.id, symptom.id)


def _no_note(bench: Bench, views: Sequence[FamilyView], coverage: Coverage) -> Iterator[Gap]:
    for view in views:
        items: tuple[Part | Setting, ...] = (*view.parts.values(), *view.settings.values())
        for joint in {j for item in items for j in item.joints} - view.fasteners.keys():
            yield Gap("joint-without-note", joint, "joint", view.id)


def _settings(bench: Bench, views: Sequence[FamilyView], coverage: Coverage) -> Iterator[Gap]:
    """A family's own target or proof fills the gap for that family alone."""
    for view in views:
        for setting in view.settings.values():
            if setting.target is None:
                yield Gap("setting-without-target", setting.id, "setting", view.id)
            if setting.proved_by is None:
                yield Gap("setting-without-proof", setting.id, "setting", view.id)


def _no_price(bench: Bench, views: Sequence[FamilyView], coverage: Coverage) -> Iterator[Gap]:
    prices = bench.library.records.shop.prices
    for view in views:
        for part in view.parts.values():
            if part.wears and not part.price and part.id not in prices:
                yield Gap("part-without-price", part.id, "part", view.id)


_RULES: tuple[Rule, ...] = (
    _not_named,
    _changes_nothing,
    _signs,
    _no_proof,
    _no_remedy,
    _not_listed,
    _no_note,
    _settings,
    _no_price,
)
