"""One content folder after another: names of files, then what stands in them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path

from generator.records.document import LARGEST, parse
from generator.records.finding import Finding, meant
from generator.records.fixing.edits import Edit, edited, write
from generator.records.fixing.order import in_order
from generator.records.fixing.units import unit_edits
from generator.records.folder import scan
from generator.records.ids import slug
from generator.records.kinds import BY_PLACE, Kind
from generator.records.node import Node, plain
from generator.records.schema_keys import body

Asked = Callable[[Path], bool]


def fix(folders: Sequence[Path], asked: Asked, ordered: bool) -> Iterator[str]:
    """Mend file names and units, and with `ordered` the order of keys; a line for each thing done.

    `asked` says whether a file may be touched. A link, and a file that cannot be read or written, is left as it is.
    """
    for folder in folders:
        yield from _names(folder, asked)
        for file in scan(folder).files:
            if asked(file.path) and not file.path.is_symlink():
                yield from _contents(file.path, file.kind, ordered)


def proper(path: Path) -> Path:
    """A file with the name that a record's file has: its id, and `.yaml`; anything else as it is.

    >>> proper(Path("checks/Watch_Hook.yml")).name, proper(Path("checks/notes.txt")).name
    ('watch-hook.yaml', 'notes.txt')
    """
    is_record = path.suffix.lower() in (".yaml", ".yml") and not path.name.startswith(".")
    return path.with_name((slug(path.stem) or path.stem) + ".yaml") if is_record else path


def fix_ids(findings: Iterable[Finding], asked: Asked) -> Iterator[str]:
    """Write the nearest word in the place of each that is none, where a finding offers one; a line for each."""
    by_path: dict[Path, list[Edit]] = {}
    for finding in findings:
        offer = meant(finding)
        if offer and asked(finding.path) and not finding.path.is_symlink():
            by_path.setdefault(finding.path, []).append(Edit(finding.line, finding.column, *offer))
    for path, edits in by_path.items():
        text, _ = _read(path)
        yield from _write(path, *edited(text, edits))


def _names(folder: Path, asked: Asked) -> Iterator[str]:
    """Files of a kind's folder whose name is no id, or ends otherwise than in `.yaml`."""
    places = [path for place in BY_PLACE if not place.endswith(".yaml") for path in sorted((folder / place).glob("*"))]
    lists = [path for path in sorted(folder.glob("*.y*ml")) if f"{path.stem}.yaml" in BY_PLACE]
    for path in filter(asked, (*places, *lists)):
        if proper(path) != path and path.is_file() and not path.is_symlink():
            yield from _renamed(path, proper(path))


def _renamed(path: Path, to: Path) -> Iterator[str]:
    if to.exists() and not to.samefile(path):
        yield f"{path}: left, since '{to.name}' is there already."
        return
    try:
        path.rename(to)
        yield f"{path}: renamed to '{to.name}'."
    except OSError as error:
        yield f"{path}: left, it cannot be renamed: {error.strerror}."


def _contents(path: Path, kind: Kind, ordered: bool) -> Iterator[str]:
    text, node = _read(path)
    if node is None:
        return
    text, done = edited(text, unit_edits(node))
    yield from _write(path, text, done)
    if ordered and isinstance(node.value, dict) and not kind.is_list:
        yield from _reordered(path, kind)


def _reordered(path: Path, kind: Kind) -> Iterator[str]:
    """Keys in the schema's order; nothing is done unless the record then says the very same."""
    text, node = _read(path)
    if node is None:
        return
    new = in_order(text, node, list(body(kind.schema)["properties"]))
    again = parse(new.encode("utf-8"), path).node
    if new != text and again is not None and plain(again) == plain(node):
        yield from _saved(path, new, [f"{path}: its keys are in the order of the schema."])


def _read(path: Path) -> tuple[str, Node | None]:
    """A file's text and value; nothing where either cannot be had."""
    try:
        raw = path.read_bytes()[: LARGEST + 1]
    except OSError:
        return "", None
    return (raw.decode("utf-8"), reading.node) if (reading := parse(raw, path)).node else ("", None)


def _write(path: Path, new: str, done: Sequence[Edit]) -> Iterator[str]:
    """The edited text in the file's place, if it still can be read."""
    if done and parse(new.encode("utf-8"), path).node is not None:
        said = [f"{path}:{edit.line}:{edit.column}: '{edit.old}' is '{edit.new}' now." for edit in done]
        yield from _saved(path, new, said)


def _saved(path: Path, text: str, said: Sequence[str]) -> Iterator[str]:
    try:
        write(path, text)
        yield from said
    except OSError as error:
        yield f"{path}: left, it cannot be written: {error.strerror}."
