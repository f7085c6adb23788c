"""A customer's sentence as units of meaning.

The same few steps run in the browser on what is typed, so all tables are plain data that pages
carry with them: words, endings, phrases. A unit is one word, or several that mean one thing.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from typing import TypedDict

NOT = "not"
"What every negator becomes."
BREAK = "."
"What ends the reach of a negator."
_TOKEN = re.compile(r"[a-z0-9]+(?:'[a-z0-9]+)*|[.,;:!?]")
LONGEST = 6
"Words in the longest phrase that is looked for."
NEGATED_UNITS = 2
"A negator turns round this many units: the verb and, behind it, what it acts on."
OWN_WORD, NEGATED_WORD, OTHER_WORD = 0.4, 0.4, 0.7
"Weights of a word beside its meaning, of a meaning beside its negation, and of a word in no group."

ENDINGS: tuple[tuple[tuple[str, str, int], ...], ...] = (
    (
        ("sses", "ss", 1),
        ("ies", "y", 2),
        ("ches", "ch", 1),
        ("shes", "sh", 1),
        ("xes", "x", 1),
        ("ss", "ss", 0),
        ("us", "us", 0),
        ("is", "is", 0),
        ("s", "", 2),
    ),
    (("eed", "eed", 0), ("ness", "", 3), ("ing", "", 3), ("ied", "y", 2), ("ed", "", 3), ("ily", "y", 2), ("ly", "", 3)),
    (("e", "", 3), ("y", "", 3)),
)
"In each step the first ending that leaves enough letters is exchanged: (ending, instead, letters left)."


@dataclass(frozen=True, slots=True)
class Language:
    """The tables of one language."""

    filler: frozenset[str]
    "Words that are passed over."
    weak: frozenset[str]
    "Stems that count in phrases only."
    negators: frozenset[str]
    stoppers: frozenset[str]
    "Before a word in -ing they negate."
    breaks: frozenset[str]
    irregular: Mapping[str, str]
    "Word -> stem."
    phrases: Mapping[str, tuple[str, ...]]
    "Stems joined by spaces -> the meanings they stand for."


@dataclass(frozen=True, slots=True)
class Unit:
    """One word, or several that mean one thing."""

    terms: tuple[tuple[str, float], ...]
    "Index terms with their weights, the chief one first: `=meaning`, `!=meaning` (not), or a stem."
    said: str
    "The words as they were said."

    @property
    def head(self) -> str:
        """The chief term."""
        return self.terms[0][0]


class Words(TypedDict):
    """The table of everyday and trade words, as it is written."""

    filler: str
    weak: str
    negators: str
    stoppers: str
    breaks: str
    irregular: Mapping[str, str]
    "Stem -> its forms."
    groups: Mapping[str, Sequence[str]]
    "Name -> phrases, `~` standing for any negator."


def language(words: Words, also: Iterable[tuple[str, ...]] = ()) -> Language:
    """The tables made ready. `also` are further groups, the first of each the group's name.

    `words` has strings of words under `filler`, `weak`, `negators`, `stoppers` and `breaks`; under
    `irregular` stem -> words; under `groups` name -> phrases, `~` standing for any negator.
    """
    irregular = {w: stem for stem, forms in words["irregular"].items() for w in (stem, *forms.split())}
    bare = Language(
        frozenset(words["filler"].split()),
        frozenset(),
        frozenset((*words["negators"].split(), NOT)),
        frozenset(words["stoppers"].split()),
        frozenset(words["breaks"].split()),
        irregular,
        {},
    )
    weak = frozenset(stem(w, irregular) for w in words["weak"].split())
    groups = [*((name, *members) for name, members in words["groups"].items()), *also]
    return Language(
        bare.filler, weak, bare.negators, bare.stoppers, bare.breaks, irregular, _phrases(bare, groups)
    )


def _phrases(bare: Language, groups: Iterable[tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for name, *members in groups:
        for member in members:
            key = " ".join(s for s, _ in stems(member.replace("~", NOT), bare))
            if key not in ("", NOT) and name not in found.setdefault(key, []):
                found[key].append(name)
    return {key: tuple(names) for key, names in sorted(found.items()) if names}


def stem(word: str, irregular: Mapping[str, str]) -> str:
    """A word without its endings, doubled letters single: a rough stem, the same in the browser.

    >>> [stem(w, {"broke": "break"}) for w in ("stitches", "skipping", "needles", "wavy", "broke")]
    ['stitch', 'skip', 'needl', 'wav', 'break']
    """
    cut = irregular.get(word)
    if cut is None:
        cut = word
        for step in ENDINGS:
            cut = _exchanged(cut, step)
    return cut[:-1] if len(cut) > 2 and cut[-1] == cut[-2] else cut


def _exchanged(word: str, step: tuple[tuple[str, str, int], ...]) -> str:
    for ending, instead, left in step:
        if word.endswith(ending) and len(word) - len(ending) >= left:
            return word[: len(word) - len(ending)] + instead
    return word


def stems(text: str, tables: Language) -> Iterator[tuple[str, str]]:
    """(stem, word) of every word that is not passed over; NOT for negators, BREAK where they end."""
    found = [t.replace("'", "") for t in _TOKEN.findall(_plain(text))]
    for word, after in zip_longest(found, found[1:], fillvalue=""):
        if not word[0].isalnum() or word in tables.breaks:
            yield BREAK, word
        elif word in tables.negators or (word in tables.stoppers and after.endswith("ing")):
            yield NOT, word
        elif word not in tables.filler:
            yield stem(word, tables.irregular), word


def _plain(text: str) -> str:
    """Lower case, without accents, typewriter apostrophes."""
    apart = unicodedata.normalize("NFKD", text.replace("\u2019", "'").lower())
    return "".join(c for c in apart if not unicodedata.combining(c))


def units(text: str, tables: Language) -> tuple[Unit, ...]:
    """The units of a sentence: the longest phrase at each place, else the word itself.

    >>> tables = language({"filler": "the it", "weak": "up", "negators": "wont", "stoppers": "", "breaks": "",
    ...     "irregular": {}, "groups": {"feed": ["feed", "pull through"]}})
    >>> found = units("It won't pull through the cloth", tables)
    >>> [(u.said, [(term, round(weight, 2)) for term, weight in u.terms]) for u in found]
    [('pull through', [('!=feed', 1.0), ('=feed', 0.4)]), ('cloth', [('!cloth', 0.7), ('cloth', 0.28)])]
    """
    return tuple(_units(list(stems(text, tables)), tables))


def _units(said: list[tuple[str, str]], tables: Language) -> Iterator[Unit]:
    place, negated = 0, 0
    while place < len(said):
        length, meanings = _longest(said, place, tables)
        span = said[place : place + length]
        place += length
        if span[0][0] == BREAK and length == 1:
            negated = 0
        elif span[0][0] == NOT and not meanings:
            negated = NEGATED_UNITS
        elif meanings or span[0][0] not in tables.weak:
            yield _unit(span, meanings, negated > 0)
            negated = max(0, negated - 1)


def _longest(said: list[tuple[str, str]], place: int, tables: Language) -> tuple[int, tuple[str, ...]]:
    for length in range(min(LONGEST, len(said) - place), 0, -1):
        key = " ".join(s for s, _ in said[place : place + length])
        if key in tables.phrases:
            return length, tables.phrases[key]
    return 1, ()


def _unit(span: list[tuple[str, str]], meanings: tuple[str, ...], negated: bool) -> Unit:
    said = " ".join(word for _, word in span)
    share = len(meanings) ** -0.5 if meanings else 1.0
    terms = [(f"={m}", share) for m in meanings] or [(span[0][0], OTHER_WORD)]
    if negated:
        turned = [(f"!{term}", weight) for term, weight in terms]
        return Unit((*turned, *((t, w * NEGATED_WORD) for t, w in terms)), said)
    own = [(s, OWN_WORD / len(span)) for s, _ in span if s != NOT] if meanings else []
    return Unit((*terms, *own), said)
