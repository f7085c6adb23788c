"""Finding values in data of any shape."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.node import Route


def children(data: object) -> list[tuple[str | int, object]]:
    """Key or index and value, in order; empty for a scalar."""
    if isinstance(data, dict):
        return list(data.items())
    return list(enumerate(data)) if isinstance(data, list) else []


def match(
    data: object, pattern: tuple[str, ...], route: Route = ()
) -> Iterator[tuple[Route, bool, object]]:
    """Every value that a pattern finds: its route, whether its key is meant, and the value or the key.

    `*` is every key or index; `*:` as the last step is every key, and the key itself is what is found.

    >>> list(match({"parts": {"gear": {"behind": ["plate"]}}}, ("parts", "*", "behind", "*")))
    [(('parts', 'gear', 'behind', 0), False, 'plate')]
    >>> list(match({"rates": {"gear-cracked": 5}}, ("rates", "*:")))
    [(('rates', 'gear-cracked'), True, 'gear-cracked')]
    """
    if not pattern:
        yield route, False, data
        return
    step, rest = pattern[0], pattern[1:]
    for key, value in children(data):
        if step == "*:":
            yield (*route, key), True, key
        elif step in ("*", key):
            yield from match(value, rest, (*route, key))


def strings(data: object, route: Route = ()) -> Iterator[tuple[Route, str]]:
    """Every string value, with its route."""
    if isinstance(data, str):
        yield route, data
    for key, value in children(data):
        yield from strings(value, (*route, key))
