"""Which tools undo a joint, read from what the chart says drives it."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable, Iterator

from generator.family_view import FamilyView

_DRIVERS = ("small-screwdriver", "large-screwdriver", "stubby-screwdriver")
_LARGE_SPANNER_MM = 13


def keys(drive: str) -> tuple[tuple[str, ...], ...]:
    """For each thing that a drive takes, the tools that serve, the likeliest first.

    A drive with a choice ("fingers, or", "slotted, or 7/16 in spanner") is told by its first; the others serve as well.

    >>> keys("slotted, and 8 mm spanner on the nut")
    (('small-screwdriver', 'stubby-screwdriver', 'large-screwdriver'), ('spanner-small',))
    >>> keys("2.5 mm hex socket"), keys("fingers")
    ((('hex-key-2-5',),), ())
    """
    first, *others = (tuple(_keys(choice)) for choice in drive.split(", or "))
    also = tuple(tool for groups in others for group in groups for tool in group)
    return ((first[0] + also, *first[1:])) if first else ()


def _keys(drive: str) -> Iterator[tuple[str, ...]]:
    if "slot" in drive:
        large = "full width" in drive or re.search(r"\b([5-9]|10) mm (slot|blade)|slotted [5-9] mm", drive)
        yield tuple(sorted(_DRIVERS, key=lambda tool: (tool.startswith("large") != bool(large), _DRIVERS.index(tool))))
    if "cross recess" in drive:
        yield ("cross-recess-screwdriver",)
    if "circlip" in drive:
        yield ("circlip-pliers",)
    if hex_key := re.search(r"([\d.]+) mm hex|(\d+/\d+) in hex", drive):
        size = (hex_key[1] or hex_key[2]).replace(".", "-").replace("/", "-")
        yield (f"hex-key-{size}",)
    if spanner := re.search(r"(\d+) mm spanner|\d/\d+ in spanner", drive):
        yield ("spanner-large" if int(spanner[1] or 0) >= _LARGE_SPANNER_MM else "spanner-small",)


def with_keys(tools: Iterable[str], groups: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    """The tools and, of each group that none of them serves, the likeliest; by id."""
    found = set(tools)
    for group in groups:
        if not found.intersection(group):
            found.add(group[0])
    return tuple(sorted(found))


def fitted(tools: Iterable[str], groups: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    """A shared record's tools as one family's screws take them; by id.

    A hex key that no joint of the work takes is left out, since the nearest wrong one rounds the socket. Where a joint takes
    what the record does not name, that comes in, in place of the record's wrong key, or else of its wrong drivers. A driver
    beside the right key stays: it is for what is not on the chart.

    >>> fitted(("hex-key-3-32", "large-screwdriver", "marker"), [("hex-key-2-5",)])
    ('hex-key-2-5', 'large-screwdriver', 'marker')
    >>> fitted(("large-screwdriver", "tray"), [("cross-recess-screwdriver",)])
    ('cross-recess-screwdriver', 'tray')
    """
    groups, tools = tuple(groups), set(tools)
    wrong = tools - {tool for group in groups for tool in group} if groups else set()
    wrong_keys = {tool for tool in wrong if tool.startswith("hex-key-")}
    if not wrong_keys and any(tools.isdisjoint(group) for group in groups):
        wrong_keys = {tool for tool in wrong if tool.endswith("screwdriver")}
    return with_keys(tools - wrong_keys, groups)


def joint_keys(view: FamilyView, joints: Iterable[str], known: Container[str]) -> tuple[tuple[str, ...], ...]:
    """The groups of the joints that are on the family's chart, of tools that the book knows."""
    noted = (view.fasteners[joint] for joint in sorted(set(joints)) if joint in view.fasteners)
    groups = (tuple(tool for tool in group if tool in known) for note in noted for group in keys(note.drive or ""))
    return tuple(filter(None, groups))
