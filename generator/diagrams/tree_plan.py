"""How much room each node of a fault tree takes, in whole px, and where its pieces stand in that room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import ceil

from generator.analysis.tree import Event, Gate
from generator.diagrams import draw, symbols, text
from generator.diagrams.layout import Point
from generator.diagrams.tree_cells import TreeCell

CHANNEL = 16.0
"Between ranks, where the lines turn, px."
NODE_GAP = 9.0
"Between neighbours in a rank, px."
STEM = 4.0
"Between a box and its gate, or a circle and its text, px."
LEAST = 24.0
"Least height and width of what can be pressed, px (WCAG 2.2, 2.5.8)."


@dataclass(frozen=True, slots=True)
class TreePlan:
    """The rooms of all cells: a rank's cells share one extent along the tree, so that they line up."""

    cells: tuple[TreeCell, ...]
    lying: bool
    radius: float
    "Of every circle, so that each share fits, px."
    shield: float
    "Width and height of every gate, px."
    boxes: Mapping[int, Point]
    "Widest and tallest box of a rank's gates, px."
    ranks: Mapping[int, float]
    "A rank's extent along the tree, px."

    def size(self, cell: TreeCell) -> Point:
        """Width and height of a cell's room, px."""
        width, height = _room(cell, self.lying, self.radius, self.shield, self.boxes)
        return (self.ranks[cell.rank], height) if self.lying else (width, self.ranks[cell.rank])

    def sizes(self) -> tuple[Point, ...]:
        """The rooms of all cells, for the layout."""
        return tuple(map(self.size, self.cells))

    def entry(self, cell: TreeCell, corner: Point) -> Point:
        """Where the line from the gate above arrives."""
        (x, y), (width, height) = corner, self.size(cell)
        return (x, y + height / 2) if self.lying else (x + width / 2, y)

    def gate_box(self, cell: TreeCell, corner: Point) -> tuple[float, float, float, float]:
        """Left, top, width and height of a gate's box."""
        (x, y), (width, height) = corner, self.size(cell)
        wide, tall = self.boxes[cell.rank]
        if self.lying:
            tall = _box(cell)[1]
            return x, y + (height - tall) / 2, wide, tall
        wide = _box(cell)[0]
        return x + (width - wide) / 2, y, wide, tall

    def shield_centre(self, cell: TreeCell, corner: Point) -> Point:
        """Middle of a gate's symbol."""
        x, y, width, height = self.gate_box(cell, corner)
        if self.lying:
            return x + width + STEM + self.shield / 2, y + height / 2
        return x + width / 2, y + height + STEM + self.shield / 2

    def leaf_centre(self, cell: TreeCell, corner: Point) -> Point:
        """Middle of an event's circle or a transfer's triangle."""
        x, y = self.entry(cell, corner)
        return (x + self.radius, y) if self.lying else (x, y + self.radius)

    def leaf_words(self, cell: TreeCell, corner: Point) -> Point:
        """Left (or middle, in a standing tree) and top of a leaf's text."""
        x, y = self.entry(cell, corner)
        if self.lying:
            return x + 2 * self.radius + STEM, y - _leaf_text(cell)[1] / 2
        return x, y + 2 * self.radius + STEM / 2


def plan(cells: tuple[TreeCell, ...], lying: bool) -> TreePlan:
    """The rooms of the cells of one tree."""
    shares = (text.width(cell.note, text.SMALL) for cell in cells if isinstance(cell.node, Event))
    radius = max([LEAST / 2, *(ceil(share / 2) + 3 for share in shares)])
    gates = [cell for cell in cells if not cell.is_leaf]
    shield = symbols.shield_size([symbols.label(cell.node) for cell in gates if isinstance(cell.node, Gate)])
    boxes = {
        rank: tuple(max(sides) for sides in zip(*map(_box, group), strict=True)) for rank, group in _by_rank(gates)
    }
    along = 0 if lying else 1
    ranks = {
        rank: max(_room(cell, lying, radius, shield, boxes)[along] for cell in group)
        for rank, group in _by_rank(cells)
    }
    return TreePlan(cells, lying, radius, shield, boxes, ranks)


def _by_rank(cells: Iterable[TreeCell]) -> Iterator[tuple[int, list[TreeCell]]]:
    groups: dict[int, list[TreeCell]] = {}
    for cell in cells:
        groups.setdefault(cell.rank, []).append(cell)
    yield from groups.items()


def _box(cell: TreeCell) -> Point:
    wide = ceil(text.widest(cell.lines, strong=cell.parent is None))
    return wide + 2 * draw.PAD, len(cell.lines) * text.LINE + draw.PAD


def _leaf_text(cell: TreeCell) -> Point:
    note = (cell.note,) if cell.is_transfer else ()
    wide = ceil(max(text.widest(cell.lines), text.widest(note, text.SMALL)))
    return wide, len(cell.lines + note) * text.LINE


def _room(
    cell: TreeCell, lying: bool, radius: float, shield: float, boxes: Mapping[int, Point]
) -> Point:
    """What a cell needs by itself; a gate's box counts as large as the largest of its rank."""
    if cell.is_leaf:
        wide, tall = _leaf_text(cell)
        if lying:
            return 2 * radius + STEM + wide, max(2 * radius, tall)
        return max(2 * radius, wide), 2 * radius + STEM / 2 + tall
    if lying:
        return boxes[cell.rank][0] + STEM + shield, max(_box(cell)[1], shield)
    return max(_box(cell)[0], shield), boxes[cell.rank][1] + STEM + shield
