"""Which modules are named for branches that no test takes."""

from __future__ import annotations

from tests.tools.untaken import under


def told(branches: int, of: int, statements: int, within: int, *missing: list[int]) -> dict:
    counts = {"covered_branches": branches, "num_branches": of, "covered_lines": statements, "num_statements": within}
    return {"summary": counts, "missing_branches": list(missing)}


def test_modules_with_a_branch_or_a_statement_in_twenty_untaken_are_named_worst_first_with_what_is_missing() -> None:
    files = {
        "sound.py": told(95, 100, 95, 100, [9, 10]),
        "few.py": told(3, 4, 99, 100, [7, 8]),
        "lines.py": told(0, 0, 94, 100),
        "out.py": told(94, 100, 100, 100, [3, -1], [5, 6]),
    }
    assert list(under({"files": files})) == [
        ("few.py", 75, 99, ["7->8"]),
        ("out.py", 94, 100, ["3->out", "5->6"]),
        ("lines.py", 100, 94, []),
    ]
