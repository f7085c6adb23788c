"""Templates hold words and structure: they work nothing out, and their lines can be read."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import jinja2
import pytest
from jinja2 import nodes

import generator.pages

FOLDER = Path(generator.pages.__file__).parent
TEMPLATES = sorted(FOLDER.rglob("*.html"))
LONGEST_LINE = 140

SUMS = (nodes.Add, nodes.Sub, nodes.Mul, nodes.Div, nodes.FloorDiv, nodes.Mod, nodes.Pow, nodes.Neg)
"Arithmetic."
MADE = (nodes.Slice, nodes.Concat, nodes.CondExpr)
"Parts of lists and texts, texts put together, values chosen inside a text."
AS_IT_STANDS = {
    *("block", "inline", "plain", "own_note"),  # Markdown of the records
    *("minutes", "counted", "plural", "listed", "join"),  # how a value is read
    *("spaced", "capitalize", "lower"),  # the case of words
    *("length", "url", "e"),  # how many; where; nothing taken for markup
    "script_tag",  # of a script's address, as MkDocs writes it
}
"Filters that show what they are given."


def _parsed(source: str) -> nodes.Template:
    return jinja2.Environment(trim_blocks=True, lstrip_blocks=True).parse(source)


def _worked_out(source: str) -> Iterator[tuple[int, str]]:
    """Line and kind of everything in a template that makes a new value."""
    tree = _parsed(source)
    yield from ((n.lineno, type(n).__name__) for n in tree.find_all((*SUMS, *MADE)))
    yield from ((f.lineno, f.name) for f in tree.find_all(nodes.Filter) if f.name not in AS_IT_STANDS)
    for choice in tree.find_all(nodes.If):
        if [d.data for out in choice.body if isinstance(out, nodes.Output) for d in out.nodes if isinstance(d, nodes.TemplateData)] == ["s"]:
            yield choice.lineno, "a plural"


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.relative_to(FOLDER).as_posix())
def test_a_template_shows_values_and_works_none_out(path: Path) -> None:
    source = path.read_text("utf-8")
    assert list(_worked_out(source)) == []
    assert [n for n, line in enumerate(source.splitlines(), 1) if len(line) > LONGEST_LINE] == []


@pytest.mark.parametrize(
    "source",
    [
        "{{ a + b }}", "{{ n - 1 }}", "{{ -n }}", "{{ n * 2 }}", "{{ n // 2 }}", "{{ n % 2 }}",
        "{{ a[:3] }}", "{{ a ~ b }}", '{{ "" if one else "s" }}', "drop{% if n > 1 %}s{% endif %}",
        '{{ "%.2f" | format(x) }}', "{{ a | sum }}", "{{ a | upper }}", '{{ a | replace("x", "y") }}', "{% set x = a | int %}",
    ],
)  # fmt: skip
def test_what_works_something_out_is_found(source: str) -> None:
    assert len(list(_worked_out(source))) == 1
