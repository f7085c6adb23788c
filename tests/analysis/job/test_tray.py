"""Cells of the tray, numbered by hand."""

from __future__ import annotations

from generator.analysis.job.settings import TakingOff
from generator.analysis.job.tray import taken_off, tray
from generator.analysis.job.types import Cell, Handling, Practice

PRACTICE = Practice(
    {
        "cover": Handling(joints=("long-screw", "cover-screw", "long-screw")),
        "gear": Handling(joints=("gear-screw", "long-screw"), loose=("shim", "key")),
        "needle": Handling(),
        "plate": Handling(loose=("spring",)),
    }
)


def test_cells_count_from_one_in_the_order_of_removal_joints_before_loose_pieces() -> None:
    """The long screw holds both: it lies where the first of them came off, and once."""
    assert tray(["cover", "needle", "gear", "plate"], PRACTICE) == (
        Cell(1, "cover", "long-screw", "joint"),
        Cell(2, "cover", "cover-screw", "joint"),
        Cell(3, "gear", "gear-screw", "joint"),
        Cell(4, "gear", "shim", "loose"),
        Cell(5, "gear", "key", "loose"),
        Cell(6, "plate", "spring", "loose"),
    )


def test_the_order_of_removal_says_who_has_the_shared_screw() -> None:
    cells = tray(["gear", "cover"], PRACTICE)
    assert [(c.part, c.holds) for c in cells if c.kind == "joint"] == [
        ("gear", "gear-screw"), ("gear", "long-screw"), ("cover", "cover-screw"),
    ]  # fmt: skip


def test_nothing_off_fills_no_cell() -> None:
    assert tray([], PRACTICE) == tray(["needle"], PRACTICE) == ()


def test_what_comes_off_on_the_way_out_follows_what_came_off_on_the_way_in_each_once() -> None:
    back = ("gear", TakingOff("plate"), "plate", TakingOff("cover"), TakingOff("plate"))
    assert taken_off(("cover", "gear"), back) == ("cover", "gear", "plate")
