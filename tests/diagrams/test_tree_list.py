from xml.etree import ElementTree

from generator.analysis.tree import Event, Gate, event_ids
from generator.diagrams.outline import as_html
from generator.diagrams.tree_list import outline

from .pictures import HOSTILE

SHARED = Gate("g", "Thread not controlled", "all", (Event("x", "X"), Event("y", "Y")), transfer="thread-nest/g")
VOTE = Gate("v", "Play", "at_least", (Event("b"), Event("c"), Event("d")), k=2)
TOP = Gate("top", "Skips", "any", (Event("a", "A"), VOTE, SHARED))


def test_the_list_holds_every_event_with_its_link_and_says_how_inputs_belong_together():
    html = as_html(outline(TOP, href="{}/".format, shares={"a": "31 %"}))
    root = ElementTree.fromstring(html)
    assert [a.get("href") for a in root.iter("a")] == ["a/", "b/", "c/", "d/", "thread-nest/g/", "x/", "y/"]
    assert [s.text for s in root.iter("i")] == ["any of", "31 %", "at least 2 of", "all of"]
    assert {a.get("href")[:-1] for a in root.iter("a")} >= set(event_ids(TOP))


def test_lists_nest_as_the_gates_do():
    root = ElementTree.fromstring(as_html(outline(TOP, href=str)))
    vote = root.find("./li/ul/li[2]")
    assert vote.text.strip() == "Play"
    assert [li.find("a").text for li in vote.findall("./ul/li")] == ["b", "c", "d"]


def test_hostile_titles_show_as_text():
    top = Gate("top", "Top", "any", tuple(Event(f"e{n}", title) for n, title in enumerate(HOSTILE)))
    root = ElementTree.fromstring(as_html(outline(top, href='"><b>{}'.format)))
    assert len(list(root.iter("a"))) == len(HOSTILE) and not list(root.iter("b"))
    assert HOSTILE[0] in [a.text for a in root.iter("a")]
