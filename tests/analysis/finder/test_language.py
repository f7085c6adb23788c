"""What is typed as units of meaning, by words worked out by hand. The browser is held to the same steps in tests/site."""

from __future__ import annotations

import pytest

from generator.analysis.finder.language import Language, language, stem, stems, units


def tables(**given) -> Language:
    bare = {"filler": "the it", "weak": "up", "negators": "not wont", "stoppers": "stopped", "breaks": "but"}
    return language({**bare, "irregular": {"break": "broke broken"}, "groups": given.pop("groups", {})}, **given)


def told(text: str, read: Language) -> list[tuple[str, dict[str, float]]]:
    return [(u.said, {term: pytest.approx(weight) for term, weight in u.terms}) for u in units(text, read)]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("dresses", "dress"), ("flies", "fly"), ("notches", "notch"), ("flashes", "flash"), ("boxes", "box"),
        ("needles", "needle"), ("skipping", "skips"), ("skipped", "skip"), ("dries", "dried"), ("easily", "easy"),
        ("slowly", "slow"), ("feeding", "feeds"), ("feed", "feeds"), ("roughness", "rough"), ("laces", "lace"), ("noisy", "noise"),
    ],
)  # fmt: skip
def test_inflections_of_a_word_have_one_stem(one: str, other: str) -> None:
    assert stem(one, {}) == stem(other, {})


@pytest.mark.parametrize(
    ("word", "left"),
    [
        ("bus", "bus"), ("axis", "axis"), ("as", "as"), ("gas", "ga"), ("ring", "ring"), ("sewing", "sew"), ("red", "red"),
        ("used", "used"), ("fly", "fly"), ("only", "onl"), ("early", "ear"), ("die", "die"), ("lace", "lac"), ("too", "to"), ("oo", "oo"),
    ],
)  # fmt: skip
def test_an_ending_goes_only_where_enough_letters_stay(word: str, left: str) -> None:
    assert stem(word, {}) == left


def test_an_irregular_word_has_the_stem_of_its_table() -> None:
    assert [s for s, _ in stems("Broken, BROKE break", tables())] == ["break", ".", "break", "break"]


def test_accents_and_curled_apostrophes_make_no_other_word() -> None:
    assert [s for s, _ in stems("café won\u2019t", tables())] == ["caf", "not"]


def test_a_word_has_its_own_weight_and_filler_and_weak_words_none() -> None:
    assert told("the hook goes up", tables()) == [("hook", {"hook": 0.7}), ("goes", {"goe": 0.7})]


def test_several_meanings_share_and_the_word_itself_counts_beside_them() -> None:
    read = tables(groups={"feed": ["pull through"], "tension": ["pull through", "tight"]})
    half = 2**-0.5
    assert told("pull through", read) == [("pull through", {"=feed": half, "=tension": half, "pul": 0.2, "through": 0.2})]
    assert told("tight", read) == [("tight", {"=tension": 1.0, "tight": 0.4})]


def test_the_glossarys_groups_stand_beside_the_everyday_ones() -> None:
    assert told("loop taker", tables(also=[("hook", "loop taker")]))[0][1]["=hook"] == 1.0


def test_a_no_turns_two_units_round_and_a_break_ends_it() -> None:
    heads = lambda text: [u.head for u in units(text, tables())]  # noqa: E731
    assert heads("not hook belt needle") == ["!hook", "!belt", "needl"]
    assert heads("not hook, belt") == ["!hook", "belt"]
    assert heads("not hook but belt") == ["!hook", "belt"]
    assert heads("stopped sewing") == ["!sew"]
    assert heads("stopped now") == ["stop", "now"]
    assert told("not hook", tables()) == [("hook", {"!hook": 0.7, "hook": pytest.approx(0.7 * 0.4)})]


def test_a_phrase_with_a_no_in_it_means_what_its_group_says() -> None:
    read = tables(groups={"starved": ["~ feed"]})
    assert told("won't feed", read) == [("wont feed", {"=starved": 1.0, "feed": 0.2})]


def test_the_longest_phrase_of_up_to_six_words_is_taken() -> None:
    read = tables(groups={"six": ["a b c d f g"], "seven": ["k l m n p q r"], "two": ["a b"]})
    assert [u.head for u in units("a b c d f g", read)] == ["=six"]
    assert [u.head for u in units("a b c", read)] == ["=two", "c"]
    assert "=seven" not in [u.head for u in units("k l m n p q r", read)]
