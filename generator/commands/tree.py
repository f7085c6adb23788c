"""`tree`: a family's fault tree in five forms."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import click

from generator.analysis.fault_tree import importance, minimal_cut_sets, top_probability
from generator.analysis.mef import to_mef
from generator.analysis.tree import Event, Gate, Node
from generator.bench import Complaint
from generator.commands import common
from generator.commands.folders import content_option
from generator.diagrams import draw, fault_tree_svg, layout
from generator.diagrams.tree_list import gate_words
from generator.wording import words

_STYLES = Path(__file__).parent.parent / "assets" / "css"


@click.command()
@click.argument("symptom")
@common.family_option
@click.option(
    "--as",
    "form",
    type=click.Choice(["text", "svg", "dot", "json", "mef"]),
    default="text",
    show_default=True,
    help="text, an outline; svg, the drawing; dot, for Graphviz; json, data; mef, the open model exchange format.",
)
@click.option("--json", "as_json", is_flag=True, help="Give the answer as data, as --as json does.")
@content_option
def tree(symptom: str, family: str, form: str, as_json: bool, folders: Sequence[Path]) -> None:
    """Print the fault tree of SYMPTOM on a family."""
    complaint = common.complaint_of(common.open_bench(folders), family, symptom)
    if as_json or form == "json":
        common.print_json(_json(complaint))
    else:
        click.echo(_FORMS[form](complaint))


def _text(complaint: Complaint) -> str:
    lines = list(_outline(complaint.tree, complaint.probabilities, 0))
    if complaint.folded.left_out:
        lines += ["", "Left out:"]
        lines += [f"  {gone.id}: {gone.reason}" for gone in complaint.folded.left_out]
    chance = top_probability(complaint.tree, complaint.probabilities)
    lines += ["", f"Chance on a machine of this family: {chance.value:.4f}. {complaint.cut_sets.said}"]
    return "\n".join(lines)


def _outline(node: Node, q: dict[str, float], depth: int) -> Iterator[str]:
    if isinstance(node, Event):
        yield f"{'  ' * depth}{node.title} [{node.id}] {q[node.id]:.4f}"
        return
    yield f"{'  ' * depth}{node.title}: {gate_words(node)}"
    for child in node.inputs:
        yield from _outline(child, q, depth + 1)


def _svg(complaint: Complaint) -> str:
    shares = {h.id: words.percent(h.share) for h in complaint.case.hypotheses if len(h.causes) == 1}
    drawing = fault_tree_svg.prepare(complaint.tree, prefix="t", href=lambda node: None, shares=shares)
    try:
        picture = layout.render_all([drawing])[0]
    except layout.GraphvizError as error:
        common.refuse(str(error))
    return draw.standalone(picture, "".join((_STYLES / name).read_text(encoding="utf-8") for name in ("face.css", "diagrams.css")))


def _dot(complaint: Complaint) -> str:
    """The structure alone; ids and titles quoted as the language wants them."""
    lines = ["digraph fault_tree {", "  rankdir=LR;"]
    numbers: dict[str, str] = {}

    def named(node: Node) -> str:
        if node.id not in numbers:
            numbers[node.id] = f"n{len(numbers) + 1}"
            shape = "ellipse" if isinstance(node, Event) else "box"
            label = node.title if isinstance(node, Event) else f"{node.title}\n{gate_words(node)}"
            lines.append(f"  {numbers[node.id]} [shape={shape}, label={_quoted(label)}];")
            for child in node.inputs if isinstance(node, Gate) else ():
                lines.append(f"  {numbers[node.id]} -> {named(child)};")
        return numbers[node.id]

    named(complaint.tree)
    return "\n".join([*lines, "}"])


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


def _mef(complaint: Complaint) -> str:
    return to_mef(complaint.tree, complaint.probabilities)


_FORMS: dict[str, Callable[[Complaint], str]] = {"text": _text, "svg": _svg, "dot": _dot, "mef": _mef}


def _json(complaint: Complaint) -> dict[str, object]:
    q = complaint.probabilities
    cut_sets = minimal_cut_sets(complaint.tree, q)
    chance = top_probability(complaint.tree, q)
    return {
        "tree": _node(complaint.tree),
        "cut_sets": [list(causes) for causes in cut_sets.sets],
        "exact": cut_sets.exact and chance.exact,
        "probability": chance.value,
        "bounds": [chance.lower, chance.upper],
        "importance": {
            mode: {
                "birnbaum": figure.birnbaum,
                "fussell_vesely": figure.fussell_vesely,
                "criticality": figure.criticality,
            }
            for mode, figure in sorted(importance(complaint.tree, q).items())
        },
        "left_out": [{"id": gone.id, "reason": gone.reason} for gone in complaint.folded.left_out],
    }


def _node(node: Node) -> object:
    """The tree as the records write one: a string for a failure mode, a mapping for a gate."""
    if isinstance(node, Event):
        return node.id
    inputs = [_node(child) for child in node.inputs]
    head = {"id": node.id, "title": node.title}
    if node.kind == "at_least":
        return {**head, "at_least": node.k, "of": inputs}
    return {**head, node.kind: inputs}
