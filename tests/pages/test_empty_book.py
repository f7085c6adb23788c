"""Pages that a book without families, or a computer without what they speak of, does not have."""

from __future__ import annotations

from importlib.metadata import PackageNotFoundError
from types import SimpleNamespace

from generator.pages.planner import page as planner
from generator.pages.records import shipped
from generator.pages.which_machine import page as which_machine
from generator.records.model import Records

EMPTY = SimpleNamespace(records=Records(), library=SimpleNamespace(views=()))


def test_where_no_family_is_there_is_nothing_to_plan_and_no_machine_to_find() -> None:
    assert list(planner.pages(EMPTY)) == list(which_machine.pages(EMPTY)) == []
    assert list(which_machine.which_machine_files(EMPTY.library)) == []


def test_a_licence_that_is_not_installed_has_no_file(monkeypatch) -> None:
    ((address, text),) = shipped.licence_files()
    assert address == shipped.FRAME_LICENCE and "Permission is hereby granted" in text

    def missing(package: str):
        raise PackageNotFoundError(package)

    monkeypatch.setattr(shipped, "distribution", missing)
    assert list(shipped.licence_files()) == []
