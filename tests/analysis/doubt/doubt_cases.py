"""Invented doubtful cases, the same for the same number."""

from __future__ import annotations

from random import Random

from generator.analysis.check_order.case import Case, Check
from generator.analysis.doubt.case import Doubt, Reading
from tests.analysis.check_order.order_cases import bench_case, random_case


def small_doubt(number: int) -> Doubt:
    """Up to three causes and three checks, with every kind of doubt and of rule."""
    rng = Random(1000 + number)
    return _doubt(rng, random_case(number, (1, 3), (0, 3)))


def bench_doubt(number: int, causes: int, checks: int) -> Doubt:
    """A complaint as met at the bench."""
    rng = Random(2000 + number)
    case = bench_case(number, causes, checks)
    remedies = sorted({h.remedy.id for h in case.hypotheses})
    dear = frozenset(r for r in remedies if rng.random() < 0.3)
    return Doubt(case, {c.id: _reading(rng, c, remedies, (0.95,)) for c in case.checks}, dear=dear)


def _doubt(rng: Random, case: Case) -> Doubt:
    remedies = sorted({h.remedy.id for h in case.hypotheses})
    checks = [c.id for c in case.checks]
    dear = frozenset(r for r in remedies if rng.random() < 0.5)
    before = tuple(c.id for c in case.checks if not c.cured and rng.random() < 0.15)
    return Doubt(
        case=case,
        readings={c.id: _reading(rng, c, remedies, (0.6, 0.8, 0.95, 0.95, 1.0)) for c in case.checks},
        unlisted=rng.choice((0.0, 0.03, 0.2)),
        stop_minutes=rng.choice((2.0, 5.0, 15.0)),
        come_back_minutes=rng.choice((0.0, 20.0, 60.0, 120.0)),
        cures=rng.choice((0.7, 0.97, 1.0)),
        dear=dear,
        no_sign=frozenset(r for r in sorted(dear) if rng.random() < 0.3),
        before=before,
        safe=frozenset(c for c in before if rng.random() < 0.6),
        powered=frozenset(c for c in checks if c not in before and rng.random() < 0.5),
        lost=tuple(_lost(rng, [c for c in checks if c not in before], checks, remedies)),
    )


def _lost(rng: Random, free: list[str], checks: list[str], remedies: list[str]) -> list[tuple[str, str]]:
    """Pairs without a round: a check loses its evidence only by a later one, or by a remedy."""
    pairs = [(b, a) for a in free for b in free if a < b and rng.random() < 0.15]
    return pairs + [(r, c) for r in remedies for c in checks if rng.random() < 0.08]


def _reading(rng: Random, check: Check, remedies: list[str], trusts: tuple[float, ...]) -> Reading:
    ordinary = [n for n in range(len(check.outcomes)) if n not in check.cured]
    trust = tuple(rng.choice(trusts) for _ in check.outcomes)
    does = frozenset(r for r in remedies if check.cured and rng.random() < 0.2)
    return Reading(ordinary[-1], trust, does)
