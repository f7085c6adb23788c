"""Invented cases, the same for the same number."""

from __future__ import annotations

from random import Random

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.machine import Machine, Part, Remedy, Setting

FEW = (0, 0, 0, 1, 1, 2)
"How many parts or settings something needs or upsets."


def random_case(number: int, causes: tuple[int, int], checks: tuple[int, int]) -> Case:
    """Nested covers, settings upset, remedies shared, trial remedies, two to four outcomes.

    The second number of `causes` and of `checks` is the most there may be.
    """
    rng = Random(number)
    machine = random_machine(rng)
    remedies = [random_remedy(rng, n, machine) for n in range(rng.randint(1, causes[1]))]
    count = rng.randint(*causes)
    hypotheses = tuple(
        Hypothesis(f"h{n:02}", (f"h{n:02}",), rng.lognormvariate(0, 1), rng.choice(remedies))
        for n in range(count)
    )
    made = tuple(random_check(rng, n, count, machine) for n in range(rng.randint(*checks)))
    return Case(hypotheses, made, machine, rng.choice((0.0, 2.0, 2.0, 5.0)))


def random_machine(rng: Random) -> Machine:
    """Up to ten parts, each behind some of those before it, and up to five settings."""
    settings = [f"s{n}" for n in range(rng.randint(1, 5))]
    parts: dict[str, Part] = {}
    for n in range(rng.randint(1, 10)):
        behind = _some(rng, sorted(parts))
        minutes = rng.choice((0.0, 0.5, 1.0, 2.0, 5.0)), rng.choice((0.5, 1.0, 2.0, 4.0))
        parts[f"p{n}"] = Part(f"p{n}", behind, *minutes, _some(rng, settings))
    made = {
        s: Setting(s, rng.choice((1.0, 4.0, 8.0, 20.0)), (), _some(rng, settings), _some(rng, sorted(parts)))
        for s in settings
    }
    return Machine(parts, made)


def random_remedy(rng: Random, number: int, machine: Machine) -> Remedy:
    """Renews, sets, cleans, or several of these."""
    parts, settings = sorted(machine.parts), sorted(machine.settings)
    minutes = rng.choice((0.0, 1.0, 3.0, 10.0))
    return Remedy(f"r{number:02}", _some(rng, parts), _some(rng, settings), _some(rng, parts), minutes)


def random_check(rng: Random, number: int, causes: int, machine: Machine) -> Check:
    """Most hypotheses show the last outcome; one check in five is a trial remedy."""
    outcomes = rng.choice((2, 2, 2, 3, 4))
    odd = rng.choice((0.15, 0.3, 0.6))
    sees = {
        f"h{n:02}": rng.randrange(outcomes) if rng.random() < odd else outcomes - 1
        for n in range(causes)
    }
    cured = frozenset({rng.randrange(outcomes)} if rng.random() < 0.2 else ())
    minutes, reach = rng.choice((0.0, 0.5, 1.0, 2.0, 5.0)), _some(rng, sorted(machine.parts))
    says = tuple(f"outcome {n}" for n in range(outcomes))
    return Check(f"c{number:02}", minutes, reach, says, sees, cured)


def _some(rng: Random, ids: list[str]) -> tuple[str, ...]:
    return tuple(sorted(rng.sample(ids, min(rng.choice(FEW), len(ids)))))
