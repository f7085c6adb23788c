"""The page that lists every key leaves those with a word, for whoever writes a record with a phone."""

from __future__ import annotations

from playwright.sync_api import expect


def test_a_word_leaves_the_keys_that_have_it_under_their_headings(browser, sound_site):
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    tab = context.new_page()
    tab.goto((sound_site / "contribute.html").as_uri())
    tab.get_by_label("Find a key or a word").fill("Slackens")
    expect(tab.locator(".hw-keys tbody th:visible")).to_have_text(["parts.<id>.off.slackens", "parts.<id>.on.slackens"])
    expect(tab.locator(".hw-kind h2:visible")).to_have_text(["Assembly"])
    tab.get_by_label("Find a key or a word").fill("sheared under load")
    expect(tab.locator(".hw-keys tbody th:visible")).to_have_text(["unseen_by"])
    tab.get_by_label("Find a key or a word").fill("")
    expect(tab.locator(".hw-kind h2:visible")).to_have_count(tab.locator(".hw-kind h2").count())
    context.close()
