"""What a site carries that others made stands on its page of sources, with its licence."""

from __future__ import annotations

import json
import re
from pathlib import Path

import material

from tests.tags import sound

THEME = Path(material.__file__).parent / "templates"
THEIRS = {"favicon"}
JOINED = {"js/common.js": {"bundle"}, "css/book.css": {"main", "palette"}}
"File of ours -> the theme's that stand in it, by the beginnings of their names."


def test_every_piece_of_the_frame_is_listed_and_nothing_else_of_it_is_carried(sound_site):
    page = (sound_site / "sources.html").read_text(encoding="utf-8")
    carried = [p for p in (sound_site / "assets").rglob("*") if p.is_file() and "handwheel" not in p.parts]
    assert {p.name.partition(".")[0] for p in carried} == THEIRS
    inside = {at: _those_in((sound_site / "assets/handwheel" / at).read_text(encoding="utf-8")) for at in JOINED}
    assert {at: {name.partition(".")[0] for name in names} for at, names in inside.items()} == JOINED
    named = set()
    for path in THEME.rglob("*.map"):  # the script's own list of what it was made from
        if path.name.removesuffix(".map") in set().union(*inside.values()):
            sources = json.loads(path.read_text(encoding="utf-8"))["sources"]
            named |= {found[1] for source in sources if (found := re.search("node_modules/((?:@[^/]+/)?[^/]+)", source))}
    assert len(named) > 4
    told = {"".join(cell.itertext()) for cell in sound(page).iter("td")}
    assert sorted(named - told) == []


def _those_in(text: str) -> set[str]:
    return {p.name for kind in ("*.js", "*.css") for p in (THEME / "assets").rglob(kind) if p.read_text(encoding="utf-8") in text}


def test_the_text_of_a_licence_that_asks_for_it_is_carried(sound_site):
    page = (sound_site / "sources.html").read_text(encoding="utf-8")
    texts = re.findall(r'<a href="?(assets/handwheel/[^" >]+[.]txt)', page)
    assert len(set(texts)) == 2
    for address in texts:
        assert re.search("permission", (sound_site / address).read_text(encoding="utf-8"), re.I)
