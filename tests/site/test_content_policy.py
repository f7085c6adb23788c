"""No page runs or wears what is written into it: each says so by its policy, and none needs it.

That no kind of page meets its policy from disk is asked in `test_accessibility`, which opens them all.
"""

from __future__ import annotations

import re

from tests.site.hearing import heard, listening, until
from tests.site.serving import served

_WRITTEN_IN = re.compile(r"<script(?![^>]*(?:\bsrc=|type=\"?application/(?:ld\+)?json\b))|<style\b|\s(?:style|on[a-z]{3,})=[\"']?|=[\"']?javascript:")
_LOADS = re.compile(r"<(?:script|style|link rel=\"stylesheet\")\b")
_POLICY = '<meta http-equiv="Content-Security-Policy" content="default-src \'none\';'
FROM_A_HOST = (
    "index", "bench/tessaly-40/skipped-stitches", "jobs/tessaly-40/hook-gear-cracked", "planner", "reckoners", "practice",
    "which-machine", "not-listed", "fasteners/tessaly-40", "timing/tessaly-40", "on-this-device", "404",
)  # fmt: skip
"Every page that has scripts of its own, and the one for lost visitors."


def test_every_page_has_its_policy_before_all_that_loads_and_nothing_written_in_that_runs(site):
    for page in sorted(site.rglob("*.html")):
        text = page.read_text(encoding="utf-8")
        policy = text.find(_POLICY)
        loads = _LOADS.search(text)
        assert 0 < policy < (loads.start() if loads else len(text)), page
        assert "unsafe" not in text[policy : text.index(">", policy)]
        assert _WRITTEN_IN.search(text) is None, (page, _WRITTEN_IN.search(text))


def test_no_page_from_a_host_meets_its_policy_or_trips(site, browser):
    context = listening(browser.new_context())
    tab = context.new_page()
    with served(site) as host:
        found = {}
        for address in FROM_A_HOST:
            tab.goto(f"{host}/{address}.html")
            found[address] = heard(tab)
        assert {address: faults for address, faults in found.items() if faults} == {}
        tab.evaluate("navigator.serviceWorker.ready")
    context.close()


def test_what_a_record_could_smuggle_in_is_refused(site, browser):
    """The policy bites: an attribute, a block, an address and a style put into a finished page do nothing."""
    context = listening(browser.new_context(offline=True))
    tab = context.new_page()
    tab.goto((site / "index.html").as_uri())
    tab.evaluate("""() => {
        document.querySelector("article").insertAdjacentHTML("beforeend",
            '<img src=x onerror="struck=1"><a id=hit href="javascript:window.struck=1">x</a><p style="color:red">x</p>');
        document.body.append(Object.assign(document.createElement("script"), { textContent: "window.struck=1" }));
        document.getElementById("hit").click();
    }""")
    until(tab, "['script-src-attr', 'script-src-elem', 'style-src-attr'].every((kind) => faults.some((f) => f.startsWith(kind)))")
    assert tab.evaluate("window.struck") is None
    context.close()
