"""A family's charts as tables hold every row of the chart, and no cell that a spreadsheet would work out."""

from __future__ import annotations

import csv
import io

import pytest

from generator.pages.data.tables import as_csv, tables


def rows(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline="")))


def test_every_joint_oil_point_and_setting_of_a_family_has_its_row(published) -> None:
    view = next(v for v in published.library.views if v.id == "tessaly-40")
    found = {address.split("/")[1].split("-")[0]: rows(text) for address, text in tables(view)}
    firsts = {chart: [row[0] for row in lines[1:]] for chart, lines in found.items()}
    assert firsts == {"fasteners": list(view.fasteners), "oil": [o.point for _, o in view.oil()], "settings": list(view.settings)}
    assert {len(row) for lines in found.values() for row in lines} == {8, 9, 10}
    assert all(len({len(row) for row in lines}) == 1 for lines in found.values())


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@x", "\t=1", "\r=1"])
def test_a_cell_is_never_a_formula(cell: str) -> None:
    """What begins a formula: common practice, from memory."""
    assert rows(as_csv([["a", cell]]))[0][1] == "'" + cell.lstrip("\r")


def test_words_with_commas_quotes_and_ends_of_line_come_back_whole() -> None:
    """RFC 4180, section 2, read back by the standard library."""
    cells = ["two, or three", 'a "good" one', "first\nsecond"]
    assert rows(as_csv([cells])) == [cells]
