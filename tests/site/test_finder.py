"""The finder in a real browser, from disk: what it finds, how it is worked, what it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml
from playwright.sync_api import expect

from generator.analysis.finder import units
from generator.library import Library
from generator.pages.data.finder import everyday_words, tables
from generator.pages.hubs import hub_of
from tests.site.hearing import until
from tests.site.reading import framed
from tests.site.serving import served
from tests.tags import sound

_HERE = Path(__file__).parent
FIRST, AMONG_THREE = 0.85, 0.95
"What the finder is held to on phrases that nobody tuned it for: the project's own aim."


def _phrases(name: str) -> dict[str, list[str]]:
    return yaml.safe_load((_HERE / name).read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def library(published) -> Library:
    return published.library


@pytest.fixture
def home(browser, site):
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    page = context.new_page()
    page.problems = []
    page.on("pageerror", lambda error: page.problems.append(str(error)))
    page.goto((site / "index.html").as_uri())
    until(page, "handwheel.finder && handwheel.finder.match")
    yield page
    assert page.problems == []
    context.close()


def _ranked(page, phrases: list[str]) -> list[list[str]]:
    return page.evaluate("phrases => phrases.map(p => handwheel.finder.match(p, '').map(r => r.id))", phrases)


@pytest.mark.parametrize("name", ["phrases.yaml", "phrases_dev.yaml"])
def test_the_right_symptom_is_first_for_85_and_among_three_for_95_of_100_phrases(home, library, name):
    """The phrases are the project's own, invented; those of phrases.yaml were kept out of all tuning."""
    asked = [(s, p) for s, said in _phrases(name).items() for p in said if s in library.records.symptoms]
    ranked = _ranked(home, [p for _, p in asked])
    lost = [(s, p, ids[:3]) for (s, p), ids in zip(asked, ranked, strict=True) if s not in ids[:3]]
    first = sum(ids[:1] == [s] for (s, _), ids in zip(asked, ranked, strict=True)) / len(asked)
    three = 1 - len(lost) / len(asked)
    print(f"{name}: {len(asked)} phrases, first {first:.1%}, among three {three:.1%}")
    assert first >= FIRST
    assert three >= AMONG_THREE, lost


def test_the_phrases_are_many_and_for_all_symptoms():
    kept, tuned = _phrases("phrases.yaml"), _phrases("phrases_dev.yaml")
    assert len(kept) == len(tuned) == 41
    assert sum(map(len, kept.values())) >= 150
    assert {p for said in kept.values() for p in said}.isdisjoint(p for said in tuned.values() for p in said)


def test_no_phrase_stands_in_the_records_or_in_the_everyday_words(library):
    """Else the figure would measure copying."""
    told = {m.lower() for members in everyday_words()["groups"].values() for m in members}
    for symptom in library.records.symptoms.values():
        told |= {symptom.title.lower(), *(s.lower() for s in symptom.said_as)}
    asked = {p.lower() for said in _phrases("phrases.yaml").values() for p in said}
    assert asked & told == set()


def test_browser_and_python_read_every_record_alike(home, library):
    """Two implementations of one reader: any text of the records gives the same units in both."""
    records = library.records
    texts = [t for s in records.symptoms.values() for t in (s.title, *s.said_as)]
    texts += [t for m in records.failure_modes.values() for t in (m.title, *m.signs)]
    texts += [p for name in ("phrases.yaml", "phrases_dev.yaml") for said in _phrases(name).values() for p in said]
    read = tables(library)
    python = [[[u.said, [[t, round(w, 6)] for t, w in u.terms]] for u in units(t, read)] for t in texts]
    script = """texts => texts.map(t => handwheel.finder.exactUnits(t).map(
        u => [u.said, u.terms.map(([term, w]) => [term, Math.round(w * 1e6) / 1e6])]))"""
    assert len(texts) > 300
    assert home.evaluate(script, texts) == python


@pytest.mark.parametrize(
    ("wrong", "right", "letters"),
    [
        ("needel", "needle", 1),
        ("stich", "stitch", 1),
        ("tention", "tension", 1),
        ("ca", "abc", 3),
        ("kitten", "sitting", 3),
        ("sunday", "saturday", 3),
    ],
)
def test_spelling_distance_is_the_textbooks(home, wrong, right, letters):
    """kitten/sitting and sunday/saturday are the textbooks' cases of edit distance, ca/abc = 3 that of the
    optimal string alignment; the rest by hand. From memory."""
    assert home.evaluate("([a, b]) => handwheel.finder.distance(a, b, 9)", [wrong, right]) == letters


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("the needel keeps snaping", "the needle keeps snapping"),
        ("skiping stiches", "skipping stitches"),
        ("stitches are skipped", "it is skipping stitches"),
        ("the seam has gaps", "gaps in the seam"),
        ("the handwheel is locked", "the hand wheel is locked"),
        ("upper thread snaps", "top thread breaks"),
        ("the material will not move", "the cloth won't move"),
    ],
)
def test_spelling_inflection_order_and_trade_words_do_not_change_what_is_first(home, one, other):
    first, second = _ranked(home, [one, other])
    assert first[0] == second[0]


def test_a_no_turns_the_meaning_round(home):
    moves, still = _ranked(home, ["the needle breaks", "the needle does not move"])
    assert moves[0] == "needle-breaks"
    assert still[0] != "needle-breaks"


def test_results_stand_in_order_with_the_reason(home):
    home.fill("#finder", "leaves gaps in the seam")
    results = home.locator("#finder-results [data-symptom]")
    expect(results.first).to_have_attribute("data-symptom", "skipped-stitches")
    expect(results.first).to_contain_text("leaves gaps in the seam")
    expect(results.first).to_contain_text("Your words:")
    shown = results.evaluate_all("all => all.map(node => node.dataset.symptom)")
    assert shown == home.evaluate("handwheel.finder.match('leaves gaps in the seam', '').map(r => r.id)")[: len(shown)]


def test_with_a_family_a_result_opens_its_bench_page(home, library):
    family, symptom = next((v.id, "skipped-stitches") for v in library.views if "skipped-stitches" in v.symptoms)
    home.select_option("#finder-family", family)
    home.fill("#finder", "skips stitches")
    home.locator(f'#finder-results [data-symptom="{symptom}"]').click()
    home.wait_for_url(f"**/bench/{family}/{symptom}.html")


def test_a_symptom_that_the_family_cannot_have_opens_its_own_page_and_says_so(home, library):
    lacks = [(v, s) for v in library.views for s in library.records.symptoms.values() if s.id not in v.symptoms]
    assert lacks, "every family has every symptom: nothing to show"
    view, symptom = lacks[0]
    home.select_option("#finder-family", view.id)
    home.fill("#finder", symptom.said_as[0])
    result = home.locator(f'#finder-results [data-symptom="{symptom.id}"]')
    expect(result).to_contain_text(f"Not known on {view.family.title}")
    result.click()
    home.wait_for_url(f"**/symptoms/{symptom.id}.html")


def test_the_family_is_remembered(home, library):
    family = library.views[0].id
    home.select_option("#finder-family", family)
    home.reload()
    expect(home.locator("#finder-family")).to_have_value(family)


@pytest.mark.parametrize("words", ["pineapple custard", "qqqq zzzz", "0000", "???"])
def test_words_that_fit_nothing_say_so_and_lead_to_groups(home, words):
    home.fill("#finder", words)
    expect(home.locator("#finder-status")).to_contain_text("Nothing in the book fits")
    expect(home.locator("#finder-results [data-symptom]")).to_have_count(0)
    expect(home.locator("#finder-nearest a").first).to_be_visible()


def test_the_keyboard_chooses_follows_and_clears(home):
    finder = home.locator("#finder")
    finder.fill("needle")
    finder.press("ArrowDown")
    finder.press("ArrowDown")
    finder.press("ArrowUp")
    active = home.locator("#" + finder.get_attribute("aria-activedescendant"))
    expect(active).to_have_attribute("aria-selected", "true")
    assert active.evaluate("node => node === document.querySelector('#finder-results [role=option]')")
    finder.press("Escape")
    expect(finder).to_have_value("")
    expect(finder).to_have_attribute("aria-expanded", "false")
    finder.fill("skips stitches")
    first = home.locator("#finder-results [data-symptom]").first.get_attribute("data-symptom")
    finder.press("Enter")
    home.wait_for_url(f"**/symptoms/{first}.html")


def test_every_target_is_44_pixels_high(home):
    """The project's own measure; WCAG 2.2 asks 24 (AA)."""
    home.fill("#finder", "thread breaks")
    expect(home.locator("#finder-results [data-page]").first).to_be_visible()
    for selector in ("#finder", "#finder-family", "#finder-results [data-symptom]", "#finder-results [data-page]"):
        heights = home.locator(selector).evaluate_all("all => all.map(n => n.getBoundingClientRect().height)")
        assert heights
        assert min(heights) >= 44, selector


def test_hostile_words_are_only_text(home):
    for words in ("<img src=x onerror=alert(1)>", '"><script>alert(1)</script> needle', "\u202eneedle\u202c breaks", "n" * 5000, "💥 needle"):
        home.fill("#finder", words)
        expect(home.locator("#finder-status")).not_to_be_empty()
        assert home.locator("#finder-results img, #finder-results script, #finder-nearest img").count() == 0
        assert home.evaluate("document.documentElement.scrollWidth") <= 390


def test_the_index_is_no_way_into_the_page(site):
    """No `<` stands in a data file, so none can end a script or begin a tag."""
    for path in (site / "assets/handwheel/data/finder.js", site / "assets/handwheel/data/families.js"):
        assert "<" not in path.read_text(encoding="utf-8")


def test_the_header_of_every_other_page_has_the_finder(browser, site, library):
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto((site / "symptoms" / "skipped-stitches.html").as_uri())
    page.fill("#finder", "needle keeps breaking")
    result = page.locator('#finder-results [data-symptom="needle-breaks"]')
    expect(result).to_be_visible()
    result.click()
    page.wait_for_url("**/symptoms/needle-breaks.html")
    page.close()


def test_on_a_phone_a_word_in_the_header_opens_the_finder(browser, site):
    page = browser.new_page(viewport={"width": 390, "height": 844})
    page.goto((site / "checks.html").as_uri())
    expect(page.locator("#finder")).to_be_hidden()
    button = page.get_by_role("button", name="Find", exact=True)
    assert button.bounding_box()["height"] >= 44
    button.click()
    expect(page.locator("#finder")).to_be_focused()
    page.keyboard.type("skips stitches")
    expect(page.locator("#finder-results [data-symptom]").first).to_be_visible()
    page.keyboard.press("Escape")
    page.keyboard.press("Escape")
    expect(page.locator("#finder")).to_be_hidden()
    page.close()


def test_no_id_stands_twice_once_the_scripts_have_run(browser, site):
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    for name in ("index.html", "symptoms.html", "guides.html"):
        page.goto((site / name).as_uri())
        page.locator("#finder-family option").nth(1).wait_for(state="attached")
        ids = page.evaluate("[...document.querySelectorAll('[id]')].map(node => node.id)")
        assert ids.count("finder") == ids.count("finder-results") == ids.count("finder-family") == 1
    page.close()


@pytest.fixture(params=["disk", "host"])
def opened(request, browser, site):
    """A page of the site, from disk or from a host: tab, and the way to an address."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    tab = context.new_page()
    if request.param == "disk":
        yield tab, lambda address: (site / address).as_uri()
    else:
        with served(site) as root:
            yield tab, lambda address: f"{root}/{address}"
    context.close()


def test_pages_that_hold_the_words_stand_below_the_symptoms(opened):
    tab, at = opened
    tab.goto(at("checks.html"))
    tab.fill("#finder", "presser bar")
    pages = tab.locator("#finder-results [data-page]")
    expect(pages.first).to_be_visible()
    kinds = tab.locator("#finder-results [role=option]").evaluate_all("all => all.map(a => a.hasAttribute('data-page'))")
    assert kinds == sorted(kinds)
    address = pages.first.get_attribute("data-page")
    pages.first.click()
    tab.wait_for_url(f"**/{address}")


def test_a_page_is_found_by_its_name_before_by_its_words_and_by_all_of_them(opened):
    tab, at = opened
    tab.goto(at("index.html"))
    tab.fill("#finder", "handing bac")
    expect(tab.locator("#finder-results [data-page]").first).to_have_attribute("data-page", "guides/handing-back.html")
    tab.fill("#finder", "Handing back")
    expect(tab.locator("#finder-results [role=option]").first).to_have_attribute("data-named", "guides/handing-back.html")
    tab.fill("#finder", "handing zzyzx")
    expect(tab.locator("#finder-results [data-page]")).to_have_count(0)


def test_what_is_called_exactly_so_stands_above_all_and_is_the_chosen_machines(opened, library):
    tab, at = opened
    view = library.views[-1]
    shared = {p.title for v in library.views[:-1] for p in v.parts.values()}
    part = next(p for p in view.parts.values() if p.title in shared)
    tab.goto(at("index.html"))
    tab.fill("#finder", part.title.lower())
    options = tab.locator("#finder-results [role=option]")
    expect(options.first).to_have_attribute("data-named", re.compile(r"^assemblies/.*#"))
    tab.select_option("#finder-family", view.id)
    expect(options.first).to_have_attribute("data-named", f"assemblies/{view.home_of[part.id]}.html#{part.id}")
    tab.fill("#finder", f"{part.title.lower()} zzyzx")
    expect(tab.locator("#finder-results [data-named]")).to_have_count(0)


def test_a_machine_whose_id_begins_anothers_is_not_taken_for_it(home):
    found = home.evaluate(
        """() => {
          const page = (family) => [`timing/${family}.html`, `Timing ${family}`, "Timing", "timing"];
          const data = {pages: ["larkrise-h", "larkrise"].map(page), parts: []};
          return handwheel.finder.pageSearch(data, new Set()).search("timing", "larkrise", 2).map((p) => p.address);
        }"""
    )
    assert found == ["timing/larkrise.html", "timing/larkrise-h.html"]


def test_the_home_page_loads_the_finders_data_after_all_else_or_when_it_is_wanted(browser, site):
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.add_init_script("window.requestIdleCallback = () => 0")
    page.goto((site / "index.html").as_uri())
    data = page.locator("script[src*='data/finder.js'], script[src*='data/pages.js']")
    expect(data).to_have_count(0)
    page.focus("#finder")
    expect(data).to_have_count(2)
    page.fill("#finder", "skips stitches")
    expect(page.locator("#finder-results [data-symptom]").first).to_be_visible()
    context.close()


def test_a_browser_that_never_calls_itself_idle_gets_the_finder_nevertheless(browser, site):
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.add_init_script("window.requestIdleCallback = (act, ways = {}) => ways.timeout && setTimeout(act, ways.timeout)")
    page.goto((site / "index.html").as_uri())
    until(page, "handwheel.finder && handwheel.finder.match")
    context.close()


def test_the_list_of_pages_repeats_no_symptom(opened):
    tab, at = opened
    tab.goto(at("index.html"))
    tab.fill("#finder", "skips stitches")
    expect(tab.locator("#finder-results [data-symptom]").first).to_have_attribute("data-symptom", "skipped-stitches")
    expect(tab.locator("#finder-results [data-page^='symptoms/'], #finder-results [data-page^='bench/']")).to_have_count(0)


def test_arrows_go_from_the_symptoms_into_the_pages_and_enter_follows(opened):
    tab, at = opened
    tab.goto(at("index.html"))
    tab.fill("#finder", "hook gear worn")
    expect(tab.locator("#finder-results [data-page]").first).to_be_visible()
    for _ in range(tab.locator("#finder-results [data-symptom]").count() + 1):
        tab.keyboard.press("ArrowDown")
    chosen = tab.locator('#finder-results [aria-selected="true"]')
    address = chosen.get_attribute("data-page")
    tab.keyboard.press("Enter")
    tab.wait_for_url(f"**/{address}")


@pytest.mark.parametrize(("width", "start"), [(1280, "checks.html"), (390, "checks.html"), (390, "index.html")])
def test_a_stroke_goes_to_the_one_field_from_anywhere(browser, site, width, start):
    tab = browser.new_page(viewport={"width": width, "height": 844})
    tab.goto((site / start).as_uri())
    tab.locator("#finder").wait_for(state="attached")
    tab.keyboard.press("/")
    expect(tab.locator("#finder")).to_be_focused()
    expect(tab.locator("#finder")).to_have_value("")
    tab.close()


def test_no_page_has_a_second_field(browser, site):
    tab = browser.new_page(viewport={"width": 1280, "height": 900})
    for address in ("index.html", "checks.html", "guides/safety-first.html", "bench/tessaly-40/skipped-stitches.html"):
        tab.goto((site / address).as_uri())
        tab.locator("#finder").wait_for(state="attached")
        assert tab.locator("input[type=search], [role=search] input, form input[name=query]").count() == 1, address
    tab.close()


@pytest.mark.parametrize("address", ["bench/corvane-2/no-feed.html", "families/corvane-2.html", "job-list/corvane-2.html", "fasteners/corvane-2.html", "jobs/corvane-2/needle-bar-bent.html", "coverage/corvane-2.html"])
def test_on_a_familys_pages_the_finder_begins_with_that_machine_until_another_is_chosen(browser, site, address):
    tab = browser.new_page(viewport={"width": 1280, "height": 900})
    tab.goto((site / "index.html").as_uri())
    tab.select_option("#finder-family", "larkrise-h")
    tab.goto((site / address).as_uri())
    family = tab.locator("#finder-family")
    expect(family).to_have_value("corvane-2")
    family.select_option("tessaly-40")
    expect(family).to_have_value("tessaly-40")
    tab.goto((site / "checks.html").as_uri())
    expect(tab.locator("#finder-family")).to_have_value("tessaly-40")
    tab.close()


def test_without_scripts_the_head_leads_to_the_lists(browser, site):
    context = browser.new_context(java_script_enabled=False, viewport={"width": 390, "height": 844})
    tab = context.new_page()
    tab.goto((site / "bench/tessaly-40/skipped-stitches.html").as_uri())
    ways = tab.get_by_role("navigation", name="All parts of the book").get_by_role("link")
    assert ways.all_inner_texts() == ["Handwheel", "Symptoms", "Machines", "Job sheets", "Glossary"]
    ways.nth(1).click()
    expect(tab.locator("h1")).to_have_text("Symptoms")
    tab.go_back()
    ways.first.click()
    tab.locator("label.md-header__button[for=__drawer]").click()
    tab.get_by_text("Look up").first.click()
    tab.get_by_role("link", name="Mechanisms", exact=True).click()
    expect(tab.locator("h1")).to_have_text("Mechanisms")
    context.close()


def test_every_page_lies_in_the_hub_that_leads_to_it(browser, site):
    """For one page of every folder: the navigation marks its hub, once, and no other page."""
    folders = sorted({p.relative_to(site).parts[0] for p in site.rglob("*/*.html")} - {"assets"})
    for folder in folders:
        page = next(iter(sorted((site / folder).rglob("*.html"))))
        hub = hub_of(page.relative_to(site).as_posix())
        assert (site / hub).is_file(), folder
        marked = sound(framed(browser, page)).xpath("//nav//a[@aria-current='location']/@href")
        assert [(page.parent / m).resolve() for m in marked] == [(site / hub).resolve()], folder
