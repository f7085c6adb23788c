"""Invented cases, the same for the same number."""

from __future__ import annotations

from random import Random

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.machine import Machine, MachinePart, MachineSetting, Remedy

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
    parts: dict[str, MachinePart] = {}
    for n in range(rng.randint(1, 10)):
        behind = _some(rng, sorted(parts))
        minutes = rng.choice((0.0, 0.5, 1.0, 2.0, 5.0)), rng.choice((0.5, 1.0, 2.0, 4.0))
        parts[f"p{n}"] = MachinePart(f"p{n}", behind, *minutes, _some(rng, settings))
    made = {s: _random_setting(rng, s, settings, sorted(parts)) for s in settings}
    return Machine(parts, made)


def _random_setting(rng: Random, id: str, settings: list[str], parts: list[str]) -> MachineSetting:
    minutes = rng.choice((1.0, 4.0, 8.0, 20.0))
    return MachineSetting(id, minutes, (), _some(rng, settings), _some(rng, parts))


def random_remedy(rng: Random, number: int, machine: Machine) -> Remedy:
    """Renews, sets, cleans, or several of these."""
    parts, settings = sorted(machine.parts), sorted(machine.settings)
    minutes = rng.choice((0.0, 1.0, 3.0, 10.0))
    made = _some(rng, parts), _some(rng, settings), _some(rng, parts)
    return Remedy(f"r{number:02}", *made, minutes)


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


COVERS = ("bed-cover", "face-plate", "motor-cover", "needle-plate", "slide-plate", "top-cover")
INNER = ("belt", "bobbin-case", "feed-dog", "hook-gear", "needle", "presser-bar", "tension-unit")
ADJUSTED = ("feed-timing", "hook-timing", "needle-bar-height", "presser-height", "thread-tension")


def bench_case(number: int, causes: int, checks: int) -> Case:
    """A complaint as met at the bench: parts behind covers, most causes with their own remedy."""
    rng = Random(number)
    machine = _bench_machine(rng)
    remedies = [_bench_remedy(rng, n, machine) for n in range(max(2, causes * 4 // 5))]
    chosen = remedies + rng.choices(remedies, k=causes - len(remedies))
    hypotheses = tuple(
        Hypothesis(f"h{n:02}", (f"h{n:02}",), rng.lognormvariate(0, 1), remedy)
        for n, remedy in enumerate(chosen)
    )
    made = tuple(_bench_check(rng, n, causes) for n in range(checks))
    return Case(hypotheses, made, machine, 2.0)


def _bench_machine(rng: Random) -> Machine:
    parts = {c: MachinePart(c, (), rng.choice((0.5, 1, 2, 3)), rng.choice((0.5, 1, 2, 3))) for c in COVERS}
    for inner in INNER:
        minutes = rng.choice((0.5, 1, 3, 6)), rng.choice((0.5, 1, 3, 6))
        upset = tuple(rng.sample(ADJUSTED, rng.choice((0, 0, 1))))
        parts[inner] = MachinePart(inner, _covers(rng), *minutes, upset)
    often = (4, 6, 8, 12, 20)
    settings = {s: MachineSetting(s, rng.choice(often), reach=_covers(rng)) for s in ADJUSTED}
    return Machine(parts, settings)


def _covers(rng: Random) -> tuple[str, ...]:
    return tuple(rng.sample(COVERS, rng.choice((0, 1, 1, 2))))


def _bench_remedy(rng: Random, number: int, machine: Machine) -> Remedy:
    kind = rng.choice(("renew", "set", "clean"))
    if kind == "renew":
        return Remedy(f"r{number:02}", renew=(rng.choice(INNER),))
    if kind == "set":
        return Remedy(f"r{number:02}", set=(rng.choice(ADJUSTED),))
    reach = tuple(rng.sample(sorted(machine.parts), rng.choice((0, 1))))
    return Remedy(f"r{number:02}", reach=reach, minutes=rng.choice((1, 2, 3, 5, 10)))


def _bench_check(rng: Random, number: int, causes: int) -> Check:
    """A few hypotheses show something, the others the last outcome. Some are trial remedies."""
    trial = rng.random() < 0.15
    outcomes = 2 if trial else rng.choice((2, 2, 2, 3, 3, 4))
    sees = {f"h{n:02}": outcomes - 1 for n in range(causes)}
    size = rng.choice((1, 1, 2, 2, 3, 4, causes // 3))
    for outcome in range(outcomes - 1):
        sees |= dict.fromkeys(rng.sample(sorted(sees), min(size, causes)), outcome)
    reach = tuple(rng.sample(COVERS, rng.choice((0, 0, 0, 1, 1, 2))))
    says = tuple(f"outcome {n}" for n in range(outcomes))
    cured = frozenset({0} if trial else ())
    return Check(f"c{number:02}", rng.choice((0.5, 1, 1, 2, 3, 5)), reach, says, sees, cured)
