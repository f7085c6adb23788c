"""The checks of a complaint in the computed order, as cards."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.analysis.check_order.worklist import Item, Row, Trial
from generator.bench import Bench, Complaint
from generator.records.model import Check
from generator.wording import words
from generator.wording.links import Links
from generator.wording.remedies import TrialView, in_one_line, trial_view

SHOWN = 3
"Causes named in a row; the rest are counted."


@dataclass(frozen=True, slots=True)
class RowView:
    """What is seen, and what it means."""

    says: str
    means: str
    cured: bool
    was: str
    causes: tuple[dict[str, str], ...]
    more: int
    trials: tuple[TrialView, ...]
    then: int | None


@dataclass(frozen=True, slots=True)
class CheckStepView:
    """One check as a card."""

    number: int
    check: Check
    cautions: tuple[str, ...]
    "Told here for the first time on the page, in full."
    known_cautions: tuple[str, ...]
    "Told above; here by name."
    danger: bool
    "Whether one of those known is a danger."
    minutes: float
    opens: tuple[str, ...]
    back: tuple[str, ...]
    "Parts off from before, for a check in which the machine turns."
    expected: float
    rows: tuple[RowView, ...]
    seen_at: int | None
    "Number of the card that already says how; None where this one does."
    instead: dict[str, str] | None


def lead(bench: Bench, complaint: Complaint, link: Links) -> tuple[TrialView, ...]:
    """Remedies that are tried before any check."""
    return tuple(_trial(bench, complaint, t, link) for t in bench.worklist(complaint).trials)


def steps(bench: Bench, complaint: Complaint, told_before: Iterable[str], link: Links) -> tuple[CheckStepView, ...]:
    """The checks in order of work; cautions that the page told before stand by name."""
    items = bench.worklist(complaint).items
    first_at = {item.check: item.number for item in reversed(items)}
    told = set(told_before)
    return tuple(_step(bench, complaint, item, first_at, told, link) for item in items)


def head_cautions(bench: Bench, complaint: Complaint) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The family's and the symptom's cautions for the head of the page: by name, and in full.

    One that a check carries stands in full there, where it is needed; so the head stays short enough to read.
    """
    view, found = complaint.view, bench.worklist(complaint)
    carried = {c for item in found.items for c in _cautions(complaint, item)}
    tried = (view.failure_modes[c].cautions for t in found.trials for h in t.cures for c in h.causes)
    own = dict.fromkeys((*view.family.cautions, *complaint.symptom.cautions, *(c for some in tried for c in some)))
    return tuple(c for c in own if c in carried), tuple(c for c in own if c not in carried)


def _cautions(complaint: Complaint, item: Item) -> tuple[str, ...]:
    """Those of the check and of the parts that come off for it, each once."""
    moves = (complaint.view.parts[p] for p in item.opens)
    own = complaint.view.checks[item.check].cautions
    return tuple(dict.fromkeys((*own, *(c for p in moves for c in (*p.cautions, *p.off.cautions)))))


def first_words(lead: Sequence[TrialView], steps: Sequence[CheckStepView]) -> dict[str, object] | None:
    """What to do first, for the head of the page: the first trial or check, where it stands, its minutes."""
    if lead:
        return {"href": "#checks", "title": in_one_line(lead[0].words), "minutes": lead[0].minutes}
    return {"href": "#step-1", "title": steps[0].check.title, "minutes": steps[0].minutes} if steps else None


def spare_checks(bench: Bench, complaint: Complaint) -> tuple[Check, ...]:
    """Checks that bear on the complaint and that the order has no need of, the quickest first."""
    used = {item.check for item in bench.worklist(complaint).items}
    spare = (complaint.view.checks[c.id] for c in complaint.case.checks if c.id not in used)
    return tuple(sorted(spare, key=lambda c: (c.minutes, c.id)))


def _step(
    bench: Bench, complaint: Complaint, item: Item, first_at: dict[str, int], told: set[str], link: Links
) -> CheckStepView:
    check = complaint.view.checks[item.check]
    cautions = _cautions(complaint, item)
    known = tuple(c for c in cautions if c in told)
    told.update(cautions)
    levels = bench.library.records.cautions
    return CheckStepView(
        number=item.number,
        check=check,
        cautions=tuple(c for c in cautions if c not in known),
        known_cautions=known,
        danger=any(levels[c].level == "danger" for c in known if c in levels),
        minutes=item.minutes,
        opens=item.opens,
        back=_back(complaint, item),
        expected=item.expected,
        rows=tuple(_row(bench, complaint, check, row, link) for row in item.rows),
        seen_at=first_at[item.check] if first_at[item.check] != item.number else None,
        instead=_instead(bench, complaint, item, first_at, link),
    )


def _back(complaint: Complaint, item: Item) -> tuple[str, ...]:
    """What was taken off for earlier checks and need not be off for this one, if the machine turns for it."""
    check = complaint.view.checks[item.check]
    if check.power == "off":
        return ()
    return tuple(sorted(item.situation.open_parts - complaint.case.machine.way_in(check.reach)))


def _row(bench: Bench, complaint: Complaint, check: Check, row: Row, link: Links) -> RowView:
    record = check.outcomes[row.outcome] if row.outcome < len(check.outcomes) else None
    names = [_cause_names(complaint, h.causes) for h in row.left]
    whole = sum(h.share for h in row.left)
    shares = [words.percent(h.share / whole) for h in row.left] if len(row.left) > 1 else [""]
    told = [
        {"href": link("failure-mode", h.causes[0]), "title": name, "share": share}
        for h, name, share in zip(row.left, names, shares, strict=True)
    ]
    return RowView(
        says=row.says,
        means=(record.means or "") if record else "",
        cured=row.cured,
        was=f"It was: {words.listed(names, 'or')}." if row.cured else "",
        causes=tuple(told[:SHOWN]),
        more=max(0, len(told) - SHOWN),
        trials=tuple(_trial(bench, complaint, t, link) for t in row.trials),
        then=row.then,
    )


def _cause_names(complaint: Complaint, causes: tuple[str, ...]) -> str:
    return words.listed([complaint.view.failure_modes[c].title for c in causes])


def _trial(bench: Bench, complaint: Complaint, trial: Trial, link: Links) -> TrialView:
    causes = tuple(dict.fromkeys(c for h in trial.cures for c in h.causes))
    remedy = trial.cures[0].remedy
    return trial_view(bench, complaint.view, remedy, causes, trial.minutes, link)


def _instead(
    bench: Bench, complaint: Complaint, item: Item, first_at: dict[str, int], link: Links
) -> dict[str, str] | None:
    """The next best check from the same place: its card if it has one, else its own page."""
    other = bench.next_best(item)
    if other is None:
        return None
    number = first_at.get(other)
    href = f"#step-{number}" if number else link("check", other)
    return {"href": href, "title": complaint.view.checks[other].title}
