"""Findings as text, as annotations on a pull request, or as JSON."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable

from generator.records.finding import Finding, printable

_ANNOTATED = {"note": "notice"}
"What the forge calls a level, where it has a word of its own."


def as_text(findings: Iterable[Finding]) -> str:
    """One line a finding: `path:line:column: message hint [rule]`, a warning or a note named as one.

    >>> from pathlib import Path
    >>> as_text([Finding(Path("a.yaml"), 2, 1, "'titel' is no key.", "Did you mean 'title'?", rule="schema")])
    "a.yaml:2:1: 'titel' is no key. Did you mean 'title'? [schema]"
    """
    return "\n".join(
        f"{_path(f)}:{f.line}:{f.column}: {f'{f.level}: ' * (f.level != 'error')}{_words(f)}{f' [{f.rule}]' * bool(f.rule)}"
        for f in findings
    )


def as_annotations(findings: Iterable[Finding]) -> str:
    """One line a finding that a forge shows beside the line it is about: `::level file=,line=,col=::words`."""
    return "\n".join(
        f"::{_ANNOTATED.get(f.level, f.level)} file={_property(_path(f))},line={f.line},col={f.column}{_title(f)}::{_data(_words(f))}"
        for f in findings
    )


def as_json(findings: Iterable[Finding]) -> str:
    """An object with the list `problems`."""
    problems = [
        {
            "path": _path(f),
            "line": f.line,
            "column": f.column,
            "message": printable(f.message),
            "hint": printable(f.hint),
            "level": f.level,
            "rule": f.rule,
        }
        for f in findings
    ]
    return json.dumps({"problems": problems}, indent=2, ensure_ascii=False)


FORMATS: dict[str, Callable[[Iterable[Finding]], str]] = {
    "text": as_text,
    "annotations": as_annotations,
    "json": as_json,
}
"Name of a format -> its reporter."


def summary(findings: Iterable[Finding], records: int) -> str:
    """How many of each, in one line.

    >>> summary([], 3)
    '3 records: no problems.'
    """
    levels = [finding.level for finding in findings]
    counts = [(levels.count("error"), "problem"), (levels.count("warning"), "warning")]
    said = [_counted(count, word) for count, word in counts if count]
    notes = f", {_counted(levels.count('note'), 'note')}" if "note" in levels else ""
    return f"{_counted(records, 'record')}: {' and '.join(said) or 'no problems'}{notes}."


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}{'s' * (count != 1)}"


def _path(finding: Finding) -> str:
    return printable(finding.path.as_posix())


def _words(finding: Finding) -> str:
    return printable(f"{finding.message} {finding.hint}")


def _title(finding: Finding) -> str:
    return f",title={_property(finding.rule)}" if finding.rule else ""


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
