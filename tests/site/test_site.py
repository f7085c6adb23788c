"""The built site as a whole: links, anchors, no way out, valid HTML."""

from __future__ import annotations

import os
import re
from collections import defaultdict
from functools import cache
from pathlib import Path
from urllib.parse import unquote, urlsplit

import html5lib
import pytest

from generator.published import published
from tests.site.reading import page, pages

ROOT = Path(__file__).parents[2]

_OUTSIDE_WORDS = ("https://squidfunk.github.io/mkdocs-material/",)
"The theme's licence asks for a link to it; a link is followed by hand, nothing is loaded."


def _target(site: Path, path: Path, address: str) -> Path:
    """The file that an address leads to; only the page for lost visitors counts from the host's root."""
    if not address:
        return path
    if address.startswith("/") and path.name == "404.html":
        return site / unquote(address).lstrip("/")
    return _from(path.parent, address)


@cache
def _from(folder: Path, address: str) -> Path:
    return Path(os.path.normpath(folder / unquote(address)))


@cache
def _there(site: Path) -> frozenset[Path]:
    """Every file of the site: asked once, for half a million links."""
    return frozenset(p for p in site.rglob("*") if p.is_file())


def _problems(site: Path, path: Path):
    for tag, address in page(path).links:
        parts = urlsplit(address)
        if parts.scheme not in ("", "data" if tag in ("img", "image") else "") or address.startswith("//"):
            if address not in _OUTSIDE_WORDS or tag != "a":
                yield f"{path.relative_to(site)} leads out: {tag} {address}"
            continue
        if parts.scheme == "data":
            continue
        target = _target(site, path, parts.path)
        if target not in _there(site):
            yield f"{path.relative_to(site)}: {address} is no file"
        elif parts.fragment and target.suffix == ".html" and unquote(parts.fragment) not in page(target).anchors:
            yield f"{path.relative_to(site)}: {address} has no such anchor"


def test_every_link_and_anchor_resolves_and_none_leads_out(site):
    found = [p for path in pages(site) for p in _problems(site, path)]
    assert found == []


def test_no_page_has_a_tag_out_of_place_or_an_id_twice(site):
    faults = {str(p.relative_to(site)): page(p).faults for p in pages(site) if page(p).faults}
    assert faults == {}


def test_styles_and_scripts_of_our_own_load_nothing_from_outside(site):
    ours = [*(site / "assets" / "handwheel").rglob("*.css"), *(site / "assets" / "handwheel").rglob("*.js")]
    outside = [
        f"{p.relative_to(site)}: {m[0]}"
        for p in ours
        for m in re.finditer(r"(?:url\(|@import|src\s*=|fetch\()\s*[\"']?(?:https?:)?//[^\s\"')]+", p.read_text(encoding="utf-8"))
    ]
    assert len(ours) > 5
    assert outside == []


def test_no_page_is_an_orphan(site):
    """Every page can be reached from the home page."""
    reached, queue = set(), [site / "index.html"]
    while queue:
        path = queue.pop()
        if path in reached or path.suffix != ".html" or path not in _there(site):
            continue
        reached.add(path)
        addresses = (urlsplit(address) for _, address in page(path).links)
        queue += {_target(site, path, a.path) for a in addresses if a.path and not a.scheme}
    moved = {p for p in pages(site) if 'http-equiv="refresh"' in p.read_text(encoding="utf-8")[:400]}
    lost = set(pages(site)) - reached - moved - {site / "404.html"}
    assert sorted(str(p.relative_to(site)) for p in lost) == []


def test_no_address_once_published_comes_to_nothing(site):
    mend = "Write the old id under `was` in the record that stands for it now."
    gone = [a for a in published(ROOT / "content") if site / a not in _there(site)]
    assert [f"{address} was published and is gone. {mend}" for address in gone] == []


def test_an_address_of_before_leads_on_without_scripts(site):
    old = (site / "assemblies" / "internal-motor-toothed-belt.html").read_text(encoding="utf-8")
    assert '<meta http-equiv="refresh" content="0; url=toothed-belt-drive.html">' in old
    assert '<a href="toothed-belt-drive.html">' in old
    assert re.findall("<script[^>]*>", old) == ['<script src="../assets/handwheel/js/frame/moved.js" data-to="toothed-belt-drive.html">']


def _one_of_each_kind(site: Path) -> list[Path]:
    """All hubs, and from each folder the smallest, the middle and the largest page."""
    folders: dict[Path, list[Path]] = defaultdict(list)
    for path in pages(site):
        folders[path.parent].append(path)
    chosen = folders.pop(site)
    for found in folders.values():
        by_size = sorted(found, key=lambda p: (p.stat().st_size, p))
        chosen += dict.fromkeys((by_size[0], by_size[len(by_size) // 2], by_size[-1] if len(by_size) < 9 else by_size[-2]))
    return chosen


def test_pages_are_valid_html(site):
    """Checked by html5lib's strict parser, an implementation of the HTML standard's parsing rules."""
    faults = {}
    for path in _one_of_each_kind(site):
        parser = html5lib.HTMLParser()
        parser.parse(path.read_text(encoding="utf-8"))
        if parser.errors:
            faults[str(path.relative_to(site))] = [(position, code) for position, code, _ in parser.errors[:3]]
    assert faults == {}


@pytest.mark.parametrize("word", ["Traceback", "{{ ", " }}", "{% ", ">None<", "undefined"])
def test_no_page_shows_a_template_or_an_error(site, word):
    shown = [str(p.relative_to(site)) for p in pages(site) if word in re.sub(r"<script.*?</script>", "", p.read_text(encoding="utf-8"), flags=re.S)]
    assert shown == []


def test_the_side_navigation_holds_hubs_only(site):
    """Its size does not grow with the content."""
    text = (site / "index.html").read_text(encoding="utf-8")
    assert text.count("md-nav__link") < 80
