"""How a record is spoilt: what slips in by hand, by a bad copy, by an editor, or on purpose."""

from __future__ import annotations

import random
from collections.abc import Callable

BOMB = "\n".join(["b0: &b0 [x, x, x, x, x, x, x, x]", *(f"b{n}: &b{n} [{', '.join([f'*b{n - 1}'] * 8)}]" for n in range(1, 30))])
PIECES = (
    *("!!python/object/apply:os.system [ls]", "!!binary aGk=", "!!set {a}", "!example x", "!<tag:yaml.org,2002:str> 1", "!", "!!"),
    *("&a", "*a", "&a [*a]", "<<: *a", "<<: {title: x}", "&a &b x", BOMB, "*"),
    *("[" * 3000, "{a: " * 3000, "- " * 3000, "? " * 500, "[[[[", "}}", "]", "a: b: c", "? x", ": y"),
    *("\0", "\x07", "\x1b[31m", "\u202e", "\u2066", "\u200b", "\ufeff", "\ufffe", "\U000e0041", "\u2028", "\x85", "\r", "\t"),
    *("1e999", "-1e999", ".inf", "-.inf", ".nan", "9" * 400, "-0", "0x1F", "0o17", "1_000", "1e-400", "12:30:45", "2001-12-14", "1/0", "1e308 mm"),
    *("null", "~", "true", "yes", "", '""', "''", "{}", "[]", "|", ">", "|2-", "%YAML 1.1", "---", "...", "--- a\n--- b", "# x", "`x`", "@x", "%x"),
    *("<script>x()</script>", "[x](javascript:x)", "../../../etc/passwd", "=1+1", "{{ x }}", "${x}", "%s", "\\", "'", '"'),
    "x" * 5000,
)
"What is put in."


def spoilt(raw: bytes, chance: random.Random) -> bytes:
    """A record with one to three faults, each of a kind drawn at random."""
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        raw = chance.choice(WAYS)(raw, chance)
    return raw


def _byte(raw: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(raw) + 1)
    return raw[:at] + bytes([chance.randrange(256)]) + raw[at + chance.randrange(2) :]


def _cut(raw: bytes, chance: random.Random) -> bytes:
    start, end = sorted(chance.randrange(len(raw) + 1) for _ in "ab")
    return raw[:start] + raw[end:] if chance.randrange(2) else raw[:end]


def _piece(raw: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(raw) + 1)
    return raw[:at] + chance.choice(PIECES).encode() + raw[at:]


def _value(raw: bytes, chance: random.Random) -> bytes:
    """Another value after a key, or for an entry of a list."""
    lines = raw.split(b"\n")
    at = chance.randrange(len(lines))
    key, mark, _ = lines[at].partition(chance.choice((b": ", b"- ")))
    lines[at] = key + (mark or b": ") + chance.choice(PIECES).encode()
    return b"\n".join(lines)


def _lines(raw: bytes, chance: random.Random) -> bytes:
    """A line twice, at another place, or at another depth."""
    lines = raw.split(b"\n")
    line = lines[chance.randrange(len(lines))]
    at = chance.randrange(len(lines))
    lines.insert(at, chance.choice((line, b"  " + line, line.lstrip(), line[1:])))
    if chance.randrange(2):
        del lines[chance.randrange(len(lines))]
    return b"\n".join(lines)


def _word(raw: bytes, chance: random.Random) -> bytes:
    """One word in the place of another, so that keys and names come where they do not belong."""
    words = raw.split(b" ")
    words[chance.randrange(len(words))] = chance.choice(words)
    return b" ".join(words)


def _encoded(raw: bytes, chance: random.Random) -> bytes:
    text = raw.decode("utf-8", errors="replace")
    return text.encode(chance.choice(("utf-16", "utf-16-le", "utf-32", "latin-1", "cp037", "utf-8-sig")), errors="replace")


WAYS: tuple[Callable[[bytes, random.Random], bytes], ...] = (_byte, _cut, _piece, _piece, _value, _value, _value, _lines, _lines, _word, _word, _encoded)
"The commonest more than once."
