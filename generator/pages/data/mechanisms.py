"""All mechanisms, faults and checks for the browser, of which it builds a machine that is not listed."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from generator.bench import Bench
from generator.family_view import seat
from generator.library import Library
from generator.records.model import (
    Assembly,
    Check,
    FailureMode,
    Family,
    Part,
    Setting,
    Symptom,
    TreeEvent,
    TreeNode,
    TreeTransfer,
)
from generator.wording import words
from generator.wording.remedies import first_sentence

ADDRESS = "assets/handwheel/data/mechanisms.js"
"From the site's root."


def mechanism_data(bench: Bench) -> dict[str, object]:
    """Everything that a family can be built from, not yet cut down to any family.

    `fits` names the failure modes that show an outcome, on any family; a tree's node is a failure
    mode's id, `{see}` for a transfer or `{id, title, k, of}` for a gate that takes `k` of its inputs.
    """
    records = bench.library.records
    return {
        "proving": records.shop.proving_sew,
        "families": [_family(f) for f in sorted(records.families.values(), key=lambda f: f.id)],
        "assemblies": [_assembly(a) for a in sorted(records.assemblies.values(), key=lambda a: (a.role or "", a.id))],
        "features": [{"id": f.id, "title": f.title, "ask": f.ask or ""} for f in records.features.values()],
        "modes": [_mode(m) for m in sorted(records.failure_modes.values(), key=lambda m: m.id)],
        "checks": [_check(bench.library, c) for c in records.checks.values()],
        "symptoms": [_symptom(s) for s in sorted(records.symptoms.values(), key=lambda s: (s.title, s.id))],
    }


def _family(family: Family) -> dict[str, object]:
    return {
        "id": family.id,
        "title": family.title,
        "kind": family.kind,
        "recognise": words.plain(family.recognise or family.summary),
        "uses": [{"use": use.use, "without": use.without} for use in family.assemblies],
        "features": family.features,
        "cautions": family.cautions,
    }


def _assembly(assembly: Assembly) -> dict[str, object]:
    return {
        "id": assembly.id,
        "title": assembly.title,
        "role": assembly.role or "other",
        "recognise": words.plain(assembly.recognise or assembly.summary or ""),
        "parts": {p.id: _part(p) for p in assembly.parts.values()},
        "settings": {s.id: _setting(s) for s in assembly.settings.values()},
    }


def _part(part: Part) -> dict[str, object]:
    return {
        "title": part.title,
        "behind": part.behind,
        "off": part.off.minutes,
        "on": part.on.minutes,
        "disturbs": part.disturbs,
        "renew_with": part.renew_with,
        "cautions": tuple(dict.fromkeys((*part.cautions, *part.off.cautions))),
        "needs": part.needs,
        "lacks": part.lacks,
    }


def _setting(setting: Setting) -> dict[str, object]:
    return {
        "title": setting.title,
        "minutes": setting.minutes,
        "after": setting.after,
        "disturbs": setting.disturbs,
        "reach": setting.reach,
        "needs": setting.needs,
        "lacks": setting.lacks,
    }


def _mode(mode: FailureMode) -> dict[str, object]:
    spec = mode.remedy
    return {
        "id": mode.id,
        "title": mode.title,
        "seat": seat(mode),
        "seen": mode.seen,
        "needs": mode.needs,
        "lacks": mode.lacks,
        "cautions": mode.cautions,
        "renew": spec.renew,
        "set": spec.set,
        "clean": spec.clean,
        "reach": spec.reach,
        "minutes": spec.minutes,
        "advise": first_sentence(spec.advise) if spec.advise else "",
    }


def _check(library: Library, check: Check) -> dict[str, object]:
    return {
        "id": check.id,
        "title": check.title,
        "how": words.block(check.how),
        "expect": words.plain(check.expect) if check.expect else "",
        "minutes": check.minutes,
        "reach": check.reach,
        "power": check.power,
        "trust": check.trust,
        "cautions": check.cautions,
        "needs": check.needs,
        "lacks": check.lacks,
        "only_for": check.only_for,
        "outcomes": list(_outcomes(library, check)),
    }


def _outcomes(library: Library, check: Check) -> Iterator[dict[str, object]]:
    for outcome in check.outcomes:
        yield {
            "says": outcome.says,
            "means": words.plain(outcome.means) if outcome.means else "",
            "fits": sorted(set(chain.from_iterable(map(library.fitted, outcome.fits)))),
            "otherwise": outcome.otherwise,
            "cured": outcome.cured,
        }


def _symptom(symptom: Symptom) -> dict[str, object]:
    return {
        "id": symptom.id,
        "title": symptom.title,
        "needs": symptom.needs,
        "lacks": symptom.lacks,
        "cautions": symptom.cautions,
        "stop": symptom.stop,
        "stop_why": words.plain(symptom.stop_why or ""),
        "first": words.plain(symptom.first or ""),
        "tree": _node(symptom.tree),
    }


def _node(node: TreeNode) -> object:
    if isinstance(node, TreeEvent):
        return node.id
    if isinstance(node, TreeTransfer):
        return {"see": node.see}
    return {"id": node.id or "", "title": node.title or "", "k": node.k, "of": [_node(n) for n in node.inputs]}
