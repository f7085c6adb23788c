"""Minutes and shares are said alike by Python and by the scripts."""

from __future__ import annotations

from generator.wording import words

MINUTES = [n / 100 for n in range(2500)] + [n * 3.7 for n in range(200)]
SHARES = [n / 1000 for n in range(1001)] + [0.00004, 0.0099, 0.9999]


def test_minutes_and_shares_are_said_alike(browser, site):
    tab = browser.new_page()
    tab.goto((site / "checks.html").as_uri())
    assert tab.evaluate("all => all.map(handwheel.minutes)", MINUTES) == [words.minutes(m) for m in MINUTES]
    assert tab.evaluate("all => all.map(handwheel.percent)", SHARES) == [words.percent(s) for s in SHARES]
    tab.close()
