"""`new`: a commented starting record."""

from __future__ import annotations

import re
from pathlib import Path

import click

from generator.commands.folders import content_option, existing
from generator.commands.refusing import refuse
from generator.records.document import parse
from generator.records.kinds import KINDS, Kind
from generator.records.node import plain
from generator.records.read import read
from generator.records.references import definitions, references
from generator.records.schema import follow, schema
from generator.records.starting import starting_entry, starting_record


@click.command()
@click.argument("kind", type=click.Choice([*KINDS]))
@click.argument("id")
@content_option
def new(kind: str, id: str, folders: tuple[Path, ...]) -> None:
    """Write a commented starting record of a KIND under an ID, in the last content folder named.

    An entry of a list, such as a tool, goes to the end of its list. Nothing is overwritten.
    """
    there = existing(folders)
    _check_id(KINDS[kind], id)
    path = there[-1] / KINDS[kind].file_for(id)
    content = read(there)
    known = definitions(content, references(content))
    try:
        if KINDS[kind].is_list and path.exists():
            _append(path, KINDS[kind], id, starting_entry(KINDS[kind], id, known))
        else:
            _create(path, starting_record(KINDS[kind], id, known))
    except FileExistsError:
        refuse(f"'{path}' is there already; it stays as it is.")
    except OSError as error:
        refuse(f"'{path}' cannot be written: {error.strerror}.")
    click.echo(path)


def _check_id(kind: Kind, id: str) -> None:
    names = {"$ref": "common.schema.json#/$defs/id"}
    if kind.is_list:
        names = schema(kind.schema)["propertyNames"]
    shape = follow(kind.schema, names)
    if not re.fullmatch(shape["pattern"], id) or len(id) > shape.get("maxLength", len(id)):
        refuse(f"{id!r} is no id. {shape['description']} For example: {shape['examples'][0]}")
    if kind.name == "shop" and id != "shop":
        refuse("The shop has one record: its id is 'shop'.")


def _create(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("x", encoding="utf-8") as file:
        file.write(text)


def _append(path: Path, kind: Kind, id: str, entry: str) -> None:
    """Add an entry to a list file, if the file can be read and then holds just that entry more."""
    before = path.read_bytes()
    after = before.rstrip(b"\n") + b"\n\n" + entry.encode("utf-8")
    old, longer = parse(before, path).node, parse(after, path).node
    ids = plain(old) if old else None
    if not isinstance(ids, dict) or longer is None:
        refuse(f"'{path}' cannot be added to: run `check` and mend it first.")
    if id in ids:
        refuse(f"'{path}' has an entry '{id}' already; it stays as it is.")
    path.write_bytes(after)
