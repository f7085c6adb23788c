"""The index against the formulas of BM25F, worked out by hand ("The Probabilistic Relevance Framework", 2009)."""

from __future__ import annotations

from math import log

import pytest

from generator.analysis.finder.index import Field, Index, Phrase, build
from generator.analysis.finder.language import language

SAID, CAUSE = Field("said", 1.0, 3.0), Field("cause", 0.5, 0.5)
TABLES = language({"filler": "", "weak": "", "negators": "", "stoppers": "", "breaks": "", "irregular": {}, "groups": {}})
PHRASES = [
    Phrase("hook knocks", SAID, ("a",)),
    Phrase("hook", CAUSE, ("a", "b")),
    Phrase("belt slips off", SAID, ("b",)),
]


@pytest.fixture(scope="module")
def index() -> Index:
    return build(("a", "b"), PHRASES, TABLES)


def test_terms_are_words_and_neighbouring_pairs(index: Index) -> None:
    assert index.terms == ("belt", "belt~slip", "hook", "hook~knock", "knock", "of", "of~slip", "slip")


def test_a_term_weighs_by_the_symptoms_that_have_it_each_by_its_best_field(index: Index) -> None:
    """Hook: 1 of the first by what is said, 0.5 of the second by a cause; of two symptoms."""
    weight = dict(zip(index.terms, index.weight, strict=True))
    assert weight["hook"] == pytest.approx(log(1 + (2 - 1.5 + 0.5) / (1.5 + 0.5)))
    assert weight["knock"] == weight["belt~slip"] == pytest.approx(log(1 + (2 - 1 + 0.5) / (1 + 0.5)))


def test_a_field_that_counts_more_than_one_takes_no_more_than_all_symptoms() -> None:
    only = build(("a",), [Phrase("hook", Field("title", 2.0, 1.0), ("a",))], TABLES)
    assert only.weight == (pytest.approx(log(1 + 0.5 / 2.5)),)


def test_a_posting_is_damped_by_the_length_of_its_field(index: Index) -> None:
    """Lengths of what is said: 0.7 + 0.7 + 0.5 and 3 x 0.7 + 2 x 0.5, mean 2.5; of the causes 0.7 each."""
    held = {term: dict(found) for term, found in zip(index.terms, index.postings, strict=True)}
    first, second = 0.5 + 0.5 * 1.9 / 2.5, 0.5 + 0.5 * 3.1 / 2.5
    hook = 3 * 0.7 / first + 0.5 * 0.7
    assert held["hook"] == {0: pytest.approx(hook / (1.2 + hook)), 1: pytest.approx(0.35 / 1.55)}
    pair = 3 * 0.5 / second
    assert held["belt~slip"] == {1: pytest.approx(pair / (1.2 + pair))}


def test_a_phrase_keeps_its_terms_by_number(index: Index) -> None:
    phrase, terms = index.phrases[0]
    assert phrase == PHRASES[0]
    assert [(index.terms[n], w) for n, w in terms] == [("hook", 0.7), ("hook~knock", 0.5), ("knock", 0.7)]


def test_one_phrase_without_a_word_that_counts_leaves_nothing_to_divide_by() -> None:
    assert build(("a",), [Phrase("", SAID, ("a",))], TABLES).terms == ()
