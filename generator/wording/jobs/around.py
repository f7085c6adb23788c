"""What stands around the steps of a job sheet: cautions, parts, tray, money, what else is worth doing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.analysis.job.types import Cell, WhileOpen
from generator.analysis.machine import Remedy
from generator.bench import Bench, closing
from generator.bench.jobs import Job
from generator.family_view import FamilyView
from generator.records.model import FailureMode, Family, Records, Shop
from generator.wording import words
from generator.wording.joints import joint_title
from generator.wording.links import Links
from generator.wording.ranges import price_words
from generator.wording.remedies import in_one_line, remedy_words

PROVING = "proving-sew"
"The technique that every job ends with, where the records have it."

SHOWN_OPEN = 6
"Parts offered while the machine is open: those that save the most minutes."


@dataclass(frozen=True, slots=True)
class PartView:
    """A part to have before the machine is opened."""

    id: str
    price: str
    stock: str


@dataclass(frozen=True, slots=True)
class CellView:
    """A cell of the tray map."""

    number: int
    holds: str
    of: str
    "Title of the part that it comes from."


@dataclass(frozen=True, slots=True)
class WorkView:
    """What the records say of carrying out the remedy."""

    says: tuple[str, ...]
    "Markdown: advice and way, in that order."
    technique: str
    modes: tuple[str, ...]
    "Titles of the failure modes that it holds for; empty if for all of the sheet."


def sheet_title(bench: Bench, view: FamilyView, remedy: Remedy, modes: Sequence[str], link: Links) -> str:
    """The remedy in words, each piece of work once."""
    return in_one_line(remedy_words(bench, view, remedy, modes, link))


def throughout(view: FamilyView, job: Job, records: Records) -> tuple[str, ...]:
    """Cautions for the whole job: the machine's, those of the mechanisms opened, those of the failure modes."""
    touched = [s.part for s in job.plan.steps if s.do in ("take off", "set")]
    homes = dict.fromkeys(view.home_of[i] for i in touched)
    found = [*view.family.cautions]
    found += [c for home in homes for c in view.assemblies[home].cautions]
    for mode in (view.failure_modes[m] for m in job.modes):
        technique = records.techniques.get(mode.remedy.technique or "")
        found += [*mode.cautions, *view.needed(technique.cautions if technique else ())]
    return tuple(dict.fromkeys(found))


def parts_to_have(view: FamilyView, job: Job, shop: Shop) -> tuple[PartView, ...]:
    """Every part renewed, its price and how many lie on the shelf."""
    return tuple(_part(view, part, shop) for part in job.plan.parts)


def _part(view: FamilyView, part: str, shop: Shop) -> PartView:
    price = shop.prices.get(part, view.parts[part].price)
    count = shop.stock.get(part)
    stock = "not on the stock list" if count is None else f"{count} on the shelf" if count else "none on the shelf"
    return PartView(part, price_words(price, shop.currency) if price else "price not noted", stock)


def cells(view: FamilyView, tray: Sequence[Cell]) -> tuple[CellView, ...]:
    """The tray map, in the order of removal."""
    return tuple(CellView(c.number, _held(view, c), view.title("part", c.part)) for c in tray)


def _held(view: FamilyView, cell: Cell) -> str:
    note = view.fasteners.get(cell.holds) if cell.kind == "joint" else None
    if note is None:
        return words.spaced(cell.holds).capitalize()
    return f"{note.count} × {joint_title(note)}" if note.count else joint_title(note)


def works(view: FamilyView, modes: Sequence[str]) -> tuple[WorkView, ...]:
    """The ways of carrying out the remedy, equal ones told once."""
    ways: dict[tuple[tuple[str, ...], str], list[FailureMode]] = {}
    for mode in (view.failure_modes[m] for m in modes):
        says = tuple(filter(None, (mode.remedy.advise, mode.remedy.how)))
        if says or mode.remedy.technique:
            ways.setdefault((says, mode.remedy.technique or ""), []).append(mode)
    for_all = len(ways) == 1 and len(next(iter(ways.values()))) == len(modes)
    return tuple(
        WorkView(says, technique, () if for_all else tuple(m.title for m in held))
        for (says, technique), held in ways.items()
    )


def worth_doing(job: Job) -> tuple[WhileOpen, ...]:
    """Parts for which the open machine itself saves minutes, not the shared closing tests alone."""
    shared = job.plan.steps[-1].minutes
    return tuple(w for w in job.plan.while_open if w.saved_minutes > shared + 1e-9)


def proving_cautions(view: FamilyView, records: Records) -> tuple[str, ...]:
    """Those of the proving sew."""
    technique = records.techniques.get(PROVING)
    return view.needed(technique.cautions if technique else ())


def closing_tests(family: Family, shop: Shop) -> tuple[str, ...]:
    """What is sewn before the machine goes home, as far as this family can sew it."""
    return tuple(f"{test.sew}{_figure(family, test.figure)}." for test in closing.closing_tests(family, shop))


def _figure(family: Family, name: str | None) -> str:
    figure = family.figures.get(name or "")
    return f" ({figure.value})" if figure else ""
