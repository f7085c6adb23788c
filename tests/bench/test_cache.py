"""Solved orders are kept between builds and are never stale."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.bench import cache
from generator.bench.cache import DiagnosisCache
from tests.building import bench


def case():
    asked = bench()
    return asked.complaint(asked.library.for_family("full"), "skips").doubt


def count_solving(monkeypatch):
    solved = []
    honest = cache._diagnose
    monkeypatch.setattr(cache, "_diagnose", lambda c: solved.append(c) or honest(c))
    return solved


def test_the_same_case_is_solved_once(tmp_path, monkeypatch):
    solved = count_solving(monkeypatch)
    first = DiagnosisCache(tmp_path).diagnosed(case())
    again = DiagnosisCache(tmp_path).diagnosed(case())
    assert len(solved) == 1
    assert first == again


def test_a_case_that_differs_in_one_minute_is_solved_anew(tmp_path, monkeypatch):
    solved = count_solving(monkeypatch)
    kept = DiagnosisCache(tmp_path)
    kept.diagnosed(case())
    kept.diagnosed(replace(case(), case=replace(case().case, proving_minutes=3)))
    assert len(solved) == 2


@pytest.mark.parametrize("more", [{"unlisted": 0.2}, {"dear": frozenset()}, {"before": ("look",)}, {"powered": frozenset({"look"})}])
def test_a_case_that_differs_in_a_doubt_is_solved_anew(tmp_path, monkeypatch, more):
    solved = count_solving(monkeypatch)
    kept = DiagnosisCache(tmp_path)
    kept.diagnosed(case())
    kept.diagnosed(replace(case(), **more))
    assert len(solved) == 2


def test_changed_code_makes_every_kept_order_void(tmp_path, monkeypatch):
    solved = count_solving(monkeypatch)
    DiagnosisCache(tmp_path).diagnosed(case())
    monkeypatch.setattr(cache, "_code", lambda: "other code")
    DiagnosisCache(tmp_path).diagnosed(case())
    assert len(solved) == 2


TORN = [b"", b"{", b"[]", b"null", b'{"of": "", "value": {}}', b"[" * 100_000, b"\x80\x04K\x01."]


@pytest.mark.parametrize("torn", TORN)
def test_a_torn_or_foreign_file_is_solved_anew(tmp_path, torn):
    kept = DiagnosisCache(tmp_path)
    whole = kept.diagnosed(case())
    (path,) = tmp_path.iterdir()
    path.write_bytes(torn)
    assert kept.diagnosed(case()) == whole
    assert path.read_bytes() != torn


def test_a_folder_that_cannot_be_written_is_no_fault(tmp_path):
    (tmp_path / "file").write_text("")
    assert DiagnosisCache(tmp_path / "file").diagnosed(case()).order.exact


def many_cases(count: int = 6):
    return [replace(case(), stop_minutes=n) for n in range(count)]


def test_many_cases_come_out_as_they_do_one_by_one(tmp_path):
    told = []
    together = DiagnosisCache(tmp_path / "a").solved(many_cases(), told.append)
    assert together == {n: DiagnosisCache(None).diagnosed(c) for n, c in enumerate(many_cases())}
    assert told == ["Orders of checks worked out: 6 of 6"]


def test_of_many_cases_only_those_not_kept_are_solved(tmp_path, monkeypatch):
    kept = DiagnosisCache(tmp_path)
    whole = kept.solved(many_cases(), lambda _: None)
    monkeypatch.setattr(cache, "_diagnose", lambda c: pytest.fail("solved again"))
    assert kept.solved(many_cases(), lambda _: None) == {}
    assert [kept.diagnosed(case) for case in many_cases()] == list(whole.values())
