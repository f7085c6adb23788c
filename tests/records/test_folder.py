"""Which files are read, and what is said of the others."""

import os
import shutil
from pathlib import Path

import pytest

from generator.records.load import load
from generator.records.report import as_text

TECHNIQUE = "title: T\nuse_when: Now.\nsteps: [{do: It.}]\n"


@pytest.fixture
def content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    folder = Path("content", "techniques")
    folder.mkdir(parents=True)
    return Path("content")


def said(content: Path) -> list[str]:
    errors = [f for f in load([content])[1] if f.level == "error"]
    return as_text(errors).splitlines()


def test_a_link_out_of_the_folder_is_not_followed(content: Path, tmp_path: Path) -> None:
    (tmp_path / "secret.yaml").write_text(TECHNIQUE)
    (content / "techniques" / "a.yaml").symlink_to(tmp_path / "secret.yaml")
    assert said(content) == [
        "content/techniques/a.yaml:1:1: The link leads out of the content folder. Put the file itself here. [file]"
    ]
    assert load([content])[0].techniques == {}


def test_a_link_within_the_folder_is_read(content: Path) -> None:
    (content / "techniques" / "a.yaml").write_text(TECHNIQUE)
    (content / "techniques" / "b.yaml").symlink_to("a.yaml")
    assert said(content) == []
    assert list(load([content])[0].techniques) == ["a", "b"]


def test_the_content_folder_itself_may_be_a_link(content: Path) -> None:
    (content / "techniques" / "a.yaml").write_text(TECHNIQUE)
    Path("linked").symlink_to("content")
    assert list(load([Path("linked")])[0].techniques) == ["a"]


@pytest.mark.parametrize("target", ["b.yaml", "a.yaml"])
def test_a_link_to_nothing_or_to_itself_is_one_line(content: Path, target: str) -> None:
    (content / "techniques" / "a.yaml").symlink_to(target)
    assert said(content) == [
        "content/techniques/a.yaml:1:1: This is no plain file. Put a file of that name here, or take it away. [file]"
    ]


def test_a_linked_folder_is_not_followed(content: Path, tmp_path: Path) -> None:
    (tmp_path / "checks").mkdir()
    (content / "checks").symlink_to(tmp_path / "checks")
    assert said(content) == ["content/checks:1:1: A linked folder is not followed. Put the folder itself here. [file]"]


def test_a_folder_that_stays_shut_is_one_line_however_much_names_what_is_in_it(tmp_path: Path) -> None:
    shutil.copytree(Path(__file__).parent / "sound", tmp_path / "book")
    (tmp_path / "book" / "assemblies").rename(tmp_path / "elsewhere")
    (tmp_path / "book" / "assemblies").symlink_to(tmp_path / "elsewhere")
    assert [line.partition(": ")[2] for line in said(tmp_path / "book")] == ["A linked folder is not followed. Put the folder itself here. [file]"]


def test_hidden_files_and_other_kinds_of_file_are_passed_over(content: Path) -> None:
    (content / ".git").mkdir()
    (content / ".git" / "a.yaml").write_text("[")
    (content / "techniques" / ".a.yaml.swp").write_text("[")
    (content / "techniques" / "a.yaml~").write_text("[")
    (content / "README.md").write_text("# Read me")
    assert said(content) == []


def test_a_folder_that_is_not_there_is_one_line() -> None:
    assert said(Path("no-such-folder")) == [
        "no-such-folder:1:1: The folder cannot be opened: No such file or directory. "
        "Mend its permissions or the link. [file]"
    ]


def test_a_file_name_that_is_no_text_is_one_line(content: Path) -> None:
    raw = os.fsencode(content / "techniques") + b"/caf\xe9\n.yaml"
    with open(raw, "w") as file:
        file.write(TECHNIQUE)
    (line,) = said(content)
    assert line == (
        r"content/techniques/caf\udce9\n.yaml:1:1: The file name 'caf\udce9\n' is no id. It holds a character without a name. "
        "Rename the file to 'caf.yaml': lower-case words joined by hyphens. [file-name-is-id]"
    )
    line.encode("utf-8")
