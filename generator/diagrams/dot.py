"""A fault tree in the language of Graphviz, for whoever lays it out otherwise."""

from __future__ import annotations

from generator.analysis.tree import Event, Gate, Node
from generator.diagrams.tree_list import gate_words


def dot(tree: Gate, name: str = "fault_tree") -> str:
    """The structure alone; ids and titles quoted as the language wants them. A shared event stands once.

    An event is an ellipse, which is the shape that Graphviz draws where none is said.

    >>> print(dot(Gate("skips", "Skips", "any", (Event("bent", "Needle bent"),)), "skips").splitlines()[0])
    digraph "skips" {
    """
    lines = [f"digraph {_quoted(name)} {{", "  rankdir=LR;"]
    numbers: dict[str, str] = {}

    def named(node: Node) -> str:
        if node.id not in numbers:
            numbers[node.id] = f"n{len(numbers) + 1}"
            title = node.title or node.id
            if isinstance(node, Event):
                lines.append(f"  {numbers[node.id]} [label={_quoted(title)}];")
            else:
                label = _quoted(f"{title}\n{gate_words(node)}")
                lines.append(f"  {numbers[node.id]} [shape=box, label={label}];")
                if node.inputs:
                    inputs = " ".join(map(named, node.inputs))
                    lines.append(f"  {numbers[node.id]} -> {{{inputs}}};")
        return numbers[node.id]

    named(tree)
    return "\n".join([*lines, "}"])


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'
