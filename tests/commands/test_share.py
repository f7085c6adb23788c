"""`share`: one file that holds the whole site, opens from disk, and is the same each time it is packed."""

from __future__ import annotations

import json
import os
import shutil
import stat
import subprocess
from pathlib import Path
from zipfile import ZipFile

import pytest
from click.testing import CliRunner, Result

from generator.commands.share import share
from generator.records.private import is_private


@pytest.fixture
def built(sound_site: Path, tmp_path: Path) -> Path:
    """A small built site of this test's own."""
    return Path(shutil.copytree(sound_site, tmp_path / "site"))


def packed(out: Path, site: Path) -> Result:
    return CliRunner().invoke(share, [str(out), "--site", str(site)])


def files(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_it_holds_every_file_of_the_site_and_how_to_open_it(built, tmp_path):
    done = packed(tmp_path / "book.zip", built)
    assert done.exit_code == 0, done.output
    with ZipFile(tmp_path / "book.zip") as book:
        assert book.testzip() is None
        book.extractall(tmp_path / "unpacked")
    unpacked = files(tmp_path / "unpacked" / "handwheel")
    assert unpacked == {name: data for name, data in files(built).items() if name != "made-from.json"}
    assert b"Open index.html" in unpacked["READ-ME.txt"]
    assert sum(name.endswith(".html") for name in unpacked) > 20


def test_it_opens_from_disk_without_a_network(built, tmp_path, browser):
    packed(tmp_path / "book.zip", built)
    shutil.rmtree(built)
    with ZipFile(tmp_path / "book.zip") as book:
        book.extractall(tmp_path / "unpacked")
    context = browser.new_context(offline=True)
    tab, faults = context.new_page(), []
    tab.on("pageerror", lambda error: faults.append(str(error)))
    tab.on("requestfailed", lambda request: faults.append(request.url))
    tab.goto((tmp_path / "unpacked" / "handwheel" / "index.html").as_uri())
    tab.locator("#finder").click()
    tab.keyboard.type("skips")
    tab.locator("#finder-results [data-symptom]").first.click()
    tab.wait_for_url("**/skipped-stitches.html*")
    assert tab.locator("h1").is_visible()
    assert faults == []
    context.close()


def test_the_same_site_gives_the_same_bytes(built, tmp_path):
    """Whatever the clock, the times of the files, their rights and the order in which the disk lists them."""
    packed(tmp_path / "one.zip", built)
    again = tmp_path / "again"
    for name, data in sorted(files(built).items(), reverse=True):
        path = again / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
        path.chmod(0o600)
        os.utime(path, (1_000_000_000, 1_000_000_000))
    packed(tmp_path / "two.zip", again)
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()


def test_everyone_may_read_what_is_unpacked(built, tmp_path):
    """On a shop's network the one who unpacks is not the only one who reads. Rights are in the upper half of the word."""
    packed(tmp_path / "book.zip", built)
    with ZipFile(tmp_path / "book.zip") as book:
        modes = {stat.filemode(entry.external_attr >> 16) for entry in book.infolist()}
    assert modes == {"-rw-r--r--"}


def test_packed_into_the_site_itself_it_does_not_hold_itself(built):
    before = set(files(built))
    assert packed(built / "book.zip", built).exit_code == 0
    assert packed(built / "book.zip", built).exit_code == 0
    with ZipFile(built / "book.zip") as book:
        assert {name.removeprefix("handwheel/") for name in book.namelist()} == before - {"made-from.json"}


def test_a_name_that_is_no_zip_is_refused(built, tmp_path):
    done = packed(tmp_path / "book.tar", built)
    assert (done.exit_code, done.output) == (1, f"'{tmp_path / 'book.tar'}' does not end in .zip. Name the file something.zip.\n")


def test_without_a_site_it_says_how_to_build_one(tmp_path):
    done = packed(tmp_path / "book.zip", tmp_path / "nowhere")
    assert (done.exit_code, done.output) == (1, f"There is no built site in {tmp_path / 'nowhere'}. Build it first with `make site`.\n")
    assert not (tmp_path / "book.zip").exists()


def test_where_it_cannot_be_written_it_says_so_and_leaves_nothing(built, tmp_path):
    done = packed(tmp_path / "no-such-folder" / "book.zip", built)
    assert done.exit_code == 1
    assert f"{tmp_path / 'no-such-folder' / 'book.zip'} cannot be written: No such file or directory." in done.output
    assert "Traceback" not in done.output
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


@pytest.mark.parametrize("written", ["private: perhaps\n", "private: [\n", "- private\n"])
def test_a_folder_that_cannot_be_asked_is_taken_to_be_private(tmp_path, written):
    assert not is_private(tmp_path)
    (tmp_path / "shop.yaml").write_text(written, encoding="utf-8")
    assert is_private(tmp_path)


def test_a_site_that_does_not_say_what_it_was_made_from_is_not_packed(built, tmp_path):
    (built / "made-from.json").unlink()
    done = packed(tmp_path / "book.zip", built)
    assert (done.exit_code, done.output) == (1, f"{built} does not say from which folders it was made. Build it again with `make site`.\n")
    assert not (tmp_path / "book.zip").exists()


@pytest.fixture
def private(built, tmp_path, monkeypatch):
    """A site that says that the shop's own folder is private."""
    rows = [{"folder": "content", "private": False}, {"folder": "own", "private": True}]
    (built / "made-from.json").write_text(json.dumps(rows))
    monkeypatch.chdir(tmp_path)
    return built


def test_a_site_with_private_records_is_not_packed_where_it_cannot_be_built_without_them(private, tmp_path):
    told = "Left out, marked private: own. The site is built again without.\n"
    done = packed(Path("book.zip"), private)
    assert (done.exit_code, done.output) == (1, told + "There is no mkdocs.yml here to build it from. Run `share` in the folder that holds it. Nothing was packed.\n")
    Path("mkdocs.yml").write_text("site_name: [")
    done = packed(Path("book.zip"), private)
    assert done.exit_code == 1 and done.output.startswith(told + "Without its private folders the site cannot be built. Nothing was packed.\n")
    assert "Traceback" not in done.output and not Path("book.zip").exists()


def test_a_first_folder_that_is_private_leaves_nothing_to_share(private, monkeypatch):
    Path("mkdocs.yml").touch()

    def still_private(command, **_):
        site = Path(command[-1])
        site.mkdir()
        (site / "made-from.json").write_text('[{"folder": "content", "private": true}]')
        return subprocess.CompletedProcess(command, 0, "", "")

    monkeypatch.setattr("generator.commands.share.subprocess.run", still_private)
    done = packed(Path("book.zip"), private)
    assert done.exit_code == 1
    assert done.output.endswith("\ncontent is marked private and is the first folder: nothing would be left. Nothing was packed.\n")
    assert not Path("book.zip").exists()
