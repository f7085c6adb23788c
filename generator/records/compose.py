"""YAML text to nodes with positions; every fault becomes a finding, none an exception."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypedDict

import yaml

from generator.records.finding import Finding, fault, quote
from generator.records.node import Node
from generator.records.position import Position
from generator.records.scalar import resolve
from generator.records.yaml_fault import explain

MOST_VALUES = 100_000
"Values that one file may hold, aliases written out: a safe bound on time and memory."
DEEPEST = 50
"Levels of nesting."

FAST: type[Any] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"The loader whose parser reads fastest here."
_STRING = "tag:yaml.org,2002:str"
EXAMPLE = "!example"
"Tag of a value that a new record has from the schema."
_ORDINARY = (None, "!", _STRING, "tag:yaml.org,2002:map", "tag:yaml.org,2002:seq")


class _Stop(Exception):
    """The rest of the file cannot be read."""


@dataclass(slots=True)
class _Open:
    """A mapping or list that has begun and not ended."""

    at: Position
    anchor: str | None
    mapping: bool
    children: list[Node] = field(default_factory=list)
    "Of a mapping: key, value, key, value."
    keys: dict[str, Position] = field(default_factory=dict)
    "Of a mapping: where each key first stands."

    @property
    def expects_key(self) -> bool:
        """Whether the next child is the key of a mapping."""
        return self.mapping and len(self.children) % 2 == 0


def compose(text: str, path: Path) -> tuple[Node | None, list[Finding]]:
    """The one value in a YAML text, and all that is wrong with it.

    The value is None where the text cannot be read to its end. libyaml reads it if it is there; what is
    at fault is said by PyYAML's own parser, so that it is said in the same words everywhere.
    """
    composer, error = _compose(text, path, FAST)
    if error:
        composer, error = _compose(text, path, yaml.SafeLoader)
    if error:
        return None, [*composer.findings, explain(error, path)]
    return composer.top, composer.findings


def _compose(text: str, path: Path, loader: type) -> tuple[_Composer, Exception | None]:
    composer = _Composer(path)
    try:
        for event in yaml.parse(text, Loader=loader):
            composer.take(event)
    except _Stop:
        composer.top = None
    except (yaml.YAMLError, ValueError) as error:  # ValueError: an escape beyond the last character
        return composer, error
    return composer, None


class _Composer:
    def __init__(self, path: Path) -> None:
        self.path = path
        self.top: Node | None = None
        self.findings: list[Finding] = []
        self.stack: list[_Open] = []
        self.anchors: dict[str, Node] = {}
        self.documents = 0

    def take(self, event: yaml.Event) -> None:
        """Take the next event of the parser."""
        assert event.start_mark is not None
        at = Position(self.path, event.start_mark.line + 1, event.start_mark.column + 1)
        match event:
            case yaml.DocumentStartEvent():
                self._start_document(at)
            case yaml.AliasEvent():
                self._add(self._aliased(str(event.anchor), at))
            case yaml.ScalarEvent():
                self._check_tag(event, at)
                self._keep(event.anchor, self._scalar(event, at))
            case yaml.CollectionStartEvent():
                self._check_tag(event, at)
                self._open(_Open(at, event.anchor, isinstance(event, yaml.MappingStartEvent)))
            case yaml.CollectionEndEvent():
                done = self.stack.pop()
                self._keep(done.anchor, _mapping(done) if done.mapping else _sequence(done))

    def _fault(self, at: Position, message: str, hint: str) -> None:
        self.findings.append(fault(at, message, hint))

    def _stop(self, at: Position, message: str, hint: str) -> None:
        self._fault(at, message, hint)
        raise _Stop

    def _start_document(self, at: Position) -> None:
        self.documents += 1
        if self.documents > 1:
            hint = "Keep one record a file: take out the '---'."
            self._stop(at, "A second document begins here.", hint)

    def _open(self, opened: _Open) -> None:
        if len(self.stack) == DEEPEST:
            self._too_deep(opened.at)
        self.stack.append(opened)

    def _too_deep(self, at: Position) -> None:
        message = f"The nesting goes deeper than {DEEPEST} levels."
        self._stop(at, message, "Close a bracket, or take out aliases.")

    def _keep(self, anchor: str | None, node: Node) -> None:
        if anchor is not None:
            self.anchors[anchor] = node
        self._add(node)

    def _add(self, node: Node) -> None:
        if node.size > MOST_VALUES:
            message = f"The file holds more than {MOST_VALUES:,} values, aliases written out."
            self._stop(node.at, message, "Take out the aliases, or split the file.")
        if node.depth > DEEPEST:
            self._too_deep(node.at)
        if self.stack:
            if self.stack[-1].expects_key:
                self._check_key(self.stack[-1].keys, node)
            self.stack[-1].children.append(node)
        else:
            self.top = node

    def _aliased(self, name: str, at: Position) -> Node:
        if any(name == opened.anchor for opened in self.stack):
            message = f"'*{name}' stands inside the value that it repeats."
            self._stop(at, message, "Write the value out.")
        if name not in self.anchors:
            message = f"'*{name}' repeats a value that nothing names."
            self._stop(at, message, f"Put '&{name}' before that value.")
        return self.anchors[name]

    def _check_tag(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent, at: Position) -> None:
        if event.tag == EXAMPLE:
            self._fault(at, "This is the example's value.", f"Write your own, and take out {EXAMPLE}.")
        elif event.tag not in _ORDINARY:
            message = f"The tag {quote(event.tag)} means nothing here."
            self._fault(at, message, "Take it out, or quote the text.")

    def _scalar(self, event: yaml.ScalarEvent, at: Position) -> Node:
        quoted = event.style is not None if event.tag == EXAMPLE else not event.implicit[0] or event.tag == "!"
        if quoted or (self.stack and self.stack[-1].expects_key):
            return Node(event.value, at)
        try:
            return Node(resolve(event.value), at)
        except ValueError as error:
            hint = "Write a number such as 12 or 0.5, or put quotes round the text."
            self._fault(at, str(error), hint)
            return Node(0, at)

    def _check_key(self, keys: dict[str, Position], key: Node) -> None:
        if not isinstance(key.value, str):
            self._fault(key.at, "This key is no word.", "Write one word before the colon.")
            return
        first = keys.get(key.value)
        if first:
            lines = f"in line {first.line} and again in line {key.at.line}"
            self._fault(key.at, f"{quote(key.value)} stands twice: {lines}.", "Keep one of the two.")
        else:
            keys[key.value] = key.at


def _mapping(done: _Open) -> Node:
    values: dict[str, Node] = {}
    for key, value in zip(done.children[::2], done.children[1::2], strict=True):
        if isinstance(key.value, str):
            values.setdefault(key.value, value)
    return Node(values, done.at, done.keys, **_extent(values.values()))


def _sequence(done: _Open) -> Node:
    return Node(list(done.children), done.at, **_extent(done.children))


class _Extent(TypedDict):
    size: int
    depth: int


def _extent(below: Collection[Node]) -> _Extent:
    return {
        "size": 1 + sum(node.size for node in below),
        "depth": 1 + max((node.depth for node in below), default=0),
    }
