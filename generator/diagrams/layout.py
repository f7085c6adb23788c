"""Where things stand in a picture: many graphs laid out by one run of Graphviz."""

from __future__ import annotations

import importlib.metadata
import json
import re
import shutil
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import graphviz
from graphviz.backend import dot_command

Point = tuple[float, float]

_BLANK = re.compile(r"\s*")

PX_PER_INCH = 72.0
"One px is one of Graphviz's points."


_MISSING = (
    "Graphviz is missing, so no picture can be laid out: "
    "run `pip install graphviz-pure`, or install Graphviz so that `dot` is on the PATH."
)


class GraphvizError(Exception):
    """Graphviz cannot lay out; the message says why and what to do."""


class GraphvizMissing(GraphvizError):
    """No Graphviz on this machine."""

    def __init__(self, said: str = _MISSING) -> None:
        super().__init__(said)


@dataclass(frozen=True, slots=True)
class Graph:
    """Boxes and lines to be laid out. Holds no text, so no text can be misread on the way."""

    sizes: tuple[Point, ...]
    "Width and height of each node, px."
    edges: tuple[tuple[int, int], ...]
    "Tail and head, as positions in `sizes`."
    lying: bool = False
    "Ranks run from left to right, else from the top down."
    rank_gap: float = 24.0
    "Between ranks, px."
    node_gap: float = 10.0
    "Between neighbours in a rank, px."
    tree: bool = False
    "Keep the order of the edges and leave the lines to whoever draws."
    loose: frozenset[int] = frozenset()
    "Edges, as positions in `edges`, that do not decide the ranks."


@dataclass(frozen=True, slots=True)
class Layout:
    """One graph laid out; the origin is the top left corner, y runs down."""

    width: float
    height: float
    centres: tuple[Point, ...]
    "Middle of each node, px, as in `Graph.sizes`."
    curves: tuple[tuple[Point, ...], ...]
    "Bezier control points of each edge from tail to head, as in `Graph.edges`; empty for a tree."


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture in two stages, so that many can be laid out together."""

    graph: Graph
    render: Callable[[Layout], str]
    "Draws the SVG from the layout; pure."
    other: Drawing | None = None
    "The same picture laid out another way: the narrower is drawn, on equal terms this one."


def find_dot() -> Path:
    """The program that lays out: `dot` from the PATH, else the one of the graphviz-pure package.

    Raises GraphvizMissing if there is neither.
    """
    on_path = shutil.which("dot")
    if on_path:
        return Path(on_path)
    try:
        files = importlib.metadata.files("graphviz-pure") or []
    except importlib.metadata.PackageNotFoundError:
        files = []
    programs = (Path(str(f.locate())) for f in files if f.stem == "graphviz-pure" and f.suffix in ("", ".exe"))
    found = next((program for program in programs if program.is_file()), None)
    if found is None:
        raise GraphvizMissing
    return found.resolve()


def _source(graph: Graph) -> str:
    dot = graphviz.Digraph(
        graph_attr={
            "rankdir": "LR" if graph.lying else "TB",
            "ranksep": f"{graph.rank_gap / PX_PER_INCH:.4f}",
            "nodesep": f"{graph.node_gap / PX_PER_INCH:.4f}",
            "splines": "none" if graph.tree else "true",
            "ordering": "out" if graph.tree else "",
        },
        node_attr={"shape": "box", "fixedsize": "true", "label": ""},
        edge_attr={"arrowhead": "none"},
    )
    for number, (width, height) in enumerate(graph.sizes):
        inches = {"width": f"{width / PX_PER_INCH:.4f}", "height": f"{height / PX_PER_INCH:.4f}"}
        dot.node(f"n{number}", **inches)
    for number, (tail, head) in enumerate(graph.edges):
        bound = "false" if number in graph.loose else "true"
        dot.edge(f"n{tail}", f"n{head}", id=f"e{number}", constraint=bound)
    return str(dot.source)


def _run(source: str) -> str:
    """One run of the program that `find_dot` finds; the graphviz package has no other way to name it."""
    usual = dot_command.DOT_BINARY
    dot_command.DOT_BINARY = find_dot()
    try:
        return str(graphviz.pipe_string("dot", "json0", source, encoding="utf-8"))
    except (graphviz.CalledProcessError, OSError) as error:
        said = " ".join((getattr(error, "stderr", "") or str(error)).split())
        raise GraphvizError(f"Graphviz ({find_dot()}) cannot lay out a picture: {said} Install it again.") from None
    finally:
        dot_command.DOT_BINARY = usual


def _objects(text: str) -> Iterator[dict[str, Any]]:
    """JSON objects that follow one another."""
    decoder, at, text = json.JSONDecoder(), 0, text.strip()
    while at < len(text):
        found, end = decoder.raw_decode(text, at)
        yield found
        blank = _BLANK.match(text, end)
        at = blank.end() if blank else end


def _points(text: str, height: float) -> tuple[Point, ...]:
    pairs = (pair.split(",") for pair in text.split())
    return tuple((float(x), round(height - float(y), 3)) for x, y in pairs)


def _read(found: dict[str, Any], graph: Graph) -> Layout:
    width, height = (float(side) for side in found["bb"].split(",")[2:])
    centres = {node["name"]: _points(node["pos"], height)[0] for node in found.get("objects", ())}
    curves = {edge["id"]: _points(edge.get("pos", ""), height) for edge in found.get("edges", ())}
    return Layout(
        width,
        height,
        tuple(centres[f"n{number}"] for number in range(len(graph.sizes))),
        tuple(curves[f"e{number}"] for number in range(len(graph.edges))),
    )


def layout(graphs: Sequence[Graph]) -> list[Layout]:
    """Lays out all graphs in one process, in their order.

    Raises GraphvizError if there is no Graphviz, or one that fails.

    >>> over, under = layout([Graph(((80, 30), (80, 30)), ((0, 1),))])[0].centres
    >>> over[1] < under[1]
    True
    """
    if not graphs:
        return []
    answer = _run("".join(map(_source, graphs)))
    return [_read(found, graph) for found, graph in zip(_objects(answer), graphs, strict=True)]


def _ways(drawing: Drawing) -> Iterator[Drawing]:
    yield drawing
    if drawing.other:
        yield from _ways(drawing.other)


def render_all(drawings: Sequence[Drawing]) -> list[str]:
    """The SVG of each drawing, all laid out in one process.

    Raises GraphvizError if there is no Graphviz, or one that fails.
    """
    choices = [list(_ways(drawing)) for drawing in drawings]
    layouts = iter(layout([way.graph for ways in choices for way in ways]))
    laid = [[(next(layouts), way) for way in ways] for ways in choices]
    chosen = (min(ways, key=lambda pair: pair[0].width) for ways in laid)
    return [way.render(where) for where, way in chosen]
