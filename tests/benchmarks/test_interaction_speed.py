"""How soon a press or a key shows, on a processor slowed four times. Prints; a slow machine is no fault."""

from __future__ import annotations

from tests.benchmarks.figures import Figures

SLOWED = 4
PRESS = 100.0
"Milliseconds aimed at."
_TIME = """() => new Promise((done) => {
    const start = performance.now();
    %s;
    requestAnimationFrame(() => setTimeout(() => done(performance.now() - start)));
})"""
ACTS = {
    "open the walk": ("bench/tessaly-40/skipped-stitches", "", ["document.querySelector('.hw-walk-start button').click()"]),
    "answer in the walk": (
        "bench/tessaly-40/skipped-stitches", "document.querySelector('.hw-walk-start button').click()",
        ["[...document.querySelectorAll('#walk [data-outcome]')].pop().click()"] * 5,
    ),
    "add work to the plan": (
        "planner", "", [f"document.querySelectorAll('#plan-offers input')[{i}].click()" for i in range(0, 60, 6)],
    ),
    "a key in a reckoner": (
        "reckoners", "",
        [f"(n => {{ n.value = '{v}'; n.dispatchEvent(new Event('input', {{bubbles: true}})); }})(document.getElementById('key-thread'))" for v in ("1", "11", "11/", "11/6", "11/64-40", "M", "M4")],
    ),
    "take a machine in": ("practice", "", ["document.querySelector('#practice-form [type=submit]').click()"] * 3),
    "check on the practice bench": (
        "practice", "document.querySelector('#practice-form [type=submit]').click()",
        ["document.querySelector('[data-does=check] button').click()"] * 3,
    ),
    "a look in the key": ("which-machine", "", ["document.querySelector('.hw-answer').click()"]),
    "tick a mechanism": ("not-listed", "", [f"document.querySelectorAll('#nl-form input')[{i}].click()" for i in (1, 3, 5)]),
}  # fmt: skip
"What is done: page, how it begins, the presses that are timed."


def test_speed_of_presses_on_a_slowed_processor(browser, site, figures: Figures):
    """To the next frame after it, with scripts, style and layout done."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    tab = context.new_page()
    context.new_cdp_session(tab).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
    print(f"\nMilliseconds to the next frame, processor slowed {SLOWED} times:")
    for name, (page, begin, acts) in ACTS.items():
        tab.goto((site / f"{page}.html").as_uri())
        tab.wait_for_timeout(1500)
        if begin:
            tab.evaluate(_TIME % begin)
            tab.wait_for_timeout(500)
        times = [tab.evaluate(_TIME % act) for act in acts]
        figures.add(f"real book, slowed {SLOWED} times: {name}", times, "ms", PRESS)
    context.close()
