"""What is asked of a case in numbers: minutes from where a job stands, and whom a step tells or cures, by hand."""

from __future__ import annotations

from tests.analysis.doubt.doubt_rows import TABLE


def test_what_a_check_tells_of_a_remedy_that_is_done_it_tells_no_more() -> None:
    assert TABLE.telling(0) == [[0, 1, 2, 3], [1, 2, 3], [3], [1, 2]]
    assert TABLE.telling(0b010) == [[0, 3], [3], [3], []]
    assert TABLE.telling(0b101) == [[1, 2], [1, 2], [], [1, 2]]
    assert TABLE.telling(0b010) == [[0, 3], [3], [3], []]


def test_what_is_open_already_is_not_opened_again() -> None:
    """Bed and arm are 10 minutes, the bed alone 7, the lid 1."""
    assert [TABLE.opening(parts) for parts in (0, 0b001, 0b010, 0b011, 0b111)] == [0, 3, 7, 10, 11]
    assert TABLE.remedy_costs(0) == [42, 22, 8]
    assert TABLE.remedy_costs(0b001) == [39, 22, 8]
    assert TABLE.remedy_costs(0b110) == [35, 22, 7]
    assert TABLE.check_costs(0) == [1, 12, 5, 4]
    assert TABLE.check_costs(0b001) == [1, 9, 5, 4]
    assert TABLE.check_costs(0b111) == [1, 2, 4, 3]
    assert TABLE.check_costs(0b001) == [1, 9, 5, 4]
