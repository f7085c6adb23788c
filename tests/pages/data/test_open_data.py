"""What is given to other programs is read by them: the schema's validator, the standard library, Graphviz."""

from __future__ import annotations

import csv
import io
import json
import subprocess
from math import fsum
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

import generator
from generator.diagrams.layout import find_dot
from generator.pages.data.open_data import open_files

SCHEMA = Path(generator.__file__).parent / "assets" / "open" / "orders.schema.json"


@pytest.fixture(scope="module")
def files(published) -> dict[str, str]:
    view = next(v for v in published.library.views if v.id == "tessaly-40")
    return {address.split("/")[1].split("-")[0]: text for address, text in open_files(published, view)}


def test_orders_keep_to_the_published_schema_and_shares_make_up_a_whole(files) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    orders = json.loads(files["orders"])
    assert [error.message for error in Draft202012Validator(schema).iter_errors(orders)] == []
    for told in orders["complaints"].values():
        assert fsum(c["share"] for c in told["causes"]) + told["something_else"] == pytest.approx(1, abs=1e-4)
        assert told["lower_bound"] <= told["expected_minutes"] and told["first"]


def test_the_matrix_names_every_complaint_and_numbers_outcomes_as_the_bench_page_does(files, published) -> None:
    rows = list(csv.DictReader(io.StringIO(files["matrix"], newline="")))
    view = next(v for v in published.library.views if v.id == "tessaly-40")
    assert {row["symptom"] for row in rows} == set(view.symptoms)
    for row in rows[:200]:
        assert view.checks[row["check"]].outcomes[int(row["outcome"]) - 1].says.strip() == row["says"].lstrip("'").strip()


def test_graphviz_reads_every_tree(files, published) -> None:
    """Graphviz's own reader writes each graph again in canonical form; it ends with a fault where it cannot read one."""
    done = subprocess.run([find_dot(), "-Tcanon"], input=files["trees"], capture_output=True, text=True, check=False)
    view = next(v for v in published.library.views if v.id == "tessaly-40")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.count("digraph ") == len(view.symptoms)
