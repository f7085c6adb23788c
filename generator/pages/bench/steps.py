"""The checks of a complaint in the computed order, as cards."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from generator.analysis.check_order import Hypothesis
from generator.analysis.doubt.worklist import Ending, Item, Row, Trial
from generator.bench import Bench, Complaint
from generator.records.model import Check, Picture
from generator.wording import words
from generator.wording.links import Links
from generator.wording.remedies import TrialView, in_one_line, trial_view

SHOWN = 3
"Causes named in a row at most."


@dataclass(frozen=True, slots=True)
class OnwardView:
    """A step named where no card follows: a check with its card or page, or a remedy with its sheet."""

    title: str
    href: str
    card: int | None
    "Number of the card that tells how; None where there is none."


@dataclass(frozen=True, slots=True)
class EndView:
    """What follows where the written order ends."""

    stop: bool
    "Stop and think; else the written order ends here, for few jobs come so far."
    minutes: float
    "Still to expect."
    onward: OnwardView | None
    "The next step; None for stopping to think."
    unproved: tuple[TrialView, ...]
    "Remedies that are still likely, and whose sign nothing has shown."


@dataclass(frozen=True, slots=True)
class RowView:
    """What is seen, and what it means."""

    says: str
    means: str
    cured: bool
    was: str
    unlikely: bool
    strange: bool
    "Whether nothing listed shows it: its causes are only what would be there without it."
    causes: tuple[dict[str, str], ...]
    trials: tuple[TrialView, ...]
    again: TrialView | None
    "Where it is unlikely: the remedy if a second look shows the same."
    then: int | None
    end: EndView | None
    pictures: tuple[Picture, ...] = ()
    "Of what is seen."
    as_next: bool = False
    "Whether the next row is followed by the very same; paper says it once, under the last of them."

    @property
    def follows(self) -> tuple[object, ...]:
        """All that a brief row says beside what is seen."""
        onward = self.end.onward if self.end else None
        return self.means, self.unlikely, self.strange, self.causes, self.again, onward

    @property
    def brief(self) -> bool:
        """Whether all that follows is the name of the next step: said in one line."""
        return not self.trials and self.end is not None and self.end.onward is not None


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
    instead: OnwardView | None
    "What is best where it shows none of these or cannot be done; None: to stop and think."


def lead(bench: Bench, complaint: Complaint, link: Links) -> tuple[TrialView, ...]:
    """Remedies that are tried before any check."""
    return tuple(_trial(bench, complaint, t, link) for t in bench.worklist(complaint).trials)


def steps(bench: Bench, complaint: Complaint, told_before: Iterable[str], link: Links) -> tuple[CheckStepView, ...]:
    """The checks in order of work; cautions that the page told before stand by name."""
    items = bench.worklist(complaint).items
    first_at = _first_at(bench, complaint)
    told = set(told_before)
    return tuple(_step(bench, complaint, item, first_at, told, link) for item in items)


def _first_at(bench: Bench, complaint: Complaint) -> dict[str, int]:
    """Check -> the number of the first card that has it."""
    return {item.check: item.number for item in reversed(bench.worklist(complaint).items)}


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
        rows=_marked([_row(bench, complaint, check, row, first_at, link) for row in item.rows]),
        seen_at=first_at[item.check] if first_at[item.check] != item.number else None,
        instead=_onward(bench, complaint, item.instead, first_at, link),
    )


def _back(complaint: Complaint, item: Item) -> tuple[str, ...]:
    """What was taken off for earlier checks and need not be off for this one, if the machine turns for it."""
    check = complaint.view.checks[item.check]
    if check.power == "off":
        return ()
    return tuple(sorted(item.open_parts - complaint.case.machine.way_in(check.reach)))


def _marked(rows: Sequence[RowView]) -> tuple[RowView, ...]:
    """The rows, with those marked that say the same as the one below them."""
    pairs = zip(rows, (*rows[1:], None), strict=True)
    return tuple(replace(row, as_next=_alike(row, below)) for row, below in pairs)


def _alike(row: RowView, below: RowView | None) -> bool:
    return below is not None and row.brief and below.brief and row.follows == below.follows


def _row(
    bench: Bench, complaint: Complaint, check: Check, row: Row, first_at: dict[str, int], link: Links
) -> RowView:
    record = check.outcomes[row.outcome] if row.outcome < len(check.outcomes) else None
    names = [_cause_names(complaint, h.causes) for h, _ in row.left if h]
    return RowView(
        says=row.says,
        means=(record.means or "") if record else "",
        cured=row.cured,
        was=f"It was: {words.listed(names[:SHOWN], 'or')}." if row.cured and names else "",
        unlikely=row.unlikely,
        strange=row.strange,
        causes=() if row.strange else tuple(_left(complaint, h, share, link) for h, share in row.left[:SHOWN]),
        trials=tuple(_trial(bench, complaint, t, link) for t in row.trials),
        again=_trial(bench, complaint, row.again, link) if row.again else None,
        then=row.then,
        end=_end(bench, complaint, row.ending, first_at, link) if row.ending else None,
        pictures=record.pictures if record else (),
    )


def _left(complaint: Complaint, cause: Hypothesis | None, share: float, link: Links) -> dict[str, str]:
    if cause is None:
        return {"href": "", "title": words.SOMETHING_ELSE, "share": words.percent(share)}
    title = _cause_names(complaint, cause.causes)
    return {"href": link("failure-mode", cause.causes[0]), "title": title, "share": words.percent(share)}


def _cause_names(complaint: Complaint, causes: tuple[str, ...]) -> str:
    return words.listed([complaint.view.title("failure-mode", c) for c in causes])


def _trial(bench: Bench, complaint: Complaint, trial: Trial, link: Links) -> TrialView:
    causes = tuple(dict.fromkeys(c for h in trial.cures for c in h.causes))
    remedy = trial.cures[0].remedy
    return trial_view(bench, complaint.view, remedy, causes, trial.minutes, link)


def _end(bench: Bench, complaint: Complaint, end: Ending, first_at: dict[str, int], link: Links) -> EndView:
    if end.stop:
        unproved = tuple(_whole(bench, complaint, r, link) for r in end.stop.unproved)
        return EndView(True, end.stop.minutes, None, unproved)
    assert end.beyond is not None
    onward = _onward(bench, complaint, end.beyond.next, first_at, link)
    return EndView(onward is None, end.beyond.minutes, onward, ())


def _whole(bench: Bench, complaint: Complaint, remedy_id: str, link: Links) -> TrialView:
    """A remedy with the minutes of its whole job."""
    cures = [h for h in complaint.case.hypotheses if h.remedy.id == remedy_id]
    causes = tuple(dict.fromkeys(c for h in cures for c in h.causes))
    remedy = cures[0].remedy
    return trial_view(bench, complaint.view, remedy, causes, bench.whole_minutes(complaint.view, remedy), link)


def _onward(bench: Bench, complaint: Complaint, step: str, first_at: dict[str, int], link: Links) -> OnwardView | None:
    """A check or a remedy by its id; None for stopping to think."""
    if not step:
        return None
    if step in complaint.view.outcomes:
        card = first_at.get(step)
        return OnwardView(complaint.view.title("check", step), f"#step-{card}" if card else link("check", step), card)
    whole = _whole(bench, complaint, step, link)
    return OnwardView(in_one_line(whole.words), whole.sheet, None)
