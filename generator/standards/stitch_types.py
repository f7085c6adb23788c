"""Stitch types by their numbers in ISO 4915."""

from __future__ import annotations

STITCH_TYPES: dict[int, str] = {
    301: "lockstitch",
    304: "zigzag lockstitch",
    401: "two-thread chainstitch",
    503: "two-thread overedge",
    504: "three-thread overedge",
    515: "safety stitch (401 and 504)",
}
"Number -> name."
