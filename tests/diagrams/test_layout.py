import importlib.metadata
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from generator.diagrams import layout
from generator.diagrams.layout import (
    Drawing,
    Graph,
    GraphvizError,
    GraphvizMissing,
    find_dot,
)

PAIR = Graph(((80, 30), (60, 40)), ((0, 1),), rank_gap=24)


class FakeFile:
    def __init__(self, place: Path) -> None:
        self.place, self.stem, self.suffix = place, place.stem, place.suffix

    def locate(self) -> Path:
        return self.place


def fake_program(folder: Path, name: str) -> Path:
    program = folder / name
    program.write_text("#!/bin/sh\n")
    program.chmod(0o755)
    return program


@pytest.fixture
def no_dot_on_path(monkeypatch, tmp_path):
    monkeypatch.setenv("PATH", str(tmp_path / "empty"))


def test_dot_on_the_path_is_used_first(monkeypatch, tmp_path):
    fake_program(tmp_path, "dot.exe" if sys.platform == "win32" else "dot")
    monkeypatch.setenv("PATH", str(tmp_path))
    assert find_dot().parent == tmp_path


def test_the_program_found_is_the_one_that_runs(monkeypatch, tmp_path):
    real, note = find_dot(), tmp_path / "called"
    stand_in = fake_program(tmp_path, "dot")
    stand_in.write_text(f'#!/bin/sh\necho "$@" > "{note}"\nexec "{real}" "$@"\n')
    monkeypatch.setenv("PATH", f"{tmp_path}:/usr/bin:/bin")
    assert len(layout.layout([PAIR])) == 1
    assert note.read_text().split() == ["-Kdot", "-Tjson0"]


def test_without_dot_the_program_of_the_wheel_is_used(monkeypatch, tmp_path, no_dot_on_path):
    program = fake_program(tmp_path, "graphviz-pure")
    files = [FakeFile(tmp_path / "graphviz-pure.txt"), FakeFile(program)]
    monkeypatch.setattr(importlib.metadata, "files", lambda name: files)
    assert find_dot() == program


def no_package(name):
    raise importlib.metadata.PackageNotFoundError(name)


@pytest.mark.parametrize("files", [no_package, lambda name: None, lambda name: [FakeFile(Path("gone/graphviz-pure"))]])
def test_without_either_the_message_says_the_mend(monkeypatch, files, no_dot_on_path):
    monkeypatch.setattr(importlib.metadata, "files", files)
    with pytest.raises(GraphvizMissing, match="Graphviz is missing.*pip install graphviz-pure"):
        layout.layout([PAIR])


def test_a_program_that_fails_is_one_sentence_with_what_it_said(monkeypatch, tmp_path):
    broken = tmp_path / "dot"
    broken.write_text("#!/bin/sh\necho 'libgvplugin is gone' >&2\nexit 3\n", encoding="utf-8")
    broken.chmod(0o755)
    monkeypatch.setattr(layout, "find_dot", lambda: broken)
    with pytest.raises(GraphvizError, match="cannot lay out a picture: libgvplugin is gone Install it again") as caught:
        layout.layout([PAIR])
    assert "\n" not in str(caught.value)


def test_nodes_have_the_sizes_and_gaps_asked_for():
    (laid,) = layout.layout([PAIR])
    (top_x, top_y), (low_x, low_y) = laid.centres
    assert (laid.width, laid.height) == pytest.approx((80, 30 + 24 + 40), abs=1)
    assert (top_y, low_y) == pytest.approx((15, 74), abs=1)
    assert top_x == pytest.approx(low_x, abs=1)
    assert laid.curves[0][0][1] < laid.curves[0][-1][1], "an edge runs from tail to head"


def test_a_lying_tree_keeps_the_order_of_its_inputs_downwards():
    graph = Graph(((50, 20),) * 6, tuple((0, n) for n in range(1, 6)), lying=True, tree=True)
    (laid,) = layout.layout([graph])
    rows = [y for _, y in laid.centres[1:]]
    assert rows == sorted(rows)
    assert {x for x, _ in laid.centres[1:]} == {laid.centres[1][0]}


def test_parallel_and_loose_edges_keep_their_own_curves():
    graph = Graph(((50, 20),) * 2, ((0, 1), (0, 1), (1, 0)), loose=frozenset({2}))
    (laid,) = layout.layout([graph])
    first, second, back = laid.curves
    assert first != second
    assert back[0][1] > back[-1][1], "the loose edge runs upwards and turns no rank round"


def test_hundreds_of_graphs_take_one_process(monkeypatch):
    runs = []
    real = subprocess.run
    monkeypatch.setattr(subprocess, "run", lambda *a, **k: runs.append(a) or real(*a, **k))
    sizes = [Graph(((10 + n, 20),), ()) for n in range(300)]
    widths = [laid.width for laid in layout.layout(sizes)]
    assert widths == pytest.approx([10 + n for n in range(300)], abs=1)
    assert len(runs) == 1


def test_no_graph_takes_no_process(monkeypatch):
    monkeypatch.setattr(layout, "_run", None)
    assert layout.layout([]) == []


def test_the_narrower_way_is_drawn_and_drawings_keep_their_order():
    wide, narrow = Graph(((200, 20),), ()), Graph(((100, 20),), ())
    draw = [Drawing(g, lambda laid: f"{laid.width:.0f}") for g in (wide, narrow)]
    either = Drawing(wide, draw[0].render, other=draw[1])
    assert layout.render_all([draw[0], either, draw[0]]) == ["200", "100", "200"]


def test_nothing_but_numbers_reaches_graphviz():
    source = layout._source(PAIR)
    assert 'n0 [height=0.4167 width=1.1111]' in source
    assert shutil.which("dot") or find_dot().is_file()


def test_the_same_graphs_are_laid_out_the_same_alone_and_together():
    graphs = [PAIR, Graph(((30, 30),) * 5, ((0, 1), (0, 2), (1, 3), (2, 3), (3, 4)))]
    assert layout.layout(graphs) == [layout.layout([g])[0] for g in graphs]
