"""The made library that benchmarks use: sound, the same each time, and under names that are nobody's."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.content_rules import load_checked
from generator.library import Library
from tests.benchmarks.made_library import write
from tests.benchmarks.made_slices import Size
from tests.names.reading import fingerprint, known, names_in


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two styles and a beginning of a third."""
    folder = tmp_path_factory.mktemp("made") / "content"
    write(folder, 21)
    return folder


def test_a_made_library_has_no_errors_and_real_shapes(made: Path) -> None:
    records, findings = load_checked([made])
    assert not [f for f in findings if f.level == "error"]
    library = Library(records)
    assert len(library.views) == 21
    assert all(len(view.symptoms) == 5 and view.checks and view.fasteners for view in library.views)
    homes = [assembly for view in library.views for assembly in view.assemblies]
    assert len(homes) > 2 * len(set(homes)), "families share mechanisms"
    assert records.tallies


def test_the_same_seed_gives_the_same_bytes_and_another_does_not(made: Path, tmp_path: Path) -> None:
    write(tmp_path / "again", 21)
    write(tmp_path / "other", 21, seed=2)
    assert _bytes(tmp_path / "again") == _bytes(made)
    assert _bytes(tmp_path / "other").keys() != _bytes(made).keys()


def test_more_families_leave_those_before_them_as_they_are(made: Path, tmp_path: Path) -> None:
    write(tmp_path / "few", 10)
    few, more = _bytes(tmp_path / "few"), _bytes(made)
    lists = {name for name in few if "/" not in name}
    assert {name: few[name] for name in few.keys() - lists} == {name: more.get(name) for name in few.keys() - lists}


def test_a_whole_style_has_all_that_fails_on_its_mechanisms(tmp_path: Path) -> None:
    write(tmp_path / "whole", 20, size=Size(None, None))
    records, findings = load_checked([tmp_path / "whole"])
    assert not [f for f in findings if f.level == "error"]
    assert len(records.failure_modes) > 100


def test_no_made_name_is_a_mark_of_the_trade(made: Path) -> None:
    marks = known()
    titles = [line for path in (made / "families").iterdir() for line in path.read_text(encoding="utf-8").splitlines()[:1]]
    assert not [name for title in titles for name in names_in(title) if fingerprint(name) in marks]


def _bytes(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}
