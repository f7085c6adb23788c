"""What faults are put in, and what is left alone."""

from __future__ import annotations

import pytest

from tests.mutants.faults import faults


@pytest.mark.parametrize(
    ("source", "faulty"),
    [
        ("a + b", ["a - b"]),
        ("a and b", ["a or b"]),
        ("a <= b", ["a < b"]),
        ("not a", ["+bool(a)"]),
        ("min(a, b)", ["max(a, b)"]),
        ("a if b else c", ["c if b else a"]),
        ("a[1:]", ["a[2:]"]),
        ("True", ["False"]),
    ],
)
def test_each_fault_is_one_change(source, faulty):
    assert [f.source for f in faults(source)] == faulty


@pytest.mark.parametrize(
    "source",
    ["x: 1 | 2", "def f(a: 1) -> 2: return a", "raise ValueError(1 + 2)", "'words'", "@frozen(True)\nclass A: pass", "zip(a, b, strict=True)"],
)
def test_words_annotations_messages_decorators_and_strictness_are_left_alone(source):
    assert list(faults(source)) == []
