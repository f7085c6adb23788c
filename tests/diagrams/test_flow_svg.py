import re
from xml.etree import ElementTree

import pytest

from generator.diagrams import flow_steps, flow_svg
from generator.diagrams.flow_list import outline
from generator.diagrams.layout import render_all
from generator.diagrams.outline import as_html

from .pictures import (
    HOSTILE,
    OVERFLOWS,
    OVERLAPS,
    SMALLEST_TYPE,
    TITLES,
    classed,
    elements,
    heard,
    seen,
    shown,
)


def check(name, *outcomes, minutes=3):
    rows = [{"outcome": n, "says": says, "share": 0.1, "unlikely": False, "then": then} for n, (says, then) in enumerate(outcomes)]
    return {"check": name, "opens": [], "minutes": minutes, "outcomes": rows}


def remedy(name, other=None, minutes=12.0):
    return {"remedy": name, "opens": [], "minutes": minutes, "cured_share": 0.1, "else": other}


def chain(length, last=None):
    return remedy(f"r{length}", chain(length - 1, last)) if length else last


POLICY = check(
    "fit-needle",
    ("It stops", None),
    (
        "It still skips",
        check("watch-hook", ("It lags", remedy("gear")), ("It meets", remedy("gap", remedy("tension")))),
    ),
)


def svg(policy, name=lambda kind, id: id, prefix="f"):
    href = "../{}s/{}/".format
    drawing = flow_svg.prepare(policy, prefix=prefix, title="Skips", name=name, href=href, more="#whole-flow")
    return render_all([drawing])[0]


def links(html):
    return [a.get("href") for a in ElementTree.fromstring(html).iter() if a.tag.endswith("a") and a.get("href")]


def test_every_step_shows_its_minutes_and_leads_to_its_page():
    drawn = svg(POLICY)
    assert links(drawn) == [
        "../checks/fit-needle/", "../checks/watch-hook/",
        "../remedys/gear/", "../remedys/gap/", "../remedys/tension/",
    ]
    assert [e.text for e in classed(drawn, "note")] == ["3 min", "3 min", "12 min", "12 min", "12 min"]


def test_each_box_stands_under_what_is_seen_before_it():
    drawn = svg(POLICY)
    assert seen(drawn) == ["It stops", "It still skips", "It lags", "It meets", "Still there"]
    names = [heard(a) for a in elements(drawn, "a")]
    assert names[1:3] == ["It still skips watch-hook 3 min", "It lags gear 12 min"]


def test_what_is_seen_is_bold_and_titles_alone_are_underlined(show):
    page = show(svg(POLICY))
    look = "all => all.map(t => [t.textContent.trim(), getComputedStyle(t).fontWeight, getComputedStyle(t).textDecorationLine])"
    looks = {words: (weight, line) for words, weight, line in page.locator("svg a text").evaluate_all(look)}
    assert looks["It still skips"] == looks["Still there"] == ("600", "none")
    assert looks["watch-hook"] == looks["fit-needle"] == ("400", "underline")
    assert looks["12 min"] == ("400", "none")
    assert page.locator("svg g text").evaluate_all(look) == [["It stops", "600", "none"], ["Done", "400", "none"]]


def test_a_cure_by_the_check_itself_ends_in_done():
    assert len(classed(svg(POLICY), "done")) == 1


def rare(name, following):
    return {**check(name, ("Often", remedy("gear")), ("Seldom", {"beyond": 20.0, "next": following, "share": 0.001}))}


def test_what_is_seldom_seen_is_one_box_that_leads_to_the_list_and_the_list_has_the_next_step():
    policy = rare("look", "watch-hook")
    policy["outcomes"][1]["unlikely"] = True
    drawn = svg(policy)
    assert seen(drawn) == ["Often", "1 other, seldom"]
    assert links(drawn)[-1] == "#whole-flow"
    html = as_html(outline(policy, name=lambda kind, id: id, href="../{}s/{}/".format))
    assert links(html) == ["../checks/look/", "../remedys/gear/", "../checks/watch-hook/"]
    assert "Seldom (seldom: look again):" in html


def test_what_leads_to_the_same_next_step_shares_a_line_of_the_list_and_nothing_of_it_is_lost():
    seen = [("Often", remedy("gear")), *((says, {"beyond": 20.0, "next": then, "share": 0.001}) for says, then in
            (("Rust", "look"), ("Oil", "feel"), ("Lint", "look"), ("Dust", "look"))), ("Cured", None), ("Well again", None)]  # fmt: skip
    policy = check("c", *seen)
    for row in policy["outcomes"][1:4]:
        row["unlikely"] = True
    html = as_html(outline(policy, name=lambda kind, id: id, href="{}/{}".format))
    assert [b.text for b in ElementTree.fromstring(html).iter("b")] == [
        "Often:", "Rust; Lint (each seldom: look again):", "Oil (seldom: look again):", "Dust:", "Cured; Well again:",
    ]  # fmt: skip
    assert links(html) == ["check/c", "remedy/gear", "check/look", "check/feel", "check/look"]


@pytest.mark.parametrize(("following", "said"), [("watch-hook", "watch-hook"), ("renew:gear", "renew:gear"), ("", "Stop and think")])
def test_where_the_written_order_ends_the_next_step_stands(following, said):
    assert re.sub(r"[\s\-]", "", said) in shown(svg(rare("look", following)))
    stop = {"stop": {"unproved": [], "listed_share": 0.0}, "share": 0.1, "minutes": 15}
    assert "Stopandthink" in shown(svg(remedy("gear", stop)))


def test_a_long_flow_is_cut_and_says_how_many_steps_follow():
    drawn = svg(chain(10))
    (more,) = [a for a in elements(drawn, "a") if a.get("href") == "#whole-flow"]
    assert "7 more steps" in heard(more)
    assert len(classed(drawn, "remedy")) == flow_svg.DEPTH == 3


def test_one_last_step_is_drawn_and_not_counted():
    drawn = svg(chain(4))
    assert len(classed(drawn, "remedy")) == 4 and not classed(drawn, "more")


def test_steps_drawn_and_steps_counted_are_all_the_steps():
    policy = check("c", ("a", chain(6)), ("b", chain(2)), ("c", check("d", ("e", chain(5)), ("f", None))))
    drawn = svg(policy)
    told = [heard(a) for a in elements(drawn, "a") if a.get("href") == "#whole-flow"]
    counted = sum(int(re.search(r"(\d+) more", label)[1]) for label in told)
    boxes = len(classed(drawn, "check")) + len(classed(drawn, "remedy"))
    assert boxes + counted == flow_steps.count(policy) == 1 + 6 + 2 + 1 + 5


def test_the_list_holds_the_whole_flow():
    policy = check("c", ("a", chain(6)), ("b", None))
    html = as_html(outline(policy, name=lambda kind, id: id, href="../{}s/{}/".format))
    assert links(html) == ["../checks/c/", *(f"../remedys/r{n}/" for n in range(6, 0, -1))]
    root = ElementTree.fromstring(html)
    seen = [b.text for b in root.iter("b")]
    assert seen == ["a:", *["Still there:"] * 5, "b:"]


def test_remedies_in_a_row_stand_side_by_side_in_the_list():
    html = as_html(outline(chain(30, check("c", ("a", None))), name=lambda kind, id: id, href="{}/{}".format))
    root = ElementTree.fromstring(html)
    assert len(root.findall("./li/ul/li")) == 30
    assert root.find("./li/ul/li[30]/ul/li/b").text == "a:", "a check after them nests its outcomes again"


@pytest.mark.parametrize("words", HOSTILE)
def test_hostile_text_shows_as_text(words, show):
    policy = check("c", (words, remedy("r")))
    drawn = svg(policy, name=lambda kind, id: words)
    page = show(drawn)
    assert page.evaluate("document.querySelectorAll('script').length") == 0
    assert page.evaluate(OVERFLOWS) == []
    assert re.sub(r"[\s\-\u202e\u202c\u200f\x00\x07\ufffe]", "", words) in shown(drawn)


def test_text_fits_and_stays_apart_in_a_browser_at_natural_size(show):
    inner = check("c", *((title, remedy(title)) for title in TITLES))
    page = show(svg(check("b", (TITLES[1], inner), (TITLES[2], None)), name=lambda kind, id: id))
    assert page.evaluate(OVERFLOWS) == []
    assert page.evaluate(OVERLAPS) == []
    assert page.evaluate(SMALLEST_TYPE) >= 11
    assert page.evaluate("document.querySelector('svg').clientWidth") <= 700


def test_the_same_flow_gives_the_same_bytes_without_a_colour():
    assert svg(POLICY) == svg(POLICY)
    assert not re.search(r"#[0-9a-fA-F]{3,8}\b|rgb|hsl|\b(fill|stroke|style|color)=", svg(POLICY))
