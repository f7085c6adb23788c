"""How soon a result shows after a keystroke, with 2,000 invented symptoms loaded. Prints; a slow machine is no fault."""

from __future__ import annotations

import random
from pathlib import Path

from generator.analysis.finder import Phrase, build, language
from generator.pages.data.finder import (
    CAUSE,
    SAID,
    SIGN,
    TITLE,
    everyday_words,
    index_data,
    language_data,
)
from generator.pages.data.script import script
from generator.wording.grouping import GROUPS
from tests.benchmarks.figures import Figures

_JS = Path(__file__).parent.parent.parent / "generator/assets/js"
_PARTS = ("common/base.js", "finder/language.js", "finder/spelling.js", "finder/match.js", "finder/pages.js", "finder/box.js")
KEY = 50.0
"Milliseconds aimed at."
SYMPTOMS, PAGES, PARTS = 2000, 10_000, 2000
_PAGE = """<script id="__config" type="application/json">{"base": "."}</script>
<input id="finder"><select id="family"><option value="">Any</option></select>
<p id="status"></p><div id="results"></div><div id="nearest"></div>"""
_TYPE = """words => {
  const byId = (id) => document.getElementById(id);
  const box = { input: byId("finder"), family: byId("family"), results: byId("results"), status: byId("status"), nearest: byId("nearest") };
  handwheel.finder.attach(box);
  const times = [];
  for (let end = 1; end <= words.length; end += 1) {
    const start = performance.now();
    box.input.value = words.slice(0, end);
    box.input.dispatchEvent(new Event("input"));
    box.results.getBoundingClientRect();
    times.push(performance.now() - start);
  }
  return times;
}"""


def _synthetic() -> dict[str, object]:
    """Symptoms of everyday words in chance order: seven phrases each, and causes that several share."""
    chance = random.Random(2000)
    everyday = [m.replace("~", "not") for members in everyday_words()["groups"].values() for m in members]
    made_up = ["".join(chance.choices("abcdefghiklmnoprstuw", k=chance.randint(4, 9))) for _ in range(4000)]
    vocabulary = everyday + made_up
    ids = [f"s{i:04}" for i in range(SYMPTOMS)]

    def text(least: int, most: int) -> str:
        return " ".join(chance.choices(vocabulary, k=chance.randint(least, most)))

    phrases = [Phrase(text(1, 3), TITLE, (s,)) for s in ids]
    phrases += [Phrase(text(2, 5), SAID, (s,)) for s in ids for _ in range(6)]
    for _ in range(SYMPTOMS):
        owners = tuple(sorted(chance.sample(ids, 8)))
        phrases += [Phrase(text(2, 3), CAUSE, owners), Phrase(text(4, 8), SIGN, owners), Phrase(text(4, 8), SIGN, owners)]
    tables = language(everyday_words())
    shown = [{"id": s, "title": s, "group": "stitch", "stop": False, "families": ["f"]} for s in ids]
    index = build(ids, phrases, tables)
    return {"groups": list(GROUPS.items()), "symptoms": shown, "language": language_data(tables), **index_data(index)}


def _pages() -> dict[str, object]:
    """Pages of everyday words: a title of three, and forty that stand on the page; and parts by their names."""
    chance = random.Random(10_000)
    vocabulary = [m.replace("~", "") for members in everyday_words()["groups"].values() for m in members]

    def text(count: int) -> str:
        return " ".join(chance.choices(vocabulary, k=count))

    pages = [[f"jobs/f/p{i}.html", text(3), "Job sheets", text(40)] for i in range(PAGES)]
    return {"pages": pages, "parts": [[f"assemblies/a{i}.html#p", text(2), text(2), ["f"]] for i in range(PARTS)]}


def test_a_result_shows_soon_after_each_keystroke(browser, figures: Figures):
    page = browser.new_page()
    page.set_content(_PAGE)
    for part in _PARTS:
        page.add_script_tag(content=(_JS / part).read_text(encoding="utf-8"))
    data = script("finder", _synthetic())
    page.add_script_tag(content=data)
    page.add_script_tag(content=script("pages", _pages()))
    for words in ("the needel keeps snaping on thick seams", "fabric wont move and there is a loud knoking noise"):
        of = f"{SYMPTOMS:,} symptoms, {PAGES:,} pages, {len(data) // 1024:,} KiB, '{words[:10]}...'"
        figures.add(f"{of}: a key, in the middle", page.evaluate(_TYPE, words), "ms", KEY)
        assert page.locator("#results [data-symptom]").count() > 0
    page.close()
