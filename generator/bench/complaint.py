"""One symptom on one family: its tree, its hypotheses with their shares, and its checks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import fsum

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import SOMETHING_ELSE, Doubt
from generator.analysis.evidence import Rate
from generator.analysis.fault_tree import CutSets, minimal_cut_sets
from generator.analysis.folding import Folded
from generator.analysis.machine import Machine, Remedy
from generator.analysis.odds import Share, shares
from generator.analysis.tree import Gate, event_ids
from generator.bench.doubt import NONE_OF_THESE, doubt, sound_outcome
from generator.bench.odds import found_behind, met, weights
from generator.bench.remedies import together
from generator.family_view import FamilyView
from generator.library import Library
from generator.records.model import Check as CheckRecord
from generator.records.model import Symptom


@dataclass(frozen=True, slots=True)
class Complaint:
    """Everything that diagnosis needs of one symptom on one family."""

    view: FamilyView
    symptom_id: str
    folded: Folded
    rates: Mapping[str, Rate]
    "Failure mode id -> how often it is met on this family, whatever the machine was brought in for."
    cut_sets: CutSets
    chance: float
    "That a machine of the family comes in with the complaint: an estimate."
    odds: Mapping[str, Share]
    "Hypothesis id -> its share of the complaint."
    case: Case
    "Hypotheses are the minimal cut sets, named by their causes joined with '+'."
    doubt: Doubt
    "The same case, with what may deceive, fail or not be listed."

    @property
    def pair(self) -> str:
        """Family and symptom, as one name."""
        return f"{self.view.id}/{self.symptom_id}"

    @property
    def symptom(self) -> Symptom:
        """Its record; who asks for it has read it."""
        return self.view.symptoms[self.symptom_id]

    @property
    def title(self) -> str:
        """The symptom's name on this family."""
        return self.view.title("symptom", self.symptom_id)

    @property
    def tree(self) -> Gate:
        """The family's tree; a complaint always has one."""
        assert self.folded.tree is not None
        return self.folded.tree

    @property
    def probabilities(self) -> dict[str, float]:
        """Failure mode id -> probability that a machine of this family has it and comes in with this complaint.

        One that brings the complaint about only together with others counts as often as it is met.
        """
        alone = {h: min(self.chance * share.mean, 0.999) for h, share in self.odds.items()}
        return {mode: alone.get(mode, rate.mean) for mode, rate in self.rates.items()}

    def share(self, hypothesis: Hypothesis) -> float:
        """Of the jobs with this complaint, before anything was seen; the unlisted cause has the rest."""
        return hypothesis.share * (1 - self.doubt.unlisted)

    def rests_on(self, hypothesis: str) -> str:
        """What a hypothesis' share rests on: jobs with this complaint, or the author's estimate."""
        if hypothesis == SOMETHING_ELSE:
            return "nothing in this book"
        if "+" in hypothesis:
            return "two faults together"
        share, rate = self.odds[hypothesis], self.rates[hypothesis]
        if share.jobs:
            return f"{share.found or 'none'} of {share.jobs} bench jobs with this complaint"
        if not rate.found:
            return "author's estimate"
        known = any(f.symptom for t in self.view.tallies for f in t.found if f.mode == hypothesis)
        return f"author's estimate; met with {'other complaints' if known else 'a complaint that was not noted'}"


def complaint(
    library: Library,
    view: FamilyView,
    symptom: Symptom,
    folded: Folded,
    machine: Machine,
    remedies: Mapping[str, Remedy],
) -> Complaint:
    """Puts a complaint together. The tree must not be empty."""
    assert folded.tree is not None
    rates = {mode: met(view, mode) for mode in event_ids(folded.tree)}
    cut_sets = minimal_cut_sets(folded.tree, {m: r.mean for m, r in rates.items()})
    chances = weights(library, view, symptom.id, cut_sets.sets)
    odds = shares(chances, found_behind(view, symptom.id))
    hypotheses = tuple(
        Hypothesis(
            id="+".join(causes),
            causes=causes,
            share=odds["+".join(causes)].mean,
            remedy=together(remedies[c] for c in causes),
        )
        for causes in cut_sets.sets
    )
    telling = library.telling({cause for causes in cut_sets.sets for cause in causes})
    checks = tuple(
        check
        for record in view.checks.values()
        if not record.only_for or symptom.id in record.only_for
        if record.id in telling or tells_of_anything(record)
        if (check := _check(library, record, hypotheses)) is not None
    )
    case = Case(hypotheses, checks, machine, library.records.shop.proving_sew)
    doubtful = doubt(view, symptom, case, library.records.shop)
    return Complaint(view, symptom.id, folded, rates, cut_sets, fsum(chances.values()), odds, case, doubtful)


def tells_of_anything(record: CheckRecord) -> bool:
    """Whether what no outcome fits shows otherwise than a sound machine does."""
    return _outcome(record, [frozenset()] * len(record.outcomes), ()) != sound_outcome(record)


def _check(library: Library, record: CheckRecord, hypotheses: tuple[Hypothesis, ...]) -> Check | None:
    """The check as it bears on these hypotheses, or None where none shows anything but what a sound machine does."""
    fitted = [
        frozenset().union(*(library.fitted(reference) for reference in outcome.fits))
        for outcome in record.outcomes
    ]
    told, unseen = frozenset().union(*fitted), _unseen(record)
    sees = {h.id: unseen if told.isdisjoint(h.causes) else _outcome(record, fitted, h.causes) for h in hypotheses}
    cured = frozenset(i for i, outcome in enumerate(record.outcomes) if outcome.cured)
    sound = sound_outcome(record)
    if set(sees.values()) == {sound}:
        return None
    says = tuple(outcome.says for outcome in record.outcomes)
    if len(record.outcomes) in {sound, *sees.values()}:
        says += (NONE_OF_THESE,)
    return Check(record.id, record.minutes, record.reach, says, sees, cured)


def _outcome(record: CheckRecord, fitted: list[frozenset[str]], causes: tuple[str, ...]) -> int:
    """The first outcome that shows the causes: any one of them, or all where it cures."""
    for number, outcome in enumerate(record.outcomes):
        enough = all if outcome.cured else any
        if fitted[number] and enough(cause in fitted[number] for cause in causes):
            return number
    return _unseen(record)


def _unseen(record: CheckRecord) -> int:
    """What a cause shows that no outcome names."""
    return next((number for number, outcome in enumerate(record.outcomes) if outcome.otherwise), len(record.outcomes))
