"""All mechanisms, faults and checks for the browser, of which it builds a machine that is not listed."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from generator.analysis.doubt.case import COME_BACK_MINUTES, CURES
from generator.bench import Bench
from generator.bench.prices import dear_part
from generator.family_view import sits_on
from generator.library import Library
from generator.pages.data.pieces import cautions_data, check_data, opening_cautions, part_data, setting_data
from generator.pages.data.shapes import (
    BookDoubt,
    ListedFamily,
    Mechanism,
    MechanismCheck,
    MechanismMode,
    MechanismPart,
    MechanismsData,
    MechanismSetting,
    MechanismSymptom,
    OutcomeData,
)
from generator.records.model import (
    Assembly,
    Check,
    FailureMode,
    Family,
    Part,
    Setting,
    Shop,
    Symptom,
    TreeEvent,
    TreeNode,
    TreeTransfer,
)
from generator.wording import words
from generator.wording.remedies import first_sentence

ADDRESS = "assets/handwheel/data/mechanisms.js"
"From the site's root."


def mechanism_data(bench: Bench) -> MechanismsData:
    """Everything that a family can be built from, not yet cut down to any family."""
    records = bench.library.records
    return {
        "proving": records.shop.proving_sew,
        "mains_test": records.shop.mains_test,
        "found_out": records.shop.found_out,
        "doubt": _doubt(records.shop),
        "families": [_family(f) for f in sorted(records.families.values(), key=lambda f: f.id)],
        "assemblies": [_assembly(a, records.shop) for a in sorted(records.assemblies.values(), key=lambda a: (a.role or "", a.id))],
        "features": [{"id": f.id, "title": f.title, "ask": f.ask or "", "calls": f.calls} for f in records.features.values()],
        "modes": [_mode(bench.library, m) for m in sorted(records.failure_modes.values(), key=lambda m: m.id)],
        "checks": [_check(bench.library, c) for c in records.checks.values()],
        "symptoms": [_symptom(s) for s in sorted(records.symptoms.values(), key=lambda s: (s.title, s.id))],
        "cautions": cautions_data(records.cautions.values()),
    }


def _doubt(shop: Shop) -> BookDoubt:
    return {
        "unlisted": shop.unlisted,
        "stop": shop.stop_and_think_minutes,
        "come_back": COME_BACK_MINUTES,
        "cures": CURES,
        "dear_minutes": shop.dear_minutes,
    }


def _family(family: Family) -> ListedFamily:
    return {
        "id": family.id,
        "title": family.title,
        "kind": family.kind,
        "recognise": words.plain(family.recognise or family.summary),
        "uses": [{"use": use.use, "without": use.without} for use in family.assemblies],
        "features": family.features,
        "cautions": family.cautions,
    }


def _assembly(assembly: Assembly, shop: Shop) -> Mechanism:
    return {
        "id": assembly.id,
        "title": assembly.title,
        "role": assembly.role or "other",
        "recognise": words.plain(assembly.recognise or assembly.summary or ""),
        "parts": {p.id: _part(p, shop) for p in assembly.parts.values()},
        "settings": {s.id: _setting(s) for s in assembly.settings.values()},
    }


def _part(part: Part, shop: Shop) -> MechanismPart:
    return {
        **part_data(part),
        "nips": part.on.slackens,
        "renew_with": part.renew_with,
        "cautions": opening_cautions(part),
        "dear": dear_part(part, shop),
        "needs": part.needs,
        "lacks": part.lacks,
    }


def _setting(setting: Setting) -> MechanismSetting:
    return {
        **setting_data(setting),
        "joints": setting.joints,
        "needs": setting.needs,
        "lacks": setting.lacks,
    }


def _mode(library: Library, mode: FailureMode) -> MechanismMode:
    spec = mode.remedy
    return {
        "id": mode.id,
        "title": mode.title,
        "sits_on": sits_on(mode),
        "seen": mode.seen,
        "shows": {symptom: library.shown(mode.id, symptom) for symptom in mode.shows},
        "shows_else": library.shown(mode.id, ""),
        "needs": mode.needs,
        "lacks": mode.lacks,
        "cautions": mode.cautions,
        "no_sign": bool(mode.no_sign),
        "renew": spec.renew,
        "set": spec.set,
        "clean": spec.clean,
        "reach": spec.reach,
        "minutes": spec.minutes,
        "advise": first_sentence(spec.advise) if spec.advise else "",
    }


def _check(library: Library, check: Check) -> MechanismCheck:
    return {
        **check_data(check, library.records),
        "id": check.id,
        "needs": check.needs,
        "lacks": check.lacks,
        "only_for": check.only_for,
        "does": check.does,
        "evidence_lost_by": check.evidence_lost_by,
        "outcomes": list(_outcomes(library, check)),
    }


def _outcomes(library: Library, check: Check) -> Iterator[OutcomeData]:
    for outcome in check.outcomes:
        yield {
            "says": outcome.says,
            "means": words.plain(outcome.means) if outcome.means else "",
            "fits": sorted(set(chain.from_iterable(map(library.fitted, outcome.fits)))),
            "otherwise": outcome.otherwise,
            "good": outcome.good,
            "cured": outcome.cured,
        }


def _symptom(symptom: Symptom) -> MechanismSymptom:
    return {
        "id": symptom.id,
        "title": symptom.title,
        "needs": symptom.needs,
        "lacks": symptom.lacks,
        "cautions": symptom.cautions,
        "stop": symptom.stop,
        "stop_why": words.plain(symptom.stop_why or ""),
        "first": words.plain(symptom.first or ""),
        "before": symptom.before,
        "tree": _node(symptom.tree),
    }


def _node(node: TreeNode) -> object:
    if isinstance(node, TreeEvent):
        return node.id
    if isinstance(node, TreeTransfer):
        return {"see": node.see}
    return {"id": node.id or "", "title": node.title or "", "k": node.k, "of": [_node(n) for n in node.inputs]}
