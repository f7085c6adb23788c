"""The index that the finder searches: phrases of each symptom as weighted terms.

Two views of the same words are searched. A *phrase* is compared as a whole (cosine of term
weights), which keeps "the needle snaps" from "the needle thread snaps". All words of a symptom
together are weighed by BM25F ("The Probabilistic Relevance Framework: BM25 and Beyond", 2009),
which finds words that stand apart. The browser adds the two.
"""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum, log

from generator.analysis.finder.language import Language, Unit, units

_K1 = 1.2
"BM25F: how soon more of the same word stops counting."
_B = 0.5
"BM25F: how far a field's length counts."
PAIR = 0.5
"Weight of two neighbouring meanings as one term, beside each alone."


@dataclass(frozen=True, slots=True)
class Field:
    """Where a phrase stands."""

    id: str
    phrase_weight: float
    "What a like phrase here is worth against one in a title."
    word_weight: float
    "BM25F: how often a word here counts."


@dataclass(frozen=True, slots=True)
class Phrase:
    """One phrase of one or several symptoms."""

    text: str
    field: Field
    symptoms: tuple[str, ...]
    "Ids."


@dataclass(frozen=True, slots=True)
class Index:
    """What is searched."""

    terms: tuple[str, ...]
    weight: tuple[float, ...]
    "By term: its inverse document frequency."
    phrases: tuple[tuple[Phrase, tuple[tuple[int, float], ...]], ...]
    "Each with its terms: number, weight."
    postings: tuple[tuple[tuple[int, float], ...], ...]
    "By term: symptom number, BM25F weight in 0 to 1."
    symptoms: tuple[str, ...]
    "Ids, as the postings number them."


def terms_of(found: Sequence[Unit]) -> dict[str, float]:
    """Terms of units with their weights, and each two neighbours as a pair in either order.

    >>> sorted(terms_of((Unit((("=needle", 1.0),), "needle"), Unit((("=break", 1.0),), "snaps"))).items())
    [('=break', 1.0), ('=break~=needle', 0.5), ('=needle', 1.0)]
    """
    total: dict[str, float] = defaultdict(float)
    for unit in found:
        for term, weight in unit.terms:
            total[term] += weight
    for first, second in itertools.pairwise(found):
        total["~".join(sorted((first.head, second.head)))] += PAIR
    return total


def build(symptoms: Iterable[str], phrases: Iterable[Phrase], tables: Language) -> Index:
    """The index of all phrases. `symptoms` are the ids in the order of their numbers."""
    ids = tuple(symptoms)
    said = [(p, terms_of(units(p.text, tables))) for p in phrases]
    names = sorted({t for _, found in said for t in found})
    number = {t: i for i, t in enumerate(names)}
    place = {s: i for i, s in enumerate(ids)}
    frequency = _document_frequency(said)
    return Index(
        terms=tuple(names),
        weight=tuple(_idf(frequency[t], len(ids)) for t in names),
        phrases=tuple((p, tuple(sorted((number[t], w) for t, w in found.items()))) for p, found in said),
        postings=_postings(said, names, place),
        symptoms=ids,
    )


def _document_frequency(said: list[tuple[Phrase, dict[str, float]]]) -> Mapping[str, float]:
    """Symptoms that have the term, each counted by the best field it stands in."""
    best: dict[str, dict[str, float]] = defaultdict(dict)
    for phrase, found in said:
        for term in found:
            for symptom in phrase.symptoms:
                held = best[term]
                held[symptom] = max(held.get(symptom, 0.0), phrase.field.phrase_weight)
    return {term: fsum(held.values()) for term, held in best.items()}


def _idf(frequency: float, symptoms: int) -> float:
    return log(1 + (symptoms - min(frequency, symptoms) + 0.5) / (frequency + 0.5))


def _postings(
    said: list[tuple[Phrase, dict[str, float]]], names: list[str], place: Mapping[str, int]
) -> tuple[tuple[tuple[int, float], ...], ...]:
    counts: dict[tuple[int, Field], dict[str, float]] = defaultdict(lambda: defaultdict(float))
    for phrase, found in said:
        for symptom in phrase.symptoms:
            held = counts[place[symptom], phrase.field]
            for term, weight in found.items():
                held[term] += weight
    lengths = {key: fsum(found.values()) for key, found in counts.items()}
    means = _means(lengths)
    weights: dict[str, dict[int, float]] = defaultdict(dict)
    for (number, field), within in counts.items():
        damping = 1 - _B + _B * lengths[number, field] / means[field]
        for term, count in within.items():
            by_symptom = weights[term]
            by_symptom[number] = by_symptom.get(number, 0.0) + field.word_weight * count / damping
    return tuple(
        tuple((symptom, tf / (_K1 + tf)) for symptom, tf in sorted(weights[term].items())) for term in names
    )


def _means(lengths: Mapping[tuple[int, Field], float]) -> dict[Field, float]:
    by_field: dict[Field, list[float]] = defaultdict(list)
    for (_, field), length in lengths.items():
        by_field[field].append(length)
    return {field: fsum(found) / len(found) or 1.0 for field, found in by_field.items()}
