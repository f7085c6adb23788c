"""What a word of the trade means: under the page that uses it, and in the glossary where no script runs."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser, expect

from tests.tags import sound

SHEET = "jobs/tessaly-40/hook-burr.html"


def _glossary(site: Path) -> dict[str, tuple[str, str]]:
    """Term -> its title and its meaning, as the glossary has them."""
    root = sound((site / "glossary.html").read_text(encoding="utf-8"))
    said = {e.get("id"): " ".join("".join(e.itertext()).split()) for e in root.xpath("//*[@id]")}
    return {id: (words, " ".join("".join(root.xpath(f"//*[@id='{id}']/following-sibling::dd[1]")[0].itertext()).split()))
            for id, words in said.items() if root.xpath(f"//dt[@id='{id}']")}


def test_each_marked_word_leads_to_its_meaning_at_the_foot_of_the_page_as_the_glossary_says_it(browser: Browser, site: Path) -> None:
    tab = browser.new_page()
    tab.goto((site / SHEET).as_uri())
    laid = tab.locator("#words")
    expect(laid).to_be_attached()
    leads = tab.eval_on_selector_all("a.hw-term", "all => all.map(a => a.getAttribute('href'))")
    entries = tab.eval_on_selector_all("#words dl > div", "all => all.map(d => ['#' + d.id, d.children[0].textContent, d.children[1].textContent])")
    assert len(leads) > 5 and sorted(leads) == sorted(id for id, _, _ in entries)
    assert [title.lower() for _, title, _ in entries] == sorted(title.lower() for _, title, _ in entries)
    told = _glossary(site)
    for id, title, means in entries:
        whole = told[id.removeprefix("#word-")]
        assert whole[0].startswith(title) and " ".join(means.split()) in whole[1], id
    tab.locator("a.hw-term").first.click()
    expect(tab.locator(f"#words [id='{leads[0][1:]}']")).to_be_visible()
    tab.close()


def test_without_scripts_a_marked_word_leads_into_the_glossary(browser: Browser, site: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    tab = context.new_page()
    tab.goto((site / SHEET).as_uri())
    word = tab.locator("article a[href*='glossary.html#']").first
    id = word.get_attribute("href").partition("#")[2]
    word.click()
    expect(tab.locator("h1")).to_have_text("Glossary")
    expect(tab.locator(f"[id='{id}']")).to_be_visible()
    context.close()
