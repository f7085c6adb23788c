"""Sound records with every text made as nasty as text can be."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from itertools import cycle
from pathlib import Path

from jsonschema import Draft202012Validator, ValidationError
from jsonschema.validators import extend
from referencing import Registry
from referencing.jsonschema import DRAFT202012

from generator.records.document import read_document
from generator.records.kinds import BY_PLACE
from generator.records.picture_files import FOLDER as PICTURES
from generator.records.schema import FOLDER, schema
from tests.site.vectors import VECTORS

STRIKE = "</script><script>window.struck=1</script>"
"Ends a block of script early, if it gets into one as it is."

NASTY = (
    f"{STRIKE}<img src=x onerror=\"window.struck=1\"> '\" --> &lt;i&gt; {{{{7*7}}}} "
    "\u202edesrever\u202c \u2028 \u05e2\u05d1\u05e8\u05d9\u05ea Hookraceretainerringscrewdriverbladewidthgauge"
)
"Fits into one line of a record beside a title and a vector."

_KEPT = 40
"Characters of the sound text that stand before it: enough to know it by."

_WORDS = re.compile(r"/\$defs/(line|text)$")


def _words(validator: Draft202012Validator, ref: str, instance: object, part: dict) -> Iterator[ValidationError]:
    """An error, which carries its place, for every string that the schema takes as free words of any length."""
    if _WORDS.search(ref) and isinstance(instance, str) and "maxLength" not in part:
        yield ValidationError("words")
    else:
        yield from validator._validate_reference(ref=ref, instance=instance)


_Words = extend(Draft202012Validator, {"$ref": _words})


def _registry() -> Registry:
    names = (path.name.removesuffix(".schema.json") for path in FOLDER.glob("*.schema.json"))
    return Registry().with_resources((f"{n}.schema.json", DRAFT202012.create_resource(schema(n))) for n in names)


def hostile_records(sound: Path, folder: Path) -> int:
    """Writes the records of `sound` to `folder` with `NASTY` in every free text; how many texts there are.

    Before it or behind it, turn about, stands one of the vectors: each in dozens of texts, of most kinds.
    """
    if (sound / PICTURES).is_dir():
        shutil.copytree(sound / PICTURES, folder / PICTURES)
    registry, given = _registry(), cycle((*((v, "") for v in VECTORS), *(("", v) for v in VECTORS)))
    return sum(_spoil(path, folder / path.relative_to(sound), registry, given) for path in sorted(sound.rglob("*.yaml")))


def _spoil(path: Path, copy: Path, registry: Registry, given: Iterator[tuple[str, str]]) -> int:
    kind = BY_PLACE[copy.parent.name if copy.parent.name in BY_PLACE else copy.name]
    document, _ = read_document(path)
    data = document.data
    places = [e.absolute_path for e in _Words(schema(kind.schema), registry=registry).iter_errors(data) if e.message == "words"]
    for *way, last in places:
        within = data
        for step in way:
            within = within[step]
        before, behind = next(given)
        within[last] = f"{before} {within[last][:_KEPT]} {NASTY} {behind}".strip(" ")
    copy.parent.mkdir(parents=True, exist_ok=True)
    copy.write_text(json.dumps(data), encoding="utf-8")
    return len(places)
