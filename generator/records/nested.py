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
    if step == "*:":
        yield from (((*route, key), True, key) for key, _ in children(data))
    elif step == "*":
        for key, value in children(data):
            yield from match(value, rest, (*route, key))
    elif isinstance(data, dict) and step in data:
        yield from match(data[step], rest, (*route, step))


def texts(data: object) -> list[str]:
    """Every string value, in order.

    >>> texts({"title": "Gear", "off": {"minutes": 2, "how": "Lift it."}, "behind": ["plate"]})
    ['Gear', 'Lift it.', 'plate']
    """
    if isinstance(data, str):
        return [data]
    held = data.values() if isinstance(data, dict) else data if isinstance(data, list) else ()
    found: list[str] = []
    for value in held:
        if isinstance(value, str):
            found.append(value)
        elif isinstance(value, dict | list):
            found += texts(value)
    return found


def strings(data: object, route: Route = ()) -> Iterator[tuple[Route, str]]:
    """Every string value, with its route."""
    if isinstance(data, str):
        yield route, data
    for key, value in children(data):
        yield from strings(value, (*route, key))


def entries(data: object, name: str, route: Route = ()) -> Iterator[tuple[Route, dict[str, object]]]:
    """Every mapping in a list that stands under a key of this name, at whatever depth, with its route.

    >>> list(entries({"parts": {"gear": {"pictures": [{"file": "gear.jpg"}]}}}, "pictures"))
    [(('parts', 'gear', 'pictures', 0), {'file': 'gear.jpg'})]
    """
    for key, value in children(data):
        if key == name and isinstance(value, list):
            yield from (((*route, key, place), entry) for place, entry in enumerate(value) if isinstance(entry, dict))
        elif isinstance(value, dict | list):
            yield from entries(value, name, (*route, key))
