"""Failure modes and checks, each on a page of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial

from generator.library import sits_on
from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.pages.piece import Piece
from generator.pages.records.check_uses import Uses, check_uses
from generator.records.model import FailureMode, Outcome
from generator.watched import Known
from generator.wording.jobs.quotes import own_jobs
from generator.wording.links import Links
from generator.wording.places import place

_SHOWN = 8
"Complaints that stand open on a check's page; the rest are folded away."


def pieces(maker: Maker) -> tuple[Piece, Piece]:
    """Every failure mode, then every check."""
    told = check_uses(maker.bench)
    return (
        maker.each({place("failure-mode", id): id for id in maker.records.failure_modes}, lambda _: partial(_failure_mode, maker)),
        maker.each({place("check", id): id for id in maker.records.checks}, lambda _: partial(_check, maker, told)),
    )


def _failure_mode(maker: Maker, id: str) -> PageText:
    mode, address = maker.records.failure_modes[id], place("failure-mode", id)
    families = maker.backlinks.families_of_mode.get(mode.id, ())
    view = maker.library.for_family(families[0]) if families else None
    link = Links(maker.library, address, homes=view)
    source = maker.records.sources.get(mode.source or "")
    back = maker.backlinks
    return maker.page(
        address,
        mode.title,
        "failure-mode.html",
        homes=view,
        search=texts(mode.title, mode.signs, mode.comes_about),
        mode=mode,
        seen=f"{mode.seen:g}",
        source_words=source.title if source else (mode.source or "").replace("-", " "),
        seats=_seats(maker, mode, link),
        looks_like=[k for k in mode.looks_like if back.share_a_family(mode.id, k.mode)],
        jobs=_jobs(maker, mode, link),
        checks=back.checks_of_mode.get(mode.id, ()),
        symptoms=_symptoms(maker, back.symptoms_of_mode.get(mode.id, ()), [mode.id]),
        taken_for=[m for m in back.taken_for.get(mode.id, ()) if back.share_a_family(mode.id, m)],
    )


def _seats(maker: Maker, mode: FailureMode, link: Links) -> list[dict[str, str]]:
    item = sits_on(mode)
    kind = "part" if mode.part else "setting"
    return [
        {"href": link(kind, item, home), "title": _title(maker, home, item), "assembly": link.title("assembly", home)}
        for home in maker.backlinks.homes_of_mode(mode)
    ]


def _title(maker: Maker, home: str, item: str) -> str:
    assembly = maker.records.assemblies[home]
    return (assembly.parts.get(item) or assembly.settings[item]).title


def _jobs(maker: Maker, mode: FailureMode, link: Links) -> list[dict[str, object]]:
    """The job on each family that can have the failure mode."""
    rows = []
    for family in maker.backlinks.families_of_mode.get(mode.id, ()):
        view = maker.library.for_family(family)
        remedy = maker.bench.remedies(view)[mode.id]
        sheet = maker.bench.sheet_of(view, remedy.id)
        minutes = maker.bench.whole_minutes(view, remedy)
        own = maker.bench.recorded(view, remedy)
        rows.append({"href": link("jobs", sheet, family), "title": view.name, "minutes": minutes, "own": own and own_jobs(own)})
    return rows


def _symptoms(maker: Maker, symptoms: Sequence[str], modes: Sequence[str]) -> list[dict[str, object]]:
    """Symptoms with the families on which any of the failure modes brings them about."""
    rows: list[dict[str, object]] = []
    for symptom in symptoms:
        families = [
            f
            for f in maker.backlinks.families_of_symptom.get(symptom, ())
            if any(m in maker.library.for_family(f).failure_modes for m in modes)
        ]
        rows.append({"id": symptom, "title": maker.library.titles[f"symptom/{symptom}"], "benches": families})
    return rows


def _check(maker: Maker, uses: Known[Uses], id: str) -> PageText:
    check, told = maker.records.checks[id], uses(id)
    modes = sorted({m for o in check.outcomes for r in o.fits for m in maker.library.fitted(r)})
    best = sorted(told, key=lambda s: (-max(told[s].values()), s))
    rest = sorted({s for m in modes for s in maker.backlinks.symptoms_of_mode.get(m, ())} - set(best[:_SHOWN]))
    return maker.page(
        place("check", check.id),
        check.title,
        "check.html",
        search=texts(check.title, check.how, [o.says for o in check.outcomes]),
        check=check,
        outcomes=[_outcome(maker, o) for o in check.outcomes],
        trust=round(check.trust * 100),
        symptoms=[_use(maker, s, told[s]) for s in best[:_SHOWN]],
        others=_symptoms(maker, rest, modes),
        settings=maker.backlinks.settings_proved.get(check.id, ()),
    )


def _use(maker: Maker, symptom: str, families: Mapping[str, float]) -> dict[str, object]:
    """A symptom with the families on which the check tells its causes apart, by id."""
    return {"id": symptom, "title": maker.library.titles[f"symptom/{symptom}"], "benches": sorted(families)}


def _outcome(maker: Maker, outcome: Outcome) -> dict[str, object]:
    modes = sorted({m for reference in outcome.fits for m in maker.library.fitted(reference)})
    return {
        "says": outcome.says,
        "means": outcome.means,
        "pictures": outcome.pictures,
        "cured": outcome.cured,
        "otherwise": outcome.otherwise,
        "modes": modes,
    }
