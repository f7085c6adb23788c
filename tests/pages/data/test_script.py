"""Data for the browser as the script that gives it."""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from playwright.sync_api import Page

from generator.pages.data.script import script
from tests.script_files import given as read

TEXTS = st.text() | st.sampled_from(["lint is packed", "do", "in", 'say "no"', "a:1", "{5:6}", "</script>", "line\u2028end"])
DATA = st.recursive(
    TEXTS | st.integers(-999, 999) | st.booleans() | st.none() | st.floats(0, 1),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(st.characters(categories=["L", "N", "P"])) | st.sampled_from(["if", "5", "05", "a-b"]), inner),
    max_leaves=30,
)

_RUN = """files => files.map((file) => {
    let got;
    new Function("handwheel", file)({ give: (name, data) => { got = JSON.stringify(data); } });
    return got;
})"""


@pytest.fixture(scope="module")
def tab(browser) -> Iterator[Page]:
    opened = browser.new_page()
    yield opened
    opened.close()


@given(st.text())
def test_data_for_the_browser_closes_no_script(text):
    file = script("x", {"t": text, "again": [text, text]})
    assert "<" not in file and "\u2028" not in file


@settings(max_examples=15, deadline=None)
@given(some=st.lists(DATA.map(lambda data: {"t": [data, data]}), min_size=15, max_size=15))
@example(some=[{"t": {"__proto__": 1, "a": {"__proto__": None}}}])
def test_a_browser_reads_the_data_back(tab, some):
    told = tab.evaluate(_RUN, [script("x", data) for data in some])
    assert [json.loads(line) for line in told] == json.loads(json.dumps(some))


def test_a_text_that_comes_again_is_written_once_and_every_name_is_another():
    texts = [f"{number} lint is packed" for number in range(4000)]
    file = script("x", {"t": texts * 2})
    assert file.count("lint is packed") == 4000
    assert read(file) == {"t": texts * 2}


def test_a_list_or_an_object_that_comes_again_is_written_once():
    row = {"sees": [5, 5, 5, 5, 5, 5], "trust": [0.95, 0.95, 0.95, 0.95]}
    data = {"rows": [row, [row, {"sees": row["sees"], "trust": [0.9]}], row], "sums": [0.051128866479, 0.051128866479]}
    file = script("x", data)
    assert (file.count("sees"), file.count("5,5,5,5,5,5"), file.count("0.95,0.95"), file.count("0.051128866479")) == (2, 1, 2, 1)
    assert read(file) == data


def test_what_is_short_or_stands_alone_is_written_where_it_stands():
    assert script("x", [{"a": "on", "b-c": "on"}, {"5": "alone and long enough to be worth it"}]) == (
        'handwheel.give("x",[{a:"on","b-c":"on"},{5:"alone and long enough to be worth it"}]);\n'
    )
