"""Record files edited by chance: words, figures and names put in the place of others, keys and entries taken out, doubled or
turned round, files spoilt, copied, renamed and taken away. Most edits leave a fault."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any

import yaml

from tests.fuzz.spoiling import spoilt

_ID = re.compile(r"[a-z0-9]+(?:[-/_][a-z0-9]+)*")
_SAID = (
    *("Unplug it, needle out.", "Switch on and run it slowly.", "Wait five minutes.", "The two screws come out.", "It is 0.5 mm.", "Between 1 to 2 mm."),
    *("The zigzag swings.", "Look at the looper.", "The shuttle turns.", "Take the bobbin case out.", "Sew a satin stitch.", "Plate off.", "Arm cover off."),
    *("See [this](x).", "A <b>bold</b> word.", "A hidden\u200bword.", "The hook, the feed dog and the presser foot."),
)
"What a text may say."
_NUMBERS = (0, 1, -1, 0.5, 2, 3, 7, 40, 300, 1.0, True)
Ids = list[str]
"Words of the book that are ids."


def edit(content: Path, chance: Random) -> str:
    """Edits one file of a content folder, and says what it did."""
    files = sorted(path for path in content.rglob("*.yaml") if path.is_file())
    lists = [path for path in files if path.parent == content]
    path = chance.choice(lists if chance.random() < 0.05 else [path for path in files if path.parent != content])
    way = chance.choices(list(_WAYS), list(_WAYS.values()))[0]
    way(path, files, chance)
    return f"{way.__name__.strip('_')} {path.relative_to(content)}"


def _values(path: Path, files: list[Path], chance: Random) -> None:
    """One to three values are others."""
    try:
        data = yaml.safe_load(path.read_bytes())
    except (yaml.YAMLError, UnicodeDecodeError):
        _bytes(path, files, chance)
        return
    ids = sorted({word for other in (path, chance.choice(files)) for word in _ID.findall(other.read_text("utf-8", "replace")) if "-" in word})
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        _change(data, ids or ["hook"], chance)
    path.write_text(yaml.dump(data, sort_keys=False, allow_unicode=True), encoding="utf-8")


def _change(data: Any, ids: Ids, chance: Random) -> None:
    """Goes down by chance and changes what it comes to."""
    while True:
        keys = list(data) if isinstance(data, dict) else list(range(len(data))) if isinstance(data, list) else []
        if not keys:
            return
        key = chance.choice(keys)
        below = data[key]
        if isinstance(below, dict | list) and below and chance.random() < 0.85:
            data = below
            continue
        if chance.random() < 0.2:
            del data[key]
        elif isinstance(data, list) and chance.random() < 0.3:
            data.insert(0, chance.choice((below, data[-1])))
        else:
            data[key] = _another(below, ids, chance)
        return


def _another(value: Any, ids: Ids, chance: Random) -> Any:
    if isinstance(value, bool):
        return not value
    if isinstance(value, int | float):
        return chance.choice(_NUMBERS)
    if isinstance(value, str):
        if _ID.fullmatch(value):
            return chance.choice((chance.choice(ids), chance.choice(ids), value[:-1] or "x", f"{value}-x"))
        words = value.split(" ")
        at = chance.randrange(len(words))
        return " ".join(chance.choice(([*words[:at], *words[at + 1 :]], [*words, chance.choice(_SAID)], [chance.choice(_SAID), *words])))
    if isinstance(value, list):
        return value[::-1] if chance.random() < 0.5 else [*value, chance.choice(ids)]
    return chance.choice(([], {}, chance.choice(ids), None))


def _lines(path: Path, files: list[Path], chance: Random) -> None:
    """What stands in it stands elsewhere in it."""
    path.write_bytes(b"# A line more.\n" * chance.choice((1, 3)) + path.read_bytes())


def _bytes(path: Path, files: list[Path], chance: Random) -> None:
    path.write_bytes(spoilt(path.read_bytes(), chance))


def _copied(path: Path, files: list[Path], chance: Random) -> None:
    path.with_stem(chance.choice((f"{path.stem}-x", f"{path.stem}X", chance.choice(files).stem))).write_bytes(path.read_bytes())


def _renamed(path: Path, files: list[Path], chance: Random) -> None:
    path.rename(path.with_stem(f"{path.stem}-x"))


def _gone(path: Path, files: list[Path], chance: Random) -> None:
    path.unlink()


def _another_of_its_kind(path: Path, files: list[Path], chance: Random) -> None:
    path.write_bytes(chance.choice([other for other in files if other.parent == path.parent]).read_bytes())


def _once_called(path: Path, files: list[Path], chance: Random) -> None:
    """It names what it was."""
    was = chance.choice([other.stem for other in files if other.parent == path.parent] + ["once", "once"])
    path.write_bytes(path.read_bytes().rstrip() + f"\nwas: [{was}]\n".encode())


_Way = Callable[[Path, list[Path], Random], None]
_WAYS: dict[_Way, float] = {_values: 10, _lines: 1, _bytes: 2, _copied: 1, _renamed: 0.5, _gone: 0.5, _another_of_its_kind: 0.7, _once_called: 0.5}
"Ways of editing a file, and how often each is taken."
