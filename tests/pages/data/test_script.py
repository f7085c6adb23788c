"""Data for the browser as the script that gives it."""

from __future__ import annotations

import json

from hypothesis import given
from hypothesis import strategies as st

from generator.pages.data.script import script


@given(st.text())
def test_data_for_the_browser_reads_back_and_closes_no_script(text):
    file = script("x", {"t": text})
    body = file[len('handwheel.give("x",') : -len(");\n")]
    assert json.loads(body) == {"t": text}
    assert "<" not in file and "\u2028" not in file
