"""`new`: a commented starting record."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, cast

import click

from generator.commands import common
from generator.commands.folders import content_option, existing
from generator.commands.refusing import refuse
from generator.records.build import build_all
from generator.records.document import parse
from generator.records.kinds import KINDS, Kind
from generator.records.node import plain
from generator.records.read import Content, read
from generator.records.references import definitions, references
from generator.records.rules.built import built_families
from generator.records.schema import follow, schema
from generator.records.starting import starting_entry, starting_record
from generator.records.starting_family import like as starting_family
from generator.records.starting_family import to_look_at
from generator.records.starting_notes import holds, starting_entries, starting_notes
from generator.whole_files import put, put_new


@click.command()
@click.argument("kind", type=click.Choice([*KINDS]))
@click.argument("id")
@click.option("--like", "near", metavar="FAMILY", help="Begin a family from this one; every value is marked to be looked at.")
@content_option
def new(kind: str, id: str, near: str | None, folders: tuple[Path, ...]) -> None:
    """Write a commented starting record of a KIND under an ID, in the last content folder named.

    Fastener notes are named after their family, and get an entry for each of its joints that has none yet. An entry
    of a list, such as a tool, goes to the end of its list. Nothing is overwritten.
    """
    there = existing(folders)
    id = _id(KINDS[kind], id)
    path = there[-1] / KINDS[kind].file_for(id)
    content = read(there)
    try:
        told = _write(path, KINDS[kind], id, near, content)
    except FileExistsError:
        refuse(f"'{path}' is there already; it stays as it is.")
    except OSError as error:
        refuse(f"'{path}' cannot be written: {error.strerror}.")
    click.echo("\n".join((str(path), *told)))


def _write(path: Path, kind: Kind, id: str, near: str | None, content: Content) -> Iterator[str] | tuple[str, ...]:
    """Write the record; what there is to say of it comes back."""
    if near is not None:
        return _family_like(path, kind, id, near, content)
    if kind.name == "fasteners":
        return _notes(path, id, content)
    known = definitions(content, references(content))
    if kind.is_list and path.exists():
        _append_entry(path, kind, id, starting_entry(kind, id, known))
    else:
        _create(path, starting_record(kind, id, known))
    return ()


def _family_like(path: Path, kind: Kind, id: str, near: str, content: Content) -> Iterator[str]:
    if kind.name != "family":
        refuse("--like begins a family: `new family ID --like FAMILY`.")
    record = content.records["family"][common.known(near, content.records["family"], "family")]
    if not record.sound:
        refuse(f"'{record.id}' has errors; `check` explains each. Mend them first, or begin from another.")
    data = cast(Mapping[str, Any], record.data)
    _create(path, starting_family(record.id, data, id))
    return to_look_at(record.id, data)


def _notes(path: Path, id: str, content: Content) -> tuple[str, ...]:
    """Notes for the joints that have none; those that there are stay as they are."""
    id = common.known(id, content.records["family"], "family")
    joints = next((holds(built) for family, built in built_families(build_all(content)) if family.id == id), None)
    if joints is None:
        refuse(f"The family '{id}' has errors; `check` explains each. Mend them first.")
    noted = content.records["fasteners"].get(id)
    if noted is None:
        _create(path, starting_notes(joints or refuse(f"'{id}' has no joint that takes a note.")))
        return (f"Joints: {len(joints)}.",)
    entries = cast(list[dict[str, Any]], noted.data) if noted.sound else refuse(f"'{path}' has errors: run `check` and mend it first.")
    left = {joint: held for joint, held in joints.items() if joint not in {entry["joint"] for entry in entries}}
    if not left:
        raise FileExistsError
    _append(path, starting_entries(left), list)
    return (f"Joints without a note before: {len(left)}.",)


def _id(kind: Kind, id: str) -> str:
    """The id, its words joined as the kind's are; refuses what is none."""
    names = {"$ref": "common.schema.json#/$defs/id"}
    if kind.is_list:
        names = schema(kind.schema)["propertyNames"]
    shape = follow(kind.schema, names)
    fitting = (joined for joined in (id, id.replace("_", "-"), id.replace("-", "_")) if re.fullmatch(shape["pattern"], joined))
    found = next(fitting, None)
    if found is None or len(id) > shape.get("maxLength", len(id)):
        refuse(f"{id!r} is no id. {shape['description']} For example: {shape['examples'][0]}")
    if kind.name == "shop" and id != "shop":
        refuse("The shop has one record: its id is 'shop'.")
    return found


def _create(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    put_new(path, text.encode("utf-8"))


def _append_entry(path: Path, kind: Kind, id: str, entry: str) -> None:
    before = parse(path.read_bytes(), path).node
    ids = plain(before) if before else None
    if isinstance(ids, dict) and id in ids:
        refuse(f"'{path}' has an entry '{id}' already; it stays as it is.")
    _append(path, entry, dict)


def _append(path: Path, text: str, shape: type) -> None:
    """Add to the end of a file that holds a list or a mapping, if it can be read before and after."""
    before = path.read_bytes()
    after = before.rstrip(b"\n") + b"\n\n" + text.encode("utf-8")
    old, longer = parse(before, path).node, parse(after, path).node
    if longer is None or not isinstance(plain(old) if old else None, shape):
        refuse(f"'{path}' cannot be added to: run `check` and mend it first.")
    put(path, after)
