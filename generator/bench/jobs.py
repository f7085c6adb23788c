"""From what must be put right on a family to the plan, the money and the tools that it takes."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.analysis.job.money import Quote, Rates, quote
from generator.analysis.job.plan import plan
from generator.analysis.job.types import Plan, Practice, Weights
from generator.analysis.machine import Machine, Remedy
from generator.bench.keys import joint_keys, with_keys
from generator.bench.recorded import Recorded, recorded
from generator.bench.remedies import with_companions
from generator.family_view import FamilyView
from generator.records.model import Shop


@dataclass(frozen=True, slots=True)
class Job:
    """One visit to the bench for one or several remedies."""

    remedies: tuple[Remedy, ...]
    modes: tuple[str, ...]
    "Failure modes that it puts right, by id."
    plan: Plan
    quote: Quote | None
    "None while the shop gives no rate for labour."
    recorded: Recorded | None
    "What the shop's own jobs took; the quote then rests on it. None where too few are known, or several remedies are asked."
    tools: tuple[str, ...]
    "Those of the steps, of the remedies, of the checks that prove the settings, and the keys of the joints, by id."


def job(
    view: FamilyView,
    machine: Machine,
    practice: Practice,
    closing: float,
    asked: Iterable[Remedy],
    serves: Mapping[str, Remedy],
    shop: Shop,
    tools: Container[str],
) -> Job:
    """Plan the remedies as one job and price it.

    `closing` is the minutes of the tests that it ends in, `serves` every failure mode of the family with its remedy; `tools` are those that
    the book knows. Raises ValueError where nothing is asked and for what the machine has not.
    """
    remedies = tuple(dict.fromkeys(asked))
    planned = plan(machine, practice, remedies, Weights(proving_minutes=closing))
    modes = tuple(sorted(mode for mode, remedy in serves.items() if remedy in remedies))
    took = recorded(view, modes, shop) if len(remedies) == 1 else None
    priced = quote(planned, practice, rates(shop), took.minutes if took else None) if shop.labour_rate else None
    return Job(remedies, modes, planned, priced, took, _tools(view, planned, modes, tools))


def rates(shop: Shop) -> Rates:
    """What the shop charges, its decimals taken as they are written.

    A shop says only how far real minutes run over a plan, so the short end is the plan itself.
    What it says of tax are words to print; no share is added.

    >>> rates(Shop(labour_rate=48, spread=0.25, rounding=5)).spread
    (1, Fraction(5, 4))
    """
    return Rates(
        labour=_exact(shop.labour_rate),
        currency=shop.currency,
        margin=_exact(shop.margin),
        spread=(1, 1 + _exact(shop.spread)),
        rounding=_exact(shop.rounding),
    )


def renewing(part: str, view: FamilyView) -> Remedy:
    """The remedy that renews a part and those that are always renewed with it."""
    parts = with_companions((part,), view)
    return Remedy("+".join(f"renew:{p}" for p in parts), renew=parts)


def setting(made: str) -> Remedy:
    """The remedy that makes one setting."""
    return Remedy(f"set:{made}", set=(made,))


def _exact(number: float) -> Fraction:
    return Fraction(str(number))


def _tools(view: FamilyView, planned: Plan, modes: Iterable[str], known: Container[str]) -> tuple[str, ...]:
    proofs = (step.part for step in planned.steps if step.do == "check")
    checked = (tool for check in proofs for tool in view.check_tools[check])
    remedied = (tool for mode in modes for tool in view.specs[mode].tools)
    return with_keys({*planned.tools, *checked, *remedied}, joint_keys(view, joints_worked(view, planned), known))


def joints_worked(view: FamilyView, planned: Plan) -> set[str]:
    """Joints that any step undoes, slackens, loosens or does up."""
    moved = {j for s in planned.steps if s.do == "take off" for j in (*s.joints, *view.parts[s.part].off.slackens)}
    return moved | {j for s in planned.steps if s.do == "set" for j in view.settings[s.part].joints}
