"""What is given to other programs is read by them: the schema's validator, the standard library, Graphviz."""

from __future__ import annotations

import csv
import io
import json
import sqlite3
import subprocess
from contextlib import closing
from math import fsum
from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator
from referencing import Registry
from referencing.jsonschema import DRAFT202012

import generator
from generator.diagrams.layout import find_dot
from generator.pages.data.open_data import open_files
from generator.pages.data.record_files import INDEX, record_files
from generator.records.kinds import KINDS

ROOT = Path(__file__).parents[3]
SCHEMA = Path(generator.__file__).parent / "assets" / "open" / "orders.schema.json"


@pytest.fixture(scope="module")
def files(published) -> dict[str, str]:
    view = next(v for v in published.library.views if v.id == "tessaly-40")
    return {address.split("/")[1].split("-")[0]: text for address, text in open_files(published, view)}


def table(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_orders_keep_to_the_published_schema_and_shares_make_up_a_whole(files) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    orders = json.loads(files["orders"])
    assert [error.message for error in Draft202012Validator(schema).iter_errors(orders)] == []
    for told in orders["complaints"].values():
        assert fsum(c["share"] for c in told["causes"]) + told["something_else"] == pytest.approx(1, abs=1e-4)
        assert told["lower_bound"] <= told["expected_minutes"] and told["first"]


def test_every_record_keeps_to_the_published_schema_of_its_kind(published) -> None:
    """Checked by the schema's own validator, with nothing but the published files at hand."""
    files = {address: json.loads(text) for address, text in record_files(published.library.records)}
    schemas = {address: data for address, data in files.items() if address.startswith("open/schema/")}
    near = Registry().with_resources((address.rpartition("/")[2], DRAFT202012.create_resource(data)) for address, data in schemas.items())
    listed = files[INDEX]["records"]
    assert {entry["file"] for entry in listed} == files.keys() - schemas.keys() - {INDEX}
    validators = {address: Draft202012Validator(data, registry=near) for address, data in schemas.items()}
    faults = [f"{e['file']}: {f.message}" for e in listed for f in validators[e["schema"]].iter_errors(files[e["file"]])]
    assert faults == []


@pytest.mark.parametrize("kind", ["symptom", "check", "failure-mode"])
def test_a_record_that_was_given_to_others_is_the_record_that_was_written(published, kind) -> None:
    """Read anew from the records' own files by the YAML library; numbers and words as they stand there."""
    files = dict(record_files(published.library.records))
    for path in sorted((ROOT / "content" / KINDS[kind].place).glob("*.yaml")):
        written = yaml.safe_load(path.read_text(encoding="utf-8"))
        if "power" in written:  # YAML 1.1, which that library reads, takes a bare on or off for a truth value
            written["power"] = {True: "on", False: "off"}.get(written["power"], written["power"])
        given = json.loads(files[f"open/records/{KINDS[kind].place}/{path.stem}.json"])
        assert given == {key: value for key, value in written.items() if key in given}
        left_out = {key: value for key, value in written.items() if key not in given}
        assert all(value in (False, [], {}) or key == "trust" for key, value in left_out.items()), (path.stem, left_out)


def test_the_matrix_names_every_complaint_and_numbers_outcomes_as_the_bench_page_does(files, published) -> None:
    rows = table(files["matrix"])
    view = next(v for v in published.library.views if v.id == "tessaly-40")
    assert {row["symptom"] for row in rows} == set(view.symptoms)
    said = {(row["check"], row["outcome"]): row["says"] for row in table(files["outcomes"])}
    for row in rows:
        outcome = view.checks[row["check"]].outcomes[int(row["outcome"]) - 1]
        assert outcome.says.strip() == said[row["check"], row["outcome"]].lstrip("'").strip()


def test_the_matrix_and_its_outcomes_join_in_a_database_without_a_row_lost(files) -> None:
    """Check and outcome are a key of the outcomes and a foreign key of the matrix; held to by SQLite, which refuses what breaks one."""
    with closing(sqlite3.connect(":memory:")) as base:
        base.execute("PRAGMA foreign_keys = ON")
        base.execute("CREATE TABLE outcomes (check_id, outcome, says NOT NULL, PRIMARY KEY (check_id, outcome))")
        base.execute("CREATE TABLE matrix (symptom, cause, check_id, outcome, FOREIGN KEY (check_id, outcome) REFERENCES outcomes)")
        base.executemany("INSERT INTO outcomes VALUES (:check, :outcome, :says)", table(files["outcomes"]))
        rows = table(files["matrix"])
        base.executemany("INSERT INTO matrix VALUES (:symptom, :cause, :check, :outcome)", rows)
        (joined,) = base.execute("SELECT count(*) FROM matrix JOIN outcomes USING (check_id, outcome) WHERE says <> ''").fetchone()
    assert joined == len(rows) > 1000


def test_graphviz_reads_every_tree(files, published) -> None:
    """Graphviz's own reader writes each graph again in canonical form; it ends with a fault where it cannot read one."""
    done = subprocess.run([find_dot(), "-Tcanon"], input=files["trees"], capture_output=True, text=True, check=False)
    view = next(v for v in published.library.views if v.id == "tessaly-40")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.count("digraph ") == len(view.symptoms)
