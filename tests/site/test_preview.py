"""The live preview: what is shown at once after an edit, and what waits for the whole site."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from generator.preview import Preview

ROOT = Path(__file__).parents[2]
CHECK, PAGE = "checks/watch-hook.yaml", "checks/watch-hook.html"


class Project:
    """A project in its preview, without the server that watches it."""

    def __init__(self, folder: Path, only: str = "") -> None:
        shutil.copytree(ROOT / "tests" / "records" / "sound", folder / "content")
        shutil.copy(ROOT / "mkdocs.yml", folder)
        self.folder, self.site, self.builds = folder, folder / "shown", 0
        plugins = [{"handwheel": {"only": only}}] if only else ["handwheel"]
        self._config = lambda: load_config(str(folder / "mkdocs.yml"), site_dir=str(self.site), plugins=plugins)
        config = self._config()
        config.plugins.on_startup(command="serve", dirty=False)
        build(config)
        plugin = config.plugins["handwheel"]
        self.preview = Preview(self.whole, plugin._built, [folder / "content"], plugin.only)

    def whole(self) -> None:
        self.builds += 1
        build(self._config())

    def edit(self, record: str, old: str, new: str) -> None:
        path = self.folder / "content" / record
        path.write_text(path.read_text(encoding="utf-8").replace(old, new, 1), encoding="utf-8")

    def page(self, address: str) -> str:
        return (self.site / address).read_text(encoding="utf-8")


@pytest.fixture
def project(tmp_path: Path) -> Project:
    return Project(tmp_path)


def test_the_page_of_an_edited_record_is_shown_before_the_site_is_built(project: Project) -> None:
    project.edit(CHECK, "title: ", "title: Newly ")
    project.preview()
    assert not project.builds
    assert "Newly" in project.page(PAGE) and "Newly" not in project.page("checks.html")
    shown = project.page(PAGE)
    project.preview()
    assert project.builds == 1
    assert "Newly" in project.page("checks.html")
    assert project.page(PAGE) == shown, "the page is the one that the whole build makes"


def test_each_edit_is_shown_while_the_whole_waits(project: Project) -> None:
    for word in ("Newly ", "Again "):
        project.edit(CHECK, "title: ", f"title: {word}")
        project.preview()
        assert word in project.page(PAGE)
    assert not project.builds


@pytest.mark.parametrize(
    ("record", "old", "new"),
    [
        (CHECK, "title: ", "titel: "),
        (CHECK, "title: ", "title: [broken"),
        ("guides/none.md", "", "Words."),
        ("cautions.yaml", "title: ", "title: Newly "),
    ],
    ids=["not as its schema has it", "no YAML", "no record", "a record without a page of its own"],
)
def test_anything_else_is_left_to_the_whole(project: Project, record: str, old: str, new: str) -> None:
    path = project.folder / "content" / record
    path.parent.mkdir(exist_ok=True)
    path.touch()
    before = project.page(PAGE)
    project.edit(record, old, new)
    assert not project.preview.show_edited()
    assert project.page(PAGE) == before


def test_a_record_that_names_what_is_not_there_waits_for_the_rules_to_say_so(project: Project) -> None:
    path = next((project.folder / "content" / "failure-modes").iterdir())
    words = path.read_text(encoding="utf-8")
    lines = ["part: nowhere-part" if line.startswith(("part:", "setting:")) else line for line in words.splitlines()]
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    before = project.page(f"failure-modes/{path.stem}.html")
    assert not project.preview.show_edited()
    assert project.page(f"failure-modes/{path.stem}.html") == before


def test_the_whole_is_built_when_edits_have_stopped(project: Project, monkeypatch: pytest.MonkeyPatch) -> None:
    timers: list[Any] = []

    class Timer:
        daemon = False

        def __init__(self, wait: float, act: Callable[[], None]) -> None:
            self.act = act
            timers.append(self)

        def start(self) -> None:
            self.waits = True

        def cancel(self) -> None:
            self.waits = False

    watched: list[Path] = []
    server = type("Server", (), {"watch": lambda self, folder: watched.append(Path(folder)), "builder": None})()
    project.preview.follow(server)
    assert server.builder is project.preview
    monkeypatch.setattr("generator.preview.threading.Timer", Timer)
    for word in ("Newly ", "Again "):
        project.edit(CHECK, "title: ", f"title: {word}")
        server.builder()
    assert [timer.waits for timer in timers] == [False, True]
    (sign,) = watched[0].iterdir()
    before = sign.read_bytes()
    timers[-1].act()
    assert sign.read_bytes() != before, "what is watched has changed, so that the server builds again"
