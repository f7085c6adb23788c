"""What the browser is given has the shapes that both sides are written against."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from types import UnionType
from typing import Any, NotRequired, Union, get_args, get_origin, get_type_hints, is_typeddict

import pytest

from generator.bench import Bench
from generator.content_rules import load_checked
from generator.library import Library
from generator.pages.data import shapes
from generator.pages.data.families import family_data
from generator.pages.data.jobs import jobs_data
from generator.pages.data.mechanisms import mechanism_data
from tests.contract.type_file import FILE, type_file

ROOT = Path(__file__).parent.parent.parent


def test_the_scripts_type_file_is_the_one_that_the_shapes_make() -> None:
    assert FILE.read_text(encoding="utf-8") == type_file(), "run: python -m tests.contract.type_file"


@pytest.fixture(scope="module")
def bench() -> Bench:
    return Bench(Library(load_checked([ROOT / "content"])[0]), ROOT / ".cache" / "handwheel")


def test_every_familys_data_has_its_shape(bench: Bench) -> None:
    for view in bench.library.views:
        assert list(_faults(family_data(bench, view), shapes.FamilyData, view.id)) == []


def test_every_familys_planner_data_has_its_shape(bench: Bench) -> None:
    for view in bench.library.views:
        assert list(_faults(jobs_data(bench, view), shapes.PlannerData, view.id)) == []


def test_the_mechanisms_have_their_shape(bench: Bench) -> None:
    assert list(_faults(mechanism_data(bench), shapes.MechanismsData, "mechanisms")) == []


def test_a_missing_a_foreign_and_a_wrong_key_are_each_a_fault() -> None:
    caution = {"title": "Hot", "text": 3, "tone": "loud"}
    assert sorted(_faults(caution, shapes.CautionData, "c")) == [
        "c.level is missing", "c.text is int", "c.tone is in no shape"
    ]


def _faults(value: Any, shape: Any, at: str):
    """What of a value is not as the shape says, one line each."""
    origin, inner = get_origin(shape), get_args(shape)
    if is_typeddict(shape):
        yield from _dict_faults(value, shape, at)
    elif origin in (Union, UnionType):
        if all(any(True for _ in _faults(value, kind, at)) for kind in inner):
            yield f"{at} is {type(value).__name__}"
    elif origin is Sequence:
        if isinstance(value, str) or not isinstance(value, Sequence):
            yield f"{at} is {type(value).__name__}"
        else:
            for n, one in enumerate(value):
                yield from _faults(one, inner[0], f"{at}[{n}]")
    elif origin is Mapping:
        for key, one in value.items():
            yield from _faults(one, inner[1], f"{at}.{key}")
    elif not isinstance(value, (int, float) if shape is float else shape):
        yield f"{at} is {type(value).__name__}"


def _dict_faults(value: Mapping[str, Any], shape: Any, at: str):
    if not isinstance(value, Mapping):
        yield f"{at} is {type(value).__name__}"
        return
    keys = get_type_hints(shape, include_extras=True)
    for name, kind in keys.items():
        optional = get_origin(kind) is NotRequired
        if name in value:
            yield from _faults(value[name], get_args(kind)[0] if optional else kind, f"{at}.{name}")
        elif not optional:
            yield f"{at}.{name} is missing"
    for foreign in value.keys() - keys.keys():
        yield f"{at}.{foreign} is in no shape"
