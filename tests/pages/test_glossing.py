"""Terms explained where they are used."""

from __future__ import annotations

from generator.pages.glossing import Glossary
from generator.records.model import Term

TERMS = [Term("hook", "Hook", "Takes the loop."), Term("hook-point", "Hook point", "Its tip."), Term("overlock", "Overlocker", "Trims.", ("serger",))]


def explain(html: str) -> str:
    return Glossary(TERMS).explain(html, "../glossary.html")


def test_the_first_use_of_a_term_leads_to_its_meaning():
    html = explain("<p>The hook turns. The hook stops.</p>")
    assert html == '<p>The <a href="../glossary.html#hook">hook</a> turns. The hook stops.</p>'


def test_the_longest_term_wins():
    html = explain("<p>Look at the hook point.</p>")
    assert 'glossary.html#hook-point">hook point</a>' in html
    assert '#hook"' not in html


def test_other_words_and_plurals_count_as_the_term():
    html = explain("<p>Two sergers.</p>")
    assert '#overlock">sergers</a>' in html


def test_a_part_of_a_word_is_no_term():
    assert explain("<p>Hooked, unhook, hook-like.</p>") == "<p>Hooked, unhook, hook-like.</p>"


def test_links_headings_and_pictures_are_left_alone():
    html = '<h1>Hook</h1><p><a href="x">the hook</a></p><svg><text>hook</text></svg>'
    assert explain(html) == html


def test_markup_and_attributes_are_never_touched():
    html = explain('<p title="hook" class="hook">hook</p>')
    assert html.startswith('<p title="hook" class="hook"><a')


def test_a_page_that_asks_for_none_stays_as_it_is():
    html = '<div class="no-glossary">hook</div>'
    assert explain(html) == html


FOOT = Term("foot", "Presser foot", "Holds the work.", ("foot",), not_in=("foot control",))
FACE = Term("face", "Face", "The left end.", not_in=("faces", "face up"))


def test_a_word_inside_a_phrase_that_means_something_else_is_no_term():
    glossary = Glossary([FOOT, FACE])
    html = "<p>Press the foot\ncontrol. The groove faces you. Lay it face up.</p>"
    assert glossary.explain(html, "g.html") == html


def test_the_term_is_still_explained_where_it_stands_by_itself_later():
    html = Glossary([FOOT]).explain("<p>Unplug the foot control, then lift the foot.</p>", "g.html")
    assert 'the foot control, then lift the <a href="g.html#foot">foot</a>' in html
