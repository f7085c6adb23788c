"""`tree`: a family's fault tree in five forms."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import click

from generator.analysis.fault_tree import importance, minimal_cut_sets, top_probability
from generator.analysis.folding import LeftOut
from generator.analysis.mef import to_mef
from generator.analysis.tree import Event, Gate, Node, event_ids
from generator.commands import common
from generator.commands.folders import content_option
from generator.commands.tree_file import tree_of_file
from generator.diagrams import draw, fault_tree_svg, layout
from generator.diagrams.dot import dot
from generator.diagrams.tree_list import gate_words
from generator.wording import words

_STYLES = Path(__file__).parent.parent / "assets" / "css"


@dataclass(frozen=True, slots=True)
class _Subject:
    """A tree with what is said about it."""

    tree: Gate
    q: Mapping[str, float]
    "Event id -> probability; a file may leave some out."
    of: str
    "What the chance is a chance of."
    left_out: tuple[LeftOut, ...] = ()
    shares: Mapping[str, str] = field(default_factory=dict)
    "Event id -> its share among the causes, in words."

    @property
    def has_chances(self) -> bool:
        """Whether every event has its probability."""
        return set(event_ids(self.tree)) <= self.q.keys()


@click.command()
@click.argument("symptom", required=False)
@click.option("-f", "--family", metavar="FAMILY", help="Which machine family, by its id.")
@click.option(
    "--from",
    "file",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="A tree in the open model exchange format, in place of SYMPTOM and FAMILY.",
)
@click.option(
    "--as",
    "form",
    type=click.Choice(["text", "svg", "dot", "json", "mef"]),
    default="text",
    show_default=True,
    help="text, an outline with cut sets; svg, the drawing; dot, for Graphviz; json, data; mef, the open model exchange format.",
)
@click.option("--json", "as_json", is_flag=True, help="Give the answer as data, as --as json does.")
@content_option
def tree(
    symptom: str | None, family: str | None, file: Path | None, form: str, as_json: bool, folders: Sequence[Path]
) -> None:
    """Print the fault tree of SYMPTOM on a family, or of a file."""
    subject = _of_file(file, symptom, family) if file else _of_records(folders, symptom, family)
    if as_json or form == "json":
        common.print_json(_json(subject))
    else:
        click.echo(_FORMS[form](subject))


def _of_file(file: Path, symptom: str | None, family: str | None) -> _Subject:
    if symptom or family:
        common.refuse("Give SYMPTOM with -f FAMILY, or --from FILE, not both.")
    top, q = tree_of_file(file)
    return _Subject(top, q, "Chance of the top event")


def _of_records(folders: Sequence[Path], symptom: str | None, family: str | None) -> _Subject:
    if not symptom:
        raise click.UsageError("Missing argument 'SYMPTOM', or --from FILE.", click.get_current_context())
    if not family:
        raise click.UsageError("Missing option '-f' / '--family'.", click.get_current_context())
    complaint = common.complaint_of(common.open_bench(folders), family, symptom)
    shares = {h.id: words.percent(h.share) for h in complaint.case.hypotheses if len(h.causes) == 1}
    left_out = complaint.folded.left_out
    return _Subject(complaint.tree, complaint.probabilities, "Chance on a machine of this family", left_out, shares)


def _text(subject: _Subject) -> str:
    lines = list(_outline(subject.tree, subject.q, 0))
    if subject.left_out:
        lines += ["", "Left out:"]
        lines += [f"  {gone.id}: {gone.reason}" for gone in subject.left_out]
    found = minimal_cut_sets(subject.tree, subject.q if subject.has_chances else None)
    lines += ["", "Minimal cut sets:", *(f"  {' + '.join(causes)}" for causes in found.sets)]
    chance = f"{subject.of}: {top_probability(subject.tree, subject.q).value:.4g}. " if subject.has_chances else ""
    lines += ["", chance + found.said]
    return "\n".join(lines)


def _outline(node: Node, q: Mapping[str, float], depth: int) -> Iterator[str]:
    if isinstance(node, Event):
        chance = f" {q[node.id]:.4f}" if node.id in q else ""
        yield f"{'  ' * depth}{node.title or node.id} [{node.id}]{chance}"
        return
    yield f"{'  ' * depth}{node.title or node.id}: {gate_words(node)}"
    for child in node.inputs:
        yield from _outline(child, q, depth + 1)


def _svg(subject: _Subject) -> str:
    drawing = fault_tree_svg.prepare(subject.tree, prefix="t", href=lambda node: None, shares=subject.shares)
    try:
        picture = layout.render_all([drawing])[0]
    except layout.GraphvizError as error:
        common.refuse(str(error))
    return draw.standalone(picture, "".join((_STYLES / name).read_text(encoding="utf-8") for name in ("face.css", "diagrams.css")))


def _dot(subject: _Subject) -> str:
    return dot(subject.tree)


def _mef(subject: _Subject) -> str:
    if not subject.has_chances:
        common.refuse("This form needs the probability of every event, and the file gives not all.")
    return to_mef(subject.tree, subject.q)


_FORMS: dict[str, Callable[[_Subject], str]] = {"text": _text, "svg": _svg, "dot": _dot, "mef": _mef}


def _json(subject: _Subject) -> dict[str, object]:
    found = minimal_cut_sets(subject.tree, subject.q if subject.has_chances else None)
    told: dict[str, object] = {"tree": _node(subject.tree), "cut_sets": [list(causes) for causes in found.sets]}
    if not subject.has_chances:
        return {**told, "exact": found.exact}
    chance = top_probability(subject.tree, subject.q)
    return {
        **told,
        "exact": found.exact and chance.exact,
        "probability": chance.value,
        "bounds": [chance.lower, chance.upper],
        "importance": {
            mode: {
                "birnbaum": figure.birnbaum,
                "fussell_vesely": figure.fussell_vesely,
                "criticality": figure.criticality,
            }
            for mode, figure in sorted(importance(subject.tree, subject.q).items())
        },
        "left_out": [{"id": gone.id, "reason": gone.reason} for gone in subject.left_out],
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
