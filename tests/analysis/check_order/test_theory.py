"""The solver against what is proved in the literature."""

from __future__ import annotations

from dataclasses import dataclass, field
from heapq import heapify, heappop, heappush
from itertools import product
from random import Random

import pytest

from generator.analysis.check_order import Case, Check, Hypothesis, solve
from generator.analysis.machine import Machine, MachinePart, Remedy
from generator.analysis.policy import RemedyNode

DEAR = 1000.0
"Minutes of a remedy that nobody tries before it is the only one left."


def test_independent_remedies_come_in_the_order_of_p_over_c() -> None:
    """Kadane and Simon, Optimal strategies for a class of constrained sequential problems, 1977."""
    for number in range(40):
        rng = Random(number)
        remedies = [Remedy(f"r{n}", minutes=rng.uniform(1, 30)) for n in range(rng.randint(2, 9))]
        found = [Hypothesis(f"h{n}", (), rng.uniform(0.1, 1), r) for n, r in enumerate(remedies)]
        case = Case(tuple(found), (), Machine(), 0.0)
        by_ratio = sorted(case.hypotheses, key=lambda h: -h.share / h.remedy.minutes)
        assert _remedies_in_turn(solve(case).policy) == [h.remedy.id for h in by_ratio]


def _remedies_in_turn(node: RemedyNode | None) -> list[str]:
    return [] if node is None else [node.remedy, *_remedies_in_turn(node.otherwise)]


@dataclass
class Cluster:
    """Actions behind a cover, and covers behind it."""

    opening: float
    actions: list[tuple[float, float]] = field(default_factory=list)
    inner: list[Cluster] = field(default_factory=list)


Block = list[tuple[float, float]]


def _ratio(block: Block) -> float:
    return sum(p for p, _ in block) / sum(c for _, c in block)


def _bottom_up(cluster: Cluster) -> list[Block]:
    """Blocks of a cluster by p / c, its opening merged with those that make it worth opening."""
    blocks = [[action] for action in cluster.actions]
    blocks += [block for inner in cluster.inner for block in _bottom_up(inner)]
    blocks.sort(key=_ratio, reverse=True)
    first: Block = [(0.0, cluster.opening)]
    while blocks and (_ratio(blocks[0]) > _ratio(first)):
        first += blocks.pop(0)
    return [first, *blocks]


def _minutes(blocks: list[Block]) -> float:
    left, minutes = 1.0, 0.0
    for p, c in (action for block in blocks for action in block):
        minutes += left * c
        left -= p
    return minutes


def test_covers_in_a_tree_are_opened_by_the_bottom_up_p_over_c_rule() -> None:
    """Ottosen and Jensen, arXiv 1203.3502 (2010): optimal if nothing is closed before testing."""
    for number in range(60):
        rng = Random(number)
        root, case = _cover_tree(rng)
        blocks = [[action] for action in root.actions]
        blocks += [block for inner in root.inner for block in _bottom_up(inner)]
        blocks.sort(key=_ratio, reverse=True)
        assert solve(case).expected_minutes == pytest.approx(_minutes(blocks), abs=1e-9), number


def _cover_tree(rng: Random) -> tuple[Cluster, Case]:
    """Covers behind covers with remedies behind them; the root stands open."""
    clusters = [Cluster(0.0)]
    parts: dict[str, MachinePart] = {}
    for n in range(1, rng.randint(3, 6)):
        outer, opening = rng.randrange(n), rng.uniform(1, 20)
        parts[f"p{n}"] = MachinePart(f"p{n}", (f"p{outer}",) if outer else (), opening / 2, opening / 2)
        clusters.append(Cluster(opening))
        clusters[outer].inner.append(clusters[n])
    places = [rng.randrange(len(clusters)) for _ in range(9)]
    actions = [(rng.uniform(0.1, 1), rng.uniform(1, 20), place) for place in places]
    whole = sum(p for p, _, _ in actions)
    hypotheses = []
    for n, (p, c, place) in enumerate(actions):
        clusters[place].actions.append((p / whole, c))
        remedy = Remedy(f"r{n}", reach=(f"p{place}",) if place else (), minutes=c)
        hypotheses.append(Hypothesis(f"h{n}", (), p, remedy))
    return clusters[0], Case(tuple(hypotheses), (), Machine(parts), 0.0)


def _free_form(weights: list[float], outcomes: int) -> Case:
    """A check of one minute for every way to part the hypotheses."""
    ids = [f"h{n}" for n in range(len(weights))]
    found = [Hypothesis(i, (), w, Remedy(f"r{i}", minutes=DEAR)) for i, w in zip(ids, weights)]
    says = tuple(f"outcome {n}" for n in range(outcomes))
    ways = [(0, *way) for way in product(range(outcomes), repeat=len(ids) - 1)]
    checks = [Check(f"c{n}", 1.0, (), says, dict(zip(ids, way))) for n, way in enumerate(ways)]
    return Case(tuple(found), tuple(checks), Machine(), 0.0)


def _huffman(weights: list[float], outcomes: int) -> float:
    """Weighted path length of the best code with so many letters."""
    heap = list(weights) + [0.0] * (-(len(weights) - 1) % (outcomes - 1))
    heapify(heap)
    total = 0.0
    while len(heap) > 1:
        merged = sum(heappop(heap) for _ in range(outcomes))
        total += merged
        heappush(heap, merged)
    return total


def _path_length(weights: list[float], outcomes: int) -> float:
    solution = solve(_free_form(weights, outcomes))
    assert solution.exact
    return (solution.expected_minutes - DEAR) * sum(weights)


def test_free_form_checks_of_equal_cost_give_the_textbook_huffman_length() -> None:
    """The textbook alphabet: 224 bits for weights of 45, 13, 12, 16, 9 and 5."""
    assert _path_length([5, 9, 12, 13, 16, 45], 2) == pytest.approx(224, abs=1e-8)


@pytest.mark.parametrize("outcomes", [2, 3])
@pytest.mark.parametrize("size", [4, 5, 6])
def test_free_form_checks_of_equal_cost_equal_huffman(size: int, outcomes: int) -> None:
    for number in range(4):
        rng = Random(10 * size + number)
        weights = [rng.lognormvariate(0, 1) for _ in range(size)]
        length = _huffman(weights, outcomes)
        assert _path_length(weights, outcomes) == pytest.approx(length, abs=1e-8)
