"""The reader of pages sees each kind of fault that it is trusted to see."""

from __future__ import annotations

import pytest

from tests.tags import read


@pytest.mark.parametrize(
    "body",
    (
        "<div><span></div></span>",
        "<p><div>one</div></p>",
        "<b><i>one</b></i>",
        "<ul><li>one</ul></ul>",
        '<p id="a">one</p><p id="a">two</p>',
    ),
)
def test_a_fault_is_seen(body: str) -> None:
    assert read(f"<!doctype html><html><body>{body}</body></html>")[1]


def test_sound_tags_are_not_refused() -> None:
    root, faults = read('<!doctype html><html><body><section><p>one<p>two<br></section><svg><g id="x"/></svg></body></html>')
    assert faults == []
    assert [e.tag for e in root.iter("p")] == ["p", "p"]
