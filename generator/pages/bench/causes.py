"""The causes of a complaint, ranked, with what each share rests on."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.check_order import Hypothesis
from generator.analysis.fault_tree import importance, top_probability
from generator.bench import Bench, Complaint
from generator.records.model import FailureMode
from generator.wording import words
from generator.wording.links import Links
from generator.wording.remedies import TrialView, trial_view

SIGNS = 3
"Tell-tales shown beside a cause; its own page has all."


@dataclass(frozen=True, slots=True)
class CauseView:
    """One cause in the ranking."""

    modes: tuple[FailureMode, ...]
    share: str
    width: int
    "Percent."
    basis: str
    signs: tuple[str, ...]
    remedy: TrialView


def causes(bench: Bench, complaint: Complaint, link: Links) -> tuple[CauseView, ...]:
    """All causes, largest share first, ties by id."""
    ranked = sorted(complaint.case.hypotheses, key=lambda h: (-h.share, h.id))
    return tuple(_cause(bench, complaint, h, link) for h in ranked)


def unlisted(complaint: Complaint) -> dict[str, object]:
    """The row of the cause that no record lists."""
    share = complaint.doubt.unlisted
    return {"title": words.SOMETHING_ELSE, "share": words.percent(share), "width": round(100 * share)}


def _cause(bench: Bench, complaint: Complaint, cause: Hypothesis, link: Links) -> CauseView:
    modes = tuple(complaint.view.failure_modes[m] for m in cause.causes)
    minutes = bench.whole_minutes(complaint.view, cause.remedy)
    return CauseView(
        modes=modes,
        share=words.percent(complaint.share(cause)),
        width=round(100 * complaint.share(cause)),
        basis=basis(complaint, cause),
        signs=tuple(s for m in modes for s in m.signs[:SIGNS]),
        remedy=trial_view(bench, complaint.view, cause.remedy, cause.causes, minutes, link),
    )


def basis(complaint: Complaint, cause: Hypothesis) -> str:
    """What a share rests on, with its 90 % interval where it is a single cause's."""
    rests = complaint.rests_on(cause.id)
    rests = rests[0].upper() + rests[1:]
    if len(cause.causes) > 1:
        return f"{rests}."
    share = complaint.odds[cause.id]
    low, high = (words.percent(s * (1 - complaint.doubt.unlisted)) for s in (share.low, share.high))
    return f"{rests}; likely between {low} and {high}."


def importance_rows(complaint: Complaint) -> tuple[dict[str, str], ...]:
    """Importance figures of every failure mode, the largest Fussell-Vesely first."""
    figures = importance(complaint.tree, complaint.probabilities)
    top = top_probability(complaint.tree, complaint.probabilities).value
    ranked = sorted(figures.items(), key=lambda f: (-f[1].fussell_vesely, f[0]))
    return tuple(
        {
            "title": complaint.view.title("failure-mode", mode),
            "chance": words.percent(_given_complaint(complaint.probabilities[mode], figure.birnbaum, top)),
            "birnbaum": f"{figure.birnbaum:.3f}",
            "fussell_vesely": f"{figure.fussell_vesely:.3f}",
            "criticality": f"{figure.criticality:.3f}",
        }
        for mode, figure in ranked
    )


def _given_complaint(chance: float, birnbaum: float, top: float) -> float:
    """P(mode | complaint), by Bayes' rule: P(top | mode) is P(top) and, by Birnbaum's measure, what the mode adds."""
    return chance * (top + (1 - chance) * birnbaum) / top


def top_said(complaint: Complaint) -> str:
    """The top event's probability."""
    return f"{top_probability(complaint.tree, complaint.probabilities).value:.3f}"
