"""Which family is this machine of? The questions about it, in the order that needs the fewest looks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from generator.analysis.check_order import Case, Check, Hypothesis, Solution, solve
from generator.analysis.machine import Machine, Remedy
from generator.analysis.policy import CheckNode, Node
from generator.family_view import FamilyView
from generator.library import Library

WRONG_GUESS = 100.0
"Looks that a wrong guess costs: more than any line of questions, so that nothing is guessed that can be seen."
READING = 0.5
"Looks for every answer beyond two that has to be read and compared."
NONE_OF_THESE = "None of these"
BED = "bed"
"The question about the shape of the bed; the others are about roles of assemblies."


@dataclass(frozen=True, slots=True)
class Question:
    """One look at a machine."""

    id: str
    ask: str
    answers: tuple[str, ...]
    shows: Mapping[str, int]
    "Family id -> the answer that it shows, counted from 0."
    looks: float
    "What it takes, in glances."


@dataclass(frozen=True, slots=True)
class Key:
    """The questions and the order to ask them in."""

    questions: Mapping[str, Question]
    solution: Solution
    "Its checks are questions, its remedies are families."
    looks: float
    "Expected, with the families in the shares of `counted`."
    counted: bool
    "Whether the bench has counted every family; if not, all families weigh the same."


def key_to_families(library: Library) -> Key:
    """The key to all families, by the engine that orders checks. Raises ValueError where there are none.

    Every family is its own remedy and costs nothing itself; `WRONG_GUESS` stands for a proving sew.
    """
    views = library.views
    questions = {q.id: q for q in _telling(_questions(library), views)}
    machines = {v.id: sum(t.machines for t in v.tallies) for v in views}
    counted = all(machines.values())
    hypotheses = tuple(
        Hypothesis(v.id, (v.id,), machines[v.id] if counted else 1, Remedy(v.id)) for v in views
    )
    checks = tuple(Check(q.id, q.looks, (), q.answers, q.shows) for q in questions.values())
    solution = solve(Case(hypotheses, checks, Machine(), WRONG_GUESS))
    return Key(questions, solution, _expected_looks(solution.policy), counted)


def _expected_looks(node: Node | None) -> float:
    """Looks of every question times the share of the machines that come to it."""
    if not isinstance(node, CheckNode):
        return 0.0
    share = fsum(branch.share for branch in node.branches)
    return node.minutes * share + fsum(_expected_looks(branch.then) for branch in node.branches)


def _telling(questions: Iterator[Question], views: Sequence[FamilyView]) -> Iterator[Question]:
    """The questions that tell any two families apart."""
    return (q for q in questions if len({q.shows[v.id] for v in views}) > 1)


def _questions(library: Library) -> Iterator[Question]:
    yield from _of_beds_and_mechanisms(library)
    for figure in library.records.figures.values():
        if figure.ask:
            values = {v.id: (_value(v, figure.id),) for v in library.views}
            seen = {value: value for (value,) in values.values() if value}
            yield _choice(f"figure-{figure.id}", figure.ask, figure.looks, values, seen)
    for feature in sorted(library.records.features.values(), key=lambda f: f.id):
        if feature.ask:
            shows = {v.id: 0 if v.family.features.get(feature.id) else 1 for v in library.views}
            yield Question(f"feature-{feature.id}", feature.ask, ("Yes", "No"), shows, feature.looks)


def _of_beds_and_mechanisms(library: Library) -> Iterator[Question]:
    """The bed first; then each role, answered in the words that its assemblies are known by."""
    views, asked = library.views, library.records.questions
    if bed := asked.get(BED):
        yield _choice(BED, bed.ask, bed.looks, {v.id: (v.family.bed or "",) for v in views}, bed.answers)
    for role in (q for q in asked.values() if q.id != BED):
        has = {v.id: tuple(a.id for a in v.assemblies.values() if a.role == role.id) for v in views}
        seen = {a.id: a.recognise for v in views for a in v.assemblies.values() if a.recognise}
        yield _choice(f"role-{role.id}", role.ask, role.looks, has, seen)


def _value(view: FamilyView, figure: str) -> str:
    found = view.family.figures.get(figure)
    return str(found.value) if found else ""


def _choice(
    name: str, ask: str, looks: float, has: Mapping[str, tuple[str, ...]], seen: Mapping[str, str]
) -> Question:
    """A question whose answers are what the families have, in words; what has no words is none of these."""
    words = {family: " ".join(seen[i] for i in items if i in seen) for family, items in has.items()}
    answers = [*sorted({w for w in words.values() if w})]
    if not all(words.values()):
        answers.append(NONE_OF_THESE)
    shows = {family: answers.index(w or NONE_OF_THESE) for family, w in words.items()}
    return Question(name, ask, tuple(answers), shows, looks + READING * max(0, len(answers) - 2))
