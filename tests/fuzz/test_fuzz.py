"""A few spoilt records, the same each time: the reader says what is wrong and never breaks."""

from __future__ import annotations

from collections import Counter
from itertools import islice
from pathlib import Path

from tests.fuzz.trying import mutants, tried


def test_spoilt_records_give_findings_or_a_book(tmp_path: Path) -> None:
    told = Counter(tried(mutant, tmp_path) for mutant in islice(mutants(seed=17), 60))
    assert told["findings"] > 40 and told["sound"]
