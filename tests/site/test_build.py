"""Builds: what a broken record does to the site built before it."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterable
from pathlib import Path
from zipfile import ZipFile

from click.testing import CliRunner
from PIL import Image

from generator.commands.share import share
from tests.same_bytes import ELSEWHERE


def build(folder: Path, *before: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [*before, sys.executable, "-m", "mkdocs", "build", "--strict"],
        cwd=folder,
        text=True,
        check=False,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
    )


def state(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_a_broken_record_gives_its_line_and_leaves_the_last_site_alone(project):
    before = state(project / "site")
    record = project / "content" / "symptoms" / "skipped-stitches.yaml"
    record.write_text(record.read_text(encoding="utf-8") + "\ntitel: Skips\n", encoding="utf-8")
    done = build(project)
    assert done.returncode != 0
    assert "symptoms/skipped-stitches.yaml" in done.stdout and "titel" in done.stdout
    assert "Traceback" not in done.stdout
    assert state(project / "site") == before


def test_a_disk_that_takes_no_more_leaves_the_last_site_alone(project):
    before = state(project)
    done = build(project, "sh", "-c", 'ulimit -f 60 && exec "$@"', "sh")  # no file of more than 60 blocks, as on a full disk
    assert done.returncode != 0 and "Traceback" not in done.stdout
    assert re.search(r"Error: The site cannot be written: .* What was built before stands as it was\.\n\Z", done.stdout)
    assert {name: data for name, data in state(project).items() if not name.startswith(".cache")} == {
        name: data for name, data in before.items() if not name.startswith(".cache")
    }


def test_the_same_records_give_the_same_bytes_in_another_place_zone_language_and_order_of_sets(project, sound_site):
    shutil.rmtree(project / ".cache")
    assert build(project, "env", *(f"{name}={value}" for name, value in ELSEWHERE.items())).returncode == 0
    assert state(project / "site") == state(sound_site)


def test_a_site_made_from_the_one_that_stands_is_the_one_made_from_nothing_with_its_map(project):
    """Also where a book has no guides, and next to nothing is left for MkDocs to make: it would date what it packs with today."""
    shutil.rmtree(project / "content" / "guides")
    record, site = project / "content" / "checks" / "watch-hook.yaml", project / "site"
    words = record.read_text(encoding="utf-8")
    other = words.replace("title: Watch", "title: Look at", 1)

    def built() -> dict[str, bytes]:
        done = build(project, "env", "SITE_URL=https://book.example/")
        assert done.returncode == 0, done.stdout
        return state(site)

    first = built()
    assert b"<loc>https://book.example/checks/watch-hook.html</loc>" in first["sitemap.xml"]
    before = (site / "checks" / "watch-hook.html").stat().st_ino
    assert built() == first and (site / "checks" / "watch-hook.html").stat().st_ino == before, "the page was made again"
    record.write_text(other, encoding="utf-8")
    edited = built()
    assert b"Look at the hook" in edited["checks/watch-hook.html"]
    for folder in (site, project / ".cache"):
        shutil.rmtree(folder)
    assert built() == edited
    record.write_text(words, encoding="utf-8")
    assert built() == first


def test_a_shops_own_folder_is_laid_over_the_first_and_stays_in_the_shop_where_it_is_private(project, monkeypatch):
    own = project / "own"
    own.mkdir()
    (own / "shop.yaml").write_text("currency: '$'\nlabour_rate: 77\n", encoding="utf-8")
    (own / "guides").mkdir()
    (own / "guides" / "our-way.md").write_text("# Our way of oiling\n\nA drop, and a note on the ticket.\n", encoding="utf-8")
    (project / "content" / "guides" / "lamp.md").write_text("# Lamps\n\nOf any make.\n", encoding="utf-8")
    (own / "guides" / "lamp.md").write_text("# Lamps in our shop\n\nFrom the green box.\n", encoding="utf-8")
    (own / "checks").mkdir()
    (own / "checks" / "watch-hook.yaml").write_text("minutes: 9\n", encoding="utf-8")
    _pictured(project / "content" / "symptoms" / "skipped-stitches.yaml", "row.png", 320, "A row in which stitches are left out")
    _pictured(own / "symptoms" / "skipped-stitches.yaml", "row.png", 400, "A row sewn on our bench")
    _pictured(own / "checks" / "watch-hook.yaml", "ours.png", 320, "The hook on our bench")
    config = (project / "mkdocs.yml").read_text(encoding="utf-8")
    config = config.replace("  - handwheel:\n", "  - handwheel:\n      more_content: [own]\n")
    config = config.replace('!ENV [REPO_URL, ""]', "https://forge.example/shop/book")
    (project / "mkdocs.yml").write_text(config, encoding="utf-8")
    done = build(project)
    assert done.returncode == 0, done.stdout
    for page, record in (("checks/watch-hook", "checks/watch-hook.yaml"), ("guides/oil", "guides/oil.md"), ("index", "")):
        links = re.findall(r'<a href="?(https://forge.example[^" >]*)', (project / "site" / f"{page}.html").read_text(encoding="utf-8"))
        wrong = f"https://forge.example/shop/book/issues/new?template=wrong-or-missing.yml&amp;where={page.replace('/', '%2F')}.html"
        assert links == [wrong, *([f"https://forge.example/shop/book/edit/main/content/{record}"] if record else [])]
    guides = {name: (project / "site" / "guides" / f"{name}.html").read_text(encoding="utf-8") for name in ("our-way", "lamp")}
    assert "a note on the ticket" in guides["our-way"] and "the green box" in guides["lamp"]
    assert not any("/edit/" in guide for guide in guides.values())
    hub = (project / "site" / "guides.html").read_text(encoding="utf-8")
    assert all(re.search(f'href="?guides/{guide}', hub) for guide in ('our-way.html"?>Our way of oiling', 'lamp.html"?>Lamps in our shop'))
    mark = '<b>This shop\'s own:</b> '
    marked = {p.relative_to(project / "site").as_posix() for p in (project / "site").rglob("*.html") if mark in p.read_text(encoding="utf-8")}
    assert {"checks/watch-hook.html", "bench/testa-1/skipped-stitches.html"} <= marked and "families/testa-1.html" not in marked
    assert mark + "Watch the hook (minutes and pictures)" in (project / "site" / "checks" / "watch-hook.html").read_text(encoding="utf-8")
    assert {"320/ours.png", "400/row.png"} == _pictures(state(project / "site"))
    monkeypatch.chdir(project)
    held = _shared_once_private(own)
    assert b"Of any make" in held["handwheel/guides/lamp.html"] and "handwheel/guides/our-way.html" not in held
    assert [name for name, data in held.items() if b"the green box" in data or b"our-way" in data or b"on our bench" in data or b"$ 77" in data or mark.encode() in data] == []
    assert _pictures(held) == {"320/row.png"} and b"stitches are left out" in held["handwheel/symptoms/skipped-stitches.html"]


def _pictured(record: Path, file: str, width: int, alt: str) -> None:
    """Name a picture of this width in a record, and put it into the folder `pictures` beside the records."""
    picture = record.parents[1] / "pictures" / file
    for folder in (record.parent, picture.parent):
        folder.mkdir(exist_ok=True)
    Image.linear_gradient("L").resize((width, 200)).save(picture)
    with record.open("a", encoding="utf-8") as written:
        written.write(f'pictures: [{{file: {file}, alt: "{alt}", credit: The workshop, licence: CC0-1.0}}]\n')


def _pictures(files: Iterable[str]) -> set[str]:
    """Width and name of every picture of records among the files of a site."""
    return {name.partition("assets/handwheel/pictures/")[2] for name in files} - {""}


def _shared_once_private(own: Path) -> dict[str, bytes]:
    """What the shared file holds after a folder was marked private, though the site was built with it before."""
    (own / "shop.yaml").write_text("private: true\ncurrency: '$'\nlabour_rate: 77\n", encoding="utf-8")
    done = CliRunner().invoke(share, ["book.zip"])
    assert done.exit_code == 0, done.output
    assert "Left out, marked private: own. The site is built again without.\n" in done.output
    with ZipFile("book.zip") as book:
        return {name: book.read(name) for name in book.namelist()}


def test_a_guide_shows_tags_as_words(project):
    guide = project / "content" / "guides" / "oil.md"
    guide.write_text(guide.read_text(encoding="utf-8") + "\nTurn <b>slowly</b>.\n\n<script>struck()</script>\n", encoding="utf-8")
    assert build(project).returncode == 0
    shown = (project / "site" / "guides" / "oil.html").read_text(encoding="utf-8")
    assert "Turn &lt;b&gt;slowly&lt;/b&gt;." in shown
    assert "&lt;script&gt;struck()&lt;/script&gt;" in shown
    assert "<script>struck" not in shown
