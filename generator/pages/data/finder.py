"""The finder's data: symptoms, their words as an index, and the language that reads what is typed."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from typing import cast

import yaml

from generator.analysis.finder import Field, Index, Language, Phrase, build, language
from generator.analysis.finder.index import PAIR
from generator.analysis.finder.language import (
    ENDINGS,
    LONGEST,
    NEGATED_UNITS,
    NEGATED_WORD,
    OTHER_WORD,
    OWN_WORD,
    Words,
)
from generator.library import Library
from generator.pages.data.script import FOLDER, script
from generator.records.model import Symptom
from generator.wording import words
from generator.wording.grouping import GROUPS

FINDER = f"{FOLDER}/finder.js"
FAMILIES = f"{FOLDER}/families.js"
TITLE = Field("title", 1.0, 3.0)
SAID = Field("said", 1.0, 3.0)
CAUSE = Field("cause", 0.45, 0.5)
SIGN = Field("sign", 0.4, 0.3)


@cache
def everyday_words() -> Words:
    """The table of everyday and trade words."""
    text = files("generator.standards").joinpath("everyday_words.yaml").read_text("utf-8")
    return cast(Words, yaml.safe_load(text))


def tables(library: Library) -> Language:
    """The everyday words, and the glossary's terms with what else they are called."""
    terms = sorted(library.records.glossary.values(), key=lambda t: t.id)
    return language(everyday_words(), ((t.title.lower(), t.title, *t.also) for t in terms if t.also))


def phrases(library: Library) -> Iterator[Phrase]:
    """What is said of every symptom: title, customers' words, causes and their signs."""
    symptoms = [library.records.symptoms[s] for s in sorted(library.records.symptoms)]
    for symptom in symptoms:
        yield Phrase(words.plain(symptom.title), TITLE, (symptom.id,))
        for said in symptom.said_as:
            yield Phrase(words.plain(said), SAID, (symptom.id,))
    for mode, found in sorted(_symptoms_of(library, symptoms).items()):
        record = library.records.failure_modes[mode]
        yield Phrase(words.plain(record.title), CAUSE, found)
        for sign in record.signs:
            yield Phrase(words.plain(sign), SIGN, found)


def _symptoms_of(library: Library, symptoms: list[Symptom]) -> dict[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for symptom in symptoms:
        for mode in library.modes_under(symptom.tree):
            found.setdefault(mode, []).append(symptom.id)
    return {mode: tuple(ids) for mode, ids in found.items()}


def finder_files(library: Library) -> Iterator[tuple[str, str]]:
    """Address and content of the finder's data, and of the families that every page lets one choose."""
    yield FAMILIES, script("families", [[v.id, v.name] for v in library.views])
    read = tables(library)
    index = build(sorted(library.records.symptoms), phrases(library), read)
    yield FINDER, script("finder", {**_shown(library), "language": language_data(read), **index_data(index)})


def _shown(library: Library) -> dict[str, object]:
    views = library.views
    return {
        "groups": list(GROUPS.items()),
        "symptoms": [
            {
                "id": s.id,
                "title": words.plain(s.title),
                "group": s.group or "other",
                "stop": s.stop,
                "families": [v.id for v in views if s.id in v.symptoms],
            }
            for _, s in sorted(library.records.symptoms.items())
        ],
    }


def language_data(read: Language) -> dict[str, object]:
    """The tables of the language as plain data."""
    return {
        "filler": sorted(read.filler),
        "weak": sorted(read.weak),
        "negators": sorted(read.negators),
        "stoppers": sorted(read.stoppers),
        "breaks": sorted(read.breaks),
        "irregular": dict(sorted(read.irregular.items())),
        "phrases": read.phrases,
        "endings": ENDINGS,
        "longest": LONGEST,
        "negated_units": NEGATED_UNITS,
        "own_word": OWN_WORD,
        "negated_word": NEGATED_WORD,
        "other_word": OTHER_WORD,
    }


def index_data(index: Index) -> dict[str, object]:
    """The index as plain data; weights to three decimals, which ranks nothing otherwise."""
    place = {s: i for i, s in enumerate(index.symptoms)}
    return {
        "terms": index.terms,
        "pair": PAIR,
        "weights": [round(w, 3) for w in index.weight],
        "fields": {f.id: f.phrase_weight for f in (TITLE, SAID, CAUSE, SIGN)},
        "phrases": [
            [p.text, p.field.id, [place[s] for s in p.symptoms], [n for t in found for n in (t[0], round(t[1], 2))]]
            for p, found in index.phrases
        ],
        "postings": [[n for s, w in found for n in (s, round(w, 3))] for found in index.postings],
    }
