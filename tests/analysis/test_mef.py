"""The exchange format, there and back."""

from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.analysis.fault_tree import minimal_cut_sets
from generator.analysis.mef import from_mef, to_mef
from generator.analysis.mef.names import Names
from generator.analysis.tree import Event, Gate, Node, event_ids, walk
from tests.analysis.fault_tree.fault_trees import gate, trees_with_probabilities

TEXT = st.text(st.characters(exclude_categories=["Cs", "Cc"], include_characters="\r\n\t "))
IDS = st.one_of(st.from_regex(r"[a-z0-9/_-]{1,6}", fullmatch=True), TEXT.filter(bool))


@st.composite
def trees_with_odd_names(draw: st.DrawFn) -> Gate:
    """Trees with shared subtrees, ids of all sorts, titles, and gates of one id that differ."""
    ids = draw(st.lists(IDS, min_size=1, max_size=4, unique=True))
    stock: list[Node] = [Event(e, draw(TEXT)) for e in ids]
    for _ in range(draw(st.integers(1, 4))):
        inputs = tuple(draw(st.lists(st.sampled_from(stock), min_size=1, max_size=4)))
        kind = draw(st.sampled_from(["any", "all", "at_least"]))
        k = draw(st.integers(1, len(inputs))) if kind == "at_least" else 0
        stock.append(Gate(draw(IDS), draw(TEXT), kind, inputs, k, draw(TEXT)))
    return stock[-1]  # type: ignore[return-value]


@settings(deadline=None)
@given(trees_with_probabilities())
def test_a_tree_and_its_probabilities_come_back_exactly(case: tuple[Gate, dict]) -> None:
    top, q = case
    assert from_mef(to_mef(top, q)) == (top, q)


@settings(max_examples=300, deadline=None)
@given(trees_with_odd_names(), st.floats(0, 1))
def test_any_ids_titles_and_transfers_come_back_exactly(top: Gate, p: float) -> None:
    q = dict.fromkeys(event_ids(top), p)
    assert from_mef(to_mef(top, q)) == (top, q)


@settings(deadline=None)
@given(trees_with_odd_names())
def test_names_are_the_formats_identifiers_and_unique(top: Gate) -> None:
    # Identifiers of the published format: a letter, then letters, digits, "_" and single hyphens.
    document = ElementTree.fromstring(to_mef(top, dict.fromkeys(event_ids(top), 0.5)))
    defined = [e.get("name") or "" for e in document.iter() if e.tag.startswith("define-")]
    assert len(set(defined)) == len(defined)
    for name in defined:
        assert name.isascii() and name[0].isalpha() and "--" not in name and name[-1] != "-"
        assert all(c.isalnum() or c in "_-" for c in name)


def test_a_name_may_have_digits_behind_its_first_letter() -> None:
    assert Names().name("e2", "event") == "e2"
    assert Names().name("2e", "event") == "event_2e"


def test_a_shared_subtree_is_defined_once() -> None:
    shared = gate("all", "a", "b", name="shared")
    top = gate("any", shared, gate("all", shared, "c", name="x"))
    text = to_mef(top, dict.fromkeys("abc", 0.1))
    assert text.count('<define-gate name="shared">') == 1
    assert text.count('<gate name="shared"/>') == 2


def test_a_transfer_keeps_its_address() -> None:
    inner = Gate("hook-late", "Hook late", "any", (Event("a"), Event("b")), 0, "skips/hook-late")
    top = gate("all", inner, "c")
    assert from_mef(to_mef(top, dict.fromkeys("abc", 0.1)))[0] == top


def test_a_tree_3000_gates_deep_comes_back() -> None:
    node: Node = Event("e0")
    for i in range(1, 3001):
        node = Gate(f"g{i}", "", "any", (Event(f"e{i}"), node))
    assert isinstance(node, Gate)
    q = dict.fromkeys(event_ids(node), 0.5)
    again, read = from_mef(to_mef(node, q))
    assert [n.id for n in walk(again)] == [n.id for n in walk(node)]
    assert read == q


# In the manner of the format's own examples (names and layout from memory, not copied).
FOREIGN = """<?xml version="1.0"?>
<!-- formulas within formulas, untyped references, probabilities apart from the tree -->
<opsa-mef>
  <label>pumps</label>
  <define-fault-tree name="FT">
    <define-gate name="TOP">
      <label>No flow</label>
      <or>
        <and><event name="P1"/><event name="P2"/></and>
        <atleast min="2"><basic-event name="V1"/><basic-event name="V2"/><gate name="G"/></atleast>
      </or>
    </define-gate>
    <define-gate name="G"><event name="P1"/></define-gate>
  </define-fault-tree>
  <model-data>
    <define-basic-event name="P1"><float value="1.0e-2"/></define-basic-event>
    <define-basic-event name="P2"><float value="0.5"/></define-basic-event>
    <define-basic-event name="V1"/>
    <define-basic-event name="V2"/>
  </model-data>
</opsa-mef>
"""


def test_formulas_within_formulas_are_read() -> None:
    top, q = from_mef(FOREIGN)
    assert (top.id, top.title) == ("TOP", "No flow")
    assert minimal_cut_sets(top).sets == (("P1", "P2"), ("P1", "V1"), ("P1", "V2"), ("V1", "V2"))
    assert q == {"P1": 0.01, "P2": 0.5}


def document(*gates: str, events: str = '<define-basic-event name="a"/>') -> str:
    tree = f'<define-fault-tree name="t">{"".join(gates)}{events}</define-fault-tree>'
    return f"<opsa-mef>{tree}</opsa-mef>"


TOP = '<define-gate name="top"><or><event name="a"/></or></define-gate>'
VOTE = TOP.replace("<or>", '<atleast min="{}">').replace("</or>", "</atleast>")
EVENT = '<define-basic-event name="a"><float value="{}"/></define-basic-event>'
BOMB = '<!DOCTYPE x [<!ENTITY a "aa"><!ENTITY b "&a;&a;">]>' + document(TOP)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "not well-formed XML"),
        ("<opsa-mef>", "not well-formed XML"),
        ("<opsa-mef>\x00</opsa-mef>", "not well-formed XML"),
        ("<opsa-mef>\ud800</opsa-mef>", "half a character"),
        (BOMB, "declares a document type"),
        ("<html/>", "not <opsa-mef>"),
        ("<opsa-mef/>", "this document has: none"),
        ("<opsa-mef><define-event-tree/></opsa-mef>", "<define-event-tree> within <opsa-mef>"),
        (document('<define-gate name="top"><not><event name="a"/></not></define-gate>'), "<not>"),
        (document(TOP.replace("event", "house-event")), "<house-event> within the gate 'top'"),
        (document(TOP.replace('"a"', '"b"')), "'top' refers to 'b', which is not defined"),
        (document(TOP.replace(' name="a"', "")), "<event> has no 'name'"),
        (document(TOP, TOP), "'top' is defined twice"),
        (document(TOP, TOP.replace("top", "other")), "this document has: top, other"),
        (document('<define-gate name="top"/>'), "'top' has no formula"),
        (document('<define-gate name="top"><or/></define-gate>'), "'top' has no inputs"),
        (document(TOP.replace("</or>", "</or><or/>")), "more than one"),
        (
            document(
                TOP.replace('"a"', '"g"'),
                '<define-gate name="g"><gate name="h"/></define-gate>',
                '<define-gate name="h"><gate name="g"/></define-gate>',
            ),
            "circle: g -> h -> g",
        ),
        (document(VOTE.format("2")), "2 of 1"),
        (document(VOTE.format("x")), "no count"),
        (document(VOTE.format("999999999")), "999999999 of 1"),
        (document(VOTE.format("1" + "0" * 9)), "no count"),
        (document(TOP.replace("or>", "atleast>")), "no 'min'"),
        (document(TOP, events=EVENT.format("2")), "outside 0 to 1"),
        (document(TOP, events=EVENT.format("nan")), "outside 0 to 1"),
        (document(TOP, events=EVENT.format("x")), "no number"),
        (document(TOP, events=EVENT.format("0.1") + EVENT.format("0.1")), "defined twice"),
    ],
)
def test_a_bad_document_ends_in_one_clear_sentence(text: str, words: str) -> None:
    with pytest.raises(ValueError, match=words) as caught:
        from_mef(text)
    assert type(caught.value) is ValueError
    assert str(caught.value).endswith(".") and "\n" not in str(caught.value)


def test_what_xml_cannot_hold_is_refused() -> None:
    with pytest.raises(ValueError, match="no XML document can hold"):
        to_mef(Gate("top", "\x00", "any", (Event("a"),)), {"a": 0.5})


def test_an_event_with_two_titles_is_refused() -> None:
    with pytest.raises(ValueError, match="'a' has two titles"):
        to_mef(Gate("top", "", "any", (Event("a", "x"), Event("a", "y"))), {"a": 0.5})
