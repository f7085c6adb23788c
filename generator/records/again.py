"""What an earlier check found, brought to the state of the few record files that differ since.

Of a record that differs it is asked what each rule sees of it (`rules/reads.py`). A rule that sees what it saw finds what
it found, if on other lines; one that looks at a record by itself looks at those that differ; only a rule that sees something
else must look at the whole book.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path

from generator.records.build import build_all
from generator.records.finding import Finding, Level, Spot
from generator.records.folder import RecordFile, Scan
from generator.records.kinds import BY_PLACE, KINDS
from generator.records.model import PictureFile
from generator.records.node import Places
from generator.records.printed import Printed
from generator.records.read import Content, Record, by_kind, read_files
from generator.records.references import definitions, references
from generator.records.rules import Book, Rule
from generator.records.rules.names import names_exist
from generator.records.rules.prose import Key
from generator.records.rules.registry import Users
from generator.records.sound_files import SoundFiles

MOST = 50
"Files that differ at the most: of more of them each is gone through as often as the book is checked."

FROM_READING = ("file", "schema", "layers")
"What findings that no rule makes bear as the name of theirs."

Known = Callable[[str], str | None]
"Print of a file that was sound -> its data as JSON."


@dataclass(frozen=True, slots=True)
class Said:
    """A finding as it is kept."""

    path: str
    line: int
    column: int
    message: str
    hint: str
    level: Level = "error"
    rule: str = ""
    spot: Spot | None = None

    def finding(self) -> Finding:
        """The finding itself."""
        return Finding(Path(self.path), self.line, self.column, self.message, self.hint, self.level, self.rule, self.spot)


@dataclass(frozen=True, slots=True)
class Checked:
    """What a check of the whole book found, and what is needed to go on from there. Every file of the book could be read."""

    files: Mapping[str, str]
    "See `Printed.files`."
    rest: str
    "See `Printed.rest`."
    records: int
    "How many there were."
    findings: tuple[Said, ...]
    "Everything that was wrong."
    defined: Mapping[str, tuple[str, ...]]
    "See `Book.defined`."
    users: Mapping[str, Mapping[str, tuple[str, ...]]]
    "Rule -> what is used -> kind and id of a record that uses it."
    pictures: Mapping[str, PictureFile]
    "By the file's name."


@dataclass(frozen=True)
class Part(Book):
    """The records that differ, and the lists."""

    names: Mapping[str, frozenset[str]] = field(default_factory=dict)
    "Kind -> ids that exist in the whole book."

    @cached_property
    def defined(self) -> Mapping[str, frozenset[str]]:
        """Ids of the whole book."""
        return self.names


@dataclass(frozen=True, slots=True)
class Edit:
    """What differs from an earlier check."""

    checked: Checked
    "That check."
    state: Printed
    "The files as they are."
    paths: frozenset[str]
    "Files that differ."
    before: Mapping[Key, Record]
    "Their records as they were, all of them sound."
    now: Mapping[Key, Record]
    "As they are."
    part: Part
    "With those, and with the lists, which are as they were."
    unread: bool
    "Whether one of the files cannot be read, so that anything may stand in it."
    renamed: bool
    "Whether a name somewhere else may be one no more, or may have become one."

    @property
    def keys(self) -> Collection[Key]:
        """Kind and id of every record that differs."""
        return self.before.keys() | self.now.keys()

    @property
    def count(self) -> int:
        """How many records there are now."""
        return self.checked.records + len(self.now) - len(self.before)


def whole(book: Book, found: Iterable[Finding], rules: Iterable[Rule], state: Printed) -> Checked | None:
    """What is kept of a check of the whole book; None where some file could not be read."""
    content = book.content
    if content.blind or any(content.unread.values()):
        return None
    return Checked(
        files=state.files,
        rest=state.rest,
        records=sum(map(len, content.records.values())),
        findings=tuple(dict.fromkeys(map(_said, found))),
        defined={kind: tuple(sorted(ids)) for kind, ids in book.defined.items()},
        users={rule.name: dict(rule.users(book)) for rule in rules if rule.users},
        pictures=content.pictures,
    )


def onward(edit: Edit, book: Book, found: Iterable[Finding], rules: Iterable[Rule], asked: Sequence[Rule]) -> Checked | None:
    """What is kept of a check for which, after an edit, only some rules were asked of the whole book; see `whole`."""
    if edit.unread:
        return None
    users = {rule.name: dict(rule.users(book)) if rule in asked else _users_now(rule, rule.users, edit) for rule in rules if rule.users}
    return replace(
        edit.checked,
        files=edit.state.files,
        records=edit.count,
        findings=tuple(dict.fromkeys(map(_said, found))),
        defined={kind: tuple(sorted(ids)) for kind, ids in (book if edit.renamed else edit.part).defined.items()},
        users=users,
    )


def _users_now(rule: Rule, of: Users, edit: Edit) -> dict[str, tuple[str, ...]]:
    """In the place of a user that differs, and may have ceased to be one, one that is known to be."""
    users, now = edit.checked.users.get(rule.name, {}), of(edit.part)
    return {used: now[used] if user in edit.keys and used in now else user for used, user in users.items()}


def differing(checked: Checked, state: Printed) -> frozenset[str] | None:
    """Paths of the record files that differ; None where they are many, or something else differs too."""
    paths = frozenset(path for path, _ in checked.files.items() ^ state.files.items())
    return paths if checked.rest == state.rest and len(paths) <= MOST else None


def edit(checked: Checked, state: Printed, paths: Collection[str], folders: Sequence[Path], known: Known) -> Edit | None:
    """What differs; None where that is more than records in files of their own, all of them sound before."""
    files = {path: file for path in sorted(paths) if (file := _alone(path, folders, checked.files.keys() | state.files.keys()))}
    before = [_record(file, known(checked.files[path])) for path, file in files.items() if path in checked.files]
    if len(files) < len(paths) or any(record.data is None for record in before):
        return None
    return _edit(checked, state, paths, before, _read([file for path, file in files.items() if path in state.files], state, folders, known))


def _alone(path: str, folders: Sequence[Path], paths: Collection[str]) -> RecordFile | None:
    """A file that holds one record, and is the only one of any folder that tells of it."""
    name, within = os.path.basename(path), os.path.dirname(path)
    kind = BY_PLACE.get(os.path.basename(within))
    laid = [folder for folder in folders if kind and os.path.join(folder, kind.place, name) in paths]
    return RecordFile(Path(path), kind, Path(path).stem) if kind and len(laid) == 1 else None


def _record(file: RecordFile, told: str | None) -> Record:
    """A record as it was, when it was sound; with no data where that is not kept, or torn."""
    try:
        return Record(file.kind.name, file.id, json.loads(told or "null"), Places({}, {}), True)
    except (ValueError, RecursionError):
        return Record(file.kind.name, file.id, None, Places({}, {}), False)


def _read(files: Sequence[RecordFile], state: Printed, folders: Sequence[Path], known: Known) -> Content:
    """Those files, and the lists."""
    lists = {os.path.join(folder, kind.place): kind for folder in folders for kind in KINDS.values() if kind.place.endswith(".yaml")}
    there = {path: kind for path, kind in lists.items() if path in state.files}
    sound = {print: data for print in map(state.files.__getitem__, there) if (data := known(print))}
    listed = (RecordFile(Path(path), kind, Path(path).stem) for path, kind in there.items())
    return read_files([Scan([*files, *listed])], SoundFiles(sound))


def _edit(checked: Checked, state: Printed, paths: Collection[str], before: Sequence[Record], content: Content) -> Edit:
    now = [r for kind, by_id in content.records.items() if not KINDS[kind].place.endswith(".yaml") for r in by_id.values()]
    were, are = _defined(before), _defined(now)
    gone = any(ids - are[kind] for kind, ids in were.items())
    new = {kind: ids.difference(checked.defined.get(kind, ())) for kind, ids in are.items()}
    misnamed = any(said.rule == names_exist.name for said in checked.findings)
    names = {kind: frozenset(checked.defined.get(kind, ())) | ids for kind, ids in are.items()}
    content = replace(content, pictures=checked.pictures)
    part = Part(content, build_all(content), names)
    unread = bool(content.blind) or any(content.unread.values())
    return Edit(
        checked=checked,
        state=state,
        paths=frozenset(str(Path(path)) for path in paths),
        before=_by_key(before),
        now=_by_key(now),
        part=part,
        unread=unread,
        renamed=unread or gone or (misnamed and any(new.values())),
    )


def _defined(records: Iterable[Record]) -> Mapping[str, frozenset[str]]:
    """What these records define."""
    content = Content(by_kind(records), (), {}, frozenset(), frozenset())
    return definitions(content, references(content))


def _by_key(records: Iterable[Record]) -> dict[Key, Record]:
    return {(record.kind, record.id): record for record in records}


def again(edit: Edit, rules: Sequence[Rule]) -> tuple[list[Finding], list[Rule]]:
    """What is found without the rest of the book, and the rules that must look at all of it: of those nothing is among it."""
    here = {rule.name: rule for rule in rules if rule.alone and not (edit.renamed and rule is names_exist)}
    stale = {rule.name for rule in rules if rule.name not in here and _sees_another(rule, edit)}
    stands: dict[str, list[Finding]] = {}
    for said in edit.checked.findings:
        if said.path not in edit.paths:
            stands.setdefault(said.rule, []).append(said.finding())
        elif said.rule in here or said.rule in FROM_READING:
            continue
        elif said.spot and (said.spot.kind, said.spot.id) in edit.now:
            stands.setdefault(said.rule, []).append(_put_anew(said, said.spot, edit))
        else:
            stale.add(said.rule)
    found = [finding for name, findings in stands.items() if name not in stale for finding in findings]
    alone = (finding for rule in here.values() for finding in rule.run(edit.part))
    found += (finding for finding in (*alone, *edit.part.content.findings) if str(finding.path) in edit.paths)
    return found, [rule for rule in rules if rule.name in stale]


def _put_anew(said: Said, spot: Spot, edit: Edit) -> Finding:
    """The finding where its value stands now."""
    put = edit.part.finding((spot.kind, spot.id), spot.route, said.message, said.hint, key=spot.key, level=said.level)
    return replace(put, rule=said.rule)


def _sees_another(rule: Rule, edit: Edit) -> bool:
    """Whether a rule sees of what differs something else than it saw."""
    if rule.reads is None or edit.unread:
        return bool(edit.paths)
    hears = rule.reads.hears(edit.part)
    if any(rule.reads.seen(edit.before.get(key), hears) != rule.reads.seen(edit.now.get(key), hears) for key in edit.keys):
        return True
    return rule.users is not None and _used_otherwise(rule, rule.users, edit)


def _used_otherwise(rule: Rule, of: Users, edit: Edit) -> bool:
    """Whether something is used that was not, or the one that is known to use it may use it no more."""
    users, now = edit.checked.users.get(rule.name, {}), of(edit.part)
    return any(user in edit.keys and used not in now for used, user in users.items()) or any(used not in users for used in now)


def _said(finding: Finding) -> Said:
    f = finding
    return Said(str(f.path), f.line, f.column, f.message, f.hint, f.level, f.rule, f.spot)

