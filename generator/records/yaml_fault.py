"""What a YAML parser complains of, in plain words."""

from __future__ import annotations

from pathlib import Path

from generator.records.finding import Finding, printable

_PLAIN = (
    (
        "'\\t' that cannot start",
        "A tab stands where YAML wants spaces.",
        "Put spaces in its place.",
    ),
    (
        "mapping values are not allowed",
        "A colon followed by a space stands inside text that has no quotes.",
        "Put the whole text in quotes, or mend the indentation of this line.",
    ),
    (
        "could not find expected ':'",
        "A line before this one has no colon after its key.",
        "Write 'key: value', or indent the line to go on with the text above.",
    ),
    (
        "expected <block end>",
        "The indentation of this line fits none of the lines above it.",
        "Line it up with the other keys or list entries of the same level.",
    ),
    (
        "expected '<document start>'",
        "The indentation of this line fits none of the lines above it.",
        "Start every key of the record at the beginning of its line.",
    ),
    (
        "expected ',' or ']'",
        "The list in [ ] that begins in line {began} has no comma or no closing bracket here.",
        "Add the ',' or the ']', or put quotes round an entry that holds punctuation.",
    ),
    (
        "expected ',' or '}'",
        "The mapping in {{ }} that begins in line {began} has no comma or no closing brace here.",
        "Add the ',' or the '}', or put quotes round a value that holds punctuation.",
    ),
    (
        "unexpected end of stream",
        "A quote is opened and never closed.",
        "Close it at the end of the text.",
    ),
    (
        "that cannot start any token",
        "Text begins with a character that YAML keeps for itself.",
        "Put the whole text in quotes.",
    ),
    (
        "unknown escape character",
        "A backslash in double quotes is followed by a letter that means nothing.",
        "Use single quotes, or write the backslash twice.",
    ),
    (
        "sequence entries are not allowed",
        "A list entry begins where no list can stand.",
        "Put the '-' on its own line, two spaces deeper than the key.",
    ),
)
"Words of PyYAML's parser -> message and hint."


def explain(error: Exception, path: Path) -> Finding:
    """The finding for a parser's error, at the place that the parser names."""
    problem = str(getattr(error, "problem", None) or getattr(error, "reason", None) or error)
    began, mark = getattr(error, "context_mark", None), getattr(error, "problem_mark", None)
    if began and "unexpected end of stream" in problem:
        mark = began
    line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
    for words, message, hint in _PLAIN:
        if words in problem:
            return Finding(path, line, column, message.format(began=began and began.line + 1), hint)
    message = f"YAML cannot be read here: {printable(problem)}."
    return Finding(path, line, column, message, "Mend this line or the one above it.")
