"""What the browser computes with, as script files: one a family, and one of all mechanisms.

A script file calls a function of `handwheel` with plain data: pages opened from disk cannot fetch.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.doubt.case import Doubt
from generator.bench import Bench, Complaint
from generator.family_view import FamilyView, sits_on
from generator.pages.data.flow import compact
from generator.pages.data.mechanisms import ADDRESS as MECHANISMS
from generator.pages.data.mechanisms import mechanism_data
from generator.pages.data.pieces import (
    ROOT,
    causes_of_remedies,
    cautions_data,
    opening_cautions,
    part_data,
    remedy_data,
    setting_data,
    shown_check_data,
)
from generator.pages.data.script import FOLDER, script
from generator.pages.data.shapes import DoubtData, FamilyData, FamilyMode, FamilyRemedy, SymptomData
from generator.wording import words
from generator.wording.links import Links
from generator.wording.remedies import in_one_line, remedy_words


def data_files(bench: Bench) -> Iterator[tuple[str, str]]:
    """Address and content of every data file."""
    for view in bench.library.views:
        yield from family_files(bench, view)
    yield from mechanism_files(bench)


def family_files(bench: Bench, view: FamilyView) -> Iterator[tuple[str, str]]:
    """Address and content of one family's."""
    yield family_address(view.id), script("family", family_data(bench, view))


def mechanism_files(bench: Bench) -> Iterator[tuple[str, str]]:
    """Address and content of that of all mechanisms."""
    yield MECHANISMS, script("mechanisms", mechanism_data(bench))


def family_address(family: str) -> str:
    """Where a family's data stands, from the site's root."""
    return f"{FOLDER}/{family}.js"


def family_data(bench: Bench, view: FamilyView) -> FamilyData:
    """Everything that scripts need of one family."""
    link, machine = Links(bench.library, ROOT), bench.machine(view)
    used = {c.id for s in view.symptoms for c in bench.complaint(view, s).case.checks}
    return {
        "id": view.id,
        "title": view.name,
        "kind": view.family.kind,
        "by_hand": view.by_hand,
        "proving": bench.library.records.shop.proving_sew,
        "mains_test": bench.library.records.shop.mains_test,
        "found_out": bench.library.records.shop.found_out,
        "parts": {
            p.id: {**part_data(p, machine.parts[p.id].loses), "home": view.home_of[p.id], "cautions": opening_cautions(p)}
            for p in view.parts.values()
        },
        "settings": {s.id: {**setting_data(s), "home": view.home_of[s.id]} for s in view.settings.values()},
        "modes": dict(_modes(bench, view)),
        "remedies": dict(_remedies(bench, view, link)),
        "checks": {name: shown_check_data(view.checks[name], bench.library.records) for name in sorted(used)},
        "cautions": cautions_data(bench.library.records.cautions.values()),
        "symptoms": {s: _symptom(bench, bench.complaint(view, s)) for s in sorted(view.symptoms)},
    }


def _modes(bench: Bench, view: FamilyView) -> Iterator[tuple[str, FamilyMode]]:
    remedies = bench.remedies(view)
    for mode in view.failure_modes.values():
        yield mode.id, {
            "title": mode.title,
            "sits_on": sits_on(mode),
            "signs": [words.plain(s) for s in mode.signs],
            "remedy": remedies[mode.id].id,
            "cautions": mode.cautions,
        }


def _remedies(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, FamilyRemedy]]:
    """Every remedy of a failure mode, and the joint ones of hypotheses with several causes."""
    found = dict(causes_of_remedies(bench, view))
    for symptom in sorted(view.symptoms):
        for cause in bench.complaint(view, symptom).case.hypotheses:
            found.setdefault(cause.remedy.id, (cause.remedy, list(cause.causes)))
    for name, (remedy, causes) in sorted(found.items()):
        sheet = bench.sheet_of(view, name)
        yield name, {
            **remedy_data(remedy),
            "says": in_one_line(remedy_words(bench, view, remedy, causes, link)),
            "sheet": link("jobs", sheet, view.id) if sheet else "",
        }


def _symptom(bench: Bench, complaint: Complaint) -> SymptomData:
    case = complaint.case
    found = bench.diagnosed(complaint)
    return {
        "title": complaint.title,
        "said": complaint.symptom.said_as,
        "hypotheses": [
            {
                "id": h.id,
                "causes": h.causes,
                "share": complaint.share(h),
                "remedy": h.remedy.id,
                "rests": complaint.rests_on(h.id),
            }
            for h in case.hypotheses
        ],
        "checks": [
            {
                "id": c.id,
                "says": c.outcomes,
                "sees": [c.sees[h.id] for h in case.hypotheses],
                "cured": sorted(c.cured),
                "sound": complaint.doubt.readings[c.id].sound,
                "trust": complaint.doubt.readings[c.id].trust,
                "does": sorted(complaint.doubt.readings[c.id].does),
            }
            for c in case.checks
        ],
        "doubt": doubt_data(complaint.doubt),
        "policy": compact(found.order.policy),
        "expected": found.order.expected_minutes,
    }


def doubt_data(doubt: Doubt) -> DoubtData:
    """What may deceive, fail or not be listed, what comes first and what is lost."""
    return {
        "unlisted": doubt.unlisted,
        "stop": doubt.stop_minutes,
        "come_back": doubt.come_back_minutes,
        "cures": doubt.cures,
        "wants_proof": sorted(doubt.dear - doubt.no_sign),
        "before": doubt.before,
        "safe": sorted(doubt.safe),
        "powered": sorted(doubt.powered),
        "lost": [{"by": by, "reads": reads} for by, reads in doubt.lost],
    }
