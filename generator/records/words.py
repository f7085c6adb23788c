"""Words that only some machines have: how a text is searched for them."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from functools import cache

from generator.records.as_used import Features
from generator.records.model import Feature

_SENTENCE = re.compile(r"(?<=[.;:!?])\s+|\n")
_CHOICE = re.compile(r"\b(?:where|if|unless|some|on an?)\b", re.IGNORECASE)
"What makes a sentence speak of some machines only."


@cache
def spoken(word: str) -> re.Pattern[str]:
    """A word or words as they stand in a text, in any case, and not as a piece of a longer one."""
    return re.compile(rf"(?<![\w-]){re.escape(word)}(?![\w-])", re.IGNORECASE)


def strangers(text: str, list_: Collection[Feature], has: Features) -> Iterator[str]:
    """Listed words of a text that do not fit a machine with these features, in the list's order.

    A sentence that speaks of some machines only ("where there is one", "on a zigzag") may say
    anything, and so may one that offers a choice of which another listed word fits ("hook or looper").
    """
    fit, unfit = told_apart(list_, has)
    sentences = [s for s in _SENTENCE.split(text) if s and not _CHOICE.search(s)]
    for word in unfit:
        if any(spoken(word).search(s) and not _choice_fits(s, fit) for s in sentences):
            yield word


class Words:
    """Listed words, looked for in a text once however many machines it is said of."""

    def __init__(self, list_: Collection[Feature]) -> None:
        self._list = list_
        words = dict.fromkeys(w for feature in list_ for w in (*feature.words, *feature.not_words, *feature.calls))
        self._all = tuple((word, word.casefold()) for word in words)
        self._found: dict[str, frozenset[str]] = {}

    def of(self, text: str) -> frozenset[str]:
        """The listed words that stand in a text."""
        if text not in self._found:
            told = text.casefold()  # a look for the bare letters first: most words stand in no text, and patterns are slow
            self._found[text] = frozenset(word for word, letters in self._all if letters in told and spoken(word).search(text))
        return self._found[text]

    def unfit(self, has: Features) -> frozenset[str]:
        """The listed words that do not fit a machine with these features."""
        return frozenset(told_apart(self._list, has)[1])


def told_apart(list_: Collection[Feature], has: Features) -> tuple[list[str], list[str]]:
    """Listed words that fit a machine with these features, and those that do not.

    A word of several features fits where one of them is there. What a feature of the machine bars,
    or calls by a word of its own, never stands in its text as it is.
    """
    here = [feature for feature in list_ if has.get(feature.id)]
    given = {word for feature in here for word in feature.words}
    barred = {word for feature in here for word in feature.not_words}
    renamed = {word for feature in here for word in feature.calls}
    words = dict.fromkeys(w for feature in list_ for w in (*feature.words, *feature.not_words, *feature.calls))
    known = {word for feature in list_ for word in feature.words}
    fit = [w for w in words if w in renamed or (w not in barred and (w in given or w not in known))]
    return fit, [w for w in words if w not in fit]


def _choice_fits(sentence: str, fit: Collection[str]) -> bool:
    return " or " in sentence and any(spoken(word).search(sentence) for word in fit)
