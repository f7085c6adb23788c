"""What is named as equivalent is there, once, with a reason."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.mutants.equivalent import every_named, named, sifted
from tests.mutants.faults import faults

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize("module", [*every_named(), "generator/analysis/reckon.py"])
def test_every_name_is_of_a_fault_that_can_be_put_in_and_gives_a_reason(module):
    entries = named(Path(module))
    same, stale = sifted(faults((ROOT / module).read_text(encoding="utf-8")), entries)
    assert stale == []
    assert len({(f.text, f.says, f.nth) for f in same}) == len(entries)
    assert all(len(e["because"].split()) > 3 and set(e) <= {"line", "fault", "nth", "because"} for e in entries)


def test_a_name_is_of_one_of_the_faults_that_read_the_same_and_is_stale_without_any():
    every = list(faults("a = 1 + 1\nb = 2"))
    same, stale = sifted(every, [{"line": "a = 1 + 1", "fault": "1 became 2", "nth": n} for n in (2, 3)])
    assert [f.source for f in same] == ["a = 1 + 2\nb = 2"]
    assert [e["nth"] for e in stale] == [3]
    assert sifted(every, [{"line": "b = 2", "fault": "2 became 3"}])[0] == [every[-1]]
