"""Whether the drive written in a record is the one that the standards give for its screw."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from generator.standards.keys import KIND_WORDS, Kind, key_for
from generator.standards.notation import parse_thread
from generator.standards.quantity import Quantity

_HEX = r"hex(?:agon)?(?:[ -](?:socket|key))?"
_SOCKET = re.compile(rf"(?:(.+?),?\s+{_HEX}\b.*|{_HEX},?\s+(.+))", re.IGNORECASE)
_KINDS: tuple[tuple[str, Kind], ...] = (("set screw", "set"), ("grub screw", "set"), ("cap screw", "cap"))


def kind_of(text: str) -> Kind | None:
    """The kind meant by a record's words, or None for a screw whose drive no table here gives.

    >>> kind_of("set screw, cup point"), kind_of("socket head cap screw"), kind_of("thumb screw")
    ('set', 'cap', None)
    """
    return next((kind for words, kind in _KINDS if words in text.lower()), None)


def socket_size(drive: str) -> Quantity | None:
    """The width across flats in "3/32 in hex socket" or "hex socket, 2 mm"; None for any other drive.

    >>> str(socket_size("3/32 in hex socket")), socket_size("slotted")
    ('3/32 in', None)
    """
    match = _SOCKET.fullmatch(drive.strip())
    try:
        size = Quantity.parse(match[1] or match[2]) if match else None
    except ValueError:
        return None
    return size if size and size.dimension == "length" else None


@cache
def disagreement(thread_text: str, kind_text: str, drive_text: str) -> str | None:
    """A sentence where a record's hex socket is not the standard's for its thread, else None.

    Silent where no standard speaks: another drive, another kind, a trade thread whose key is inferred.
    ValueError for a thread that cannot be read.

    >>> disagreement("10-32", "set screw, cup point", "3/32 in hex socket")
    >>> print(disagreement("10-32", "set screw, cup point", "5/64 in hex socket"))
    thread 10-32 as a set screw takes a 3/32 in key (asme-b18.3), but the drive says 5/64 in: measure both and mend the one that is wrong.
    """
    thread, kind, socket = parse_thread(thread_text), kind_of(kind_text), socket_size(drive_text)
    key = key_for(thread, kind) if kind else None
    if socket is None or kind is None or key is None or key.inferred or _same(socket, key.size):
        return None
    return (
        f"thread {thread.name} as a {KIND_WORDS[kind]} takes a {key.size} key ({key.source}), "
        f"but the drive says {socket}: measure both and mend the one that is wrong."
    )


def _same(one: Quantity, other: Quantity) -> bool:
    """Equal but for rounding: 0.094 in is 3/32 in, 2 mm is not 5/64 in (0.016 mm apart)."""
    return abs(one.to("mm").value - other.to("mm").value) < Fraction(1, 100)
