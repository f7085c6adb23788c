"""What the browser computes with, as script files: one a family, and one of all mechanisms.

A script file calls a function of `handwheel` with plain data: pages opened from disk cannot fetch.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.check_order import to_json
from generator.bench import Bench, Complaint
from generator.family_view import FamilyView
from generator.pages.data.mechanisms import ADDRESS as MECHANISMS
from generator.pages.data.mechanisms import mechanism_data
from generator.pages.data.script import FOLDER, script
from generator.wording import words
from generator.wording.links import Links
from generator.wording.remedies import in_one_line, remedy_words

_ROOT = "index.html"
"Links in the data are from the site's root; scripts put the page's own way to the root before them."


def data_files(bench: Bench) -> Iterator[tuple[str, str]]:
    """Address and content of every data file."""
    for view in bench.library.views:
        yield family_address(view.id), script("family", family_data(bench, view))
    mechanisms = {**mechanism_data(bench), "cautions": dict(_cautions(bench))}
    yield MECHANISMS, script("mechanisms", mechanisms)


def family_address(family: str) -> str:
    """Where a family's data stands, from the site's root."""
    return f"{FOLDER}/{family}.js"


def family_data(bench: Bench, view: FamilyView) -> dict[str, object]:
    """Everything that scripts need of one family.

    Minutes are bench minutes; `rate` is [mean, low, high, found, machines]; a symptom's checks give
    for each hypothesis, in order, the index of the outcome that it shows (`sees`), and those that end
the job (`cured`): indices into the check's outcomes, from 0. A `policy` numbers outcomes from 1, as
all that a person meets does.
    """
    link = Links(bench.library, _ROOT)
    return {
        "id": view.id,
        "title": view.family.title,
        "kind": view.family.kind,
        "by_hand": view.by_hand,
        "proving": bench.library.records.shop.proving_sew,
        "parts": {p.id: _part(view, p) for p in view.parts.values()},
        "settings": {s.id: _setting(view, s, link) for s in view.settings.values()},
        "modes": dict(_modes(bench, view)),
        "remedies": dict(_remedies(bench, view, link)),
        "checks": dict(_checks(bench, view)),
        "cautions": dict(_cautions(bench)),
        "symptoms": {s: _symptom(bench, bench.complaint(view, s)) for s in sorted(view.symptoms)},
    }


def _part(view: FamilyView, part) -> dict[str, object]:
    return {
        "title": part.title,
        "home": view.home_of[part.id],
        "behind": part.behind,
        "off": part.off.minutes,
        "on": part.on.minutes,
        "disturbs": part.disturbs,
        "cautions": tuple(dict.fromkeys((*part.cautions, *part.off.cautions))),
    }


def _setting(view: FamilyView, setting, link: Links) -> dict[str, object]:
    return {
        "title": setting.title,
        "home": view.home_of[setting.id],
        "minutes": setting.minutes,
        "after": setting.after,
        "disturbs": setting.disturbs,
        "reach": setting.reach,
    }


def _modes(bench: Bench, view: FamilyView) -> Iterator[tuple[str, dict[str, object]]]:
    remedies = bench.remedies(view)
    for mode in view.failure_modes.values():
        yield mode.id, {
            "title": mode.title,
            "seat": mode.part or mode.setting,
            "signs": [words.plain(s) for s in mode.signs],
            "remedy": remedies[mode.id].id,
            "cautions": mode.cautions,
        }


def _cautions(bench: Bench) -> Iterator[tuple[str, dict[str, str]]]:
    for caution in bench.library.records.cautions.values():
        yield caution.id, {"title": caution.title, "text": words.plain(caution.text), "level": caution.level}


def _remedies(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, dict[str, object]]]:
    """Every remedy of a failure mode, and the joint ones of hypotheses with several causes."""
    causes: dict[str, list[str]] = {}
    found = {}
    for mode, remedy in sorted(bench.remedies(view).items()):
        found[remedy.id] = remedy
        causes.setdefault(remedy.id, []).append(mode)
    for symptom in sorted(view.symptoms):
        for cause in bench.complaint(view, symptom).case.hypotheses:
            found.setdefault(cause.remedy.id, cause.remedy)
            causes.setdefault(cause.remedy.id, list(cause.causes))
    for name, remedy in sorted(found.items()):
        said = remedy_words(bench, view, remedy, causes[name], link)
        sheet = bench.sheet_of(view, name)
        yield name, {
            "says": in_one_line(said),
            "renew": remedy.renew,
            "set": remedy.set,
            "reach": remedy.reach,
            "minutes": remedy.minutes,
            "sheet": link("jobs", sheet, view.id) if sheet else "",
        }


def _checks(bench: Bench, view: FamilyView) -> Iterator[tuple[str, dict[str, object]]]:
    used = {c.id for s in view.symptoms for c in bench.complaint(view, s).case.checks}
    for name in sorted(used):
        check = view.checks[name]
        yield name, {
            "title": check.title,
            "how": words.block(check.how),
            "expect": words.plain(check.expect) if check.expect else "",
            "minutes": check.minutes,
            "reach": check.reach,
            "power": check.power,
            "trust": check.trust,
            "cautions": check.cautions,
            "means": [words.plain(o.means) if o.means else "" for o in check.outcomes],
        }


def _symptom(bench: Bench, complaint: Complaint) -> dict[str, object]:
    case = complaint.case
    found = bench.diagnosed(complaint)
    return {
        "title": complaint.symptom.title,
        "said": complaint.symptom.said_as,
        "hypotheses": [
            {
                "id": h.id,
                "causes": h.causes,
                "share": h.share,
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
            }
            for c in case.checks
        ],
        "policy": to_json(found.solution.policy),
        "expected": found.solution.expected_minutes,
        "exact": found.solution.exact,
        "lower": found.solution.lower_bound,
    }
