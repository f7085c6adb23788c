"""Reading YAML with positions; PyYAML's own composer is the oracle for where things stand."""

import re
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from generator.records import compose as compose_module
from generator.records.document import LARGEST, Reading, parse, read_document, read_file
from generator.records.node import places, plain

HERE = Path("x.yaml")

TEXT = """\
# a comment
title: Hook
parts:
  hook:
    off: {minutes: 2, how: "Turn: slowly"}
    on:
      minutes: .5
  'case': {}
signs:
  - one
  - >-
    two
    lines
"""


def read(text: str | bytes) -> Reading:
    return parse(text if isinstance(text, bytes) else text.encode(), HERE)


def said(text: str | bytes) -> list[tuple[int, int, str]]:
    return [(f.line, f.column, f.message) for f in read(text).findings]


def oracle(node: yaml.Node, route: tuple = ()) -> dict[tuple, tuple[int, int]]:
    found = {route: (node.start_mark.line + 1, node.start_mark.column + 1)}
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            found |= oracle(value, (*route, key.value))
    elif isinstance(node, yaml.SequenceNode):
        for place, value in enumerate(node.value):
            found |= oracle(value, (*route, place))
    return found


def test_values_and_keys_know_line_and_column(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(TEXT)
    document, findings = read_document(tmp_path / "a.yaml")
    assert document is not None
    assert findings == ()
    at = {route: (p.line, p.column) for route, p in document.positions.items()}
    keys = {route: (p.line, p.column) for route, p in document.keys.items()}
    assert at["parts", "hook", "off", "how"] == (5, 28)
    assert keys["parts", "hook", "off", "how"] == (5, 23)
    assert at["parts", "hook", "on", "minutes"] == (7, 16)
    assert keys["parts", "case"] == (8, 3)
    assert at["signs", 1] == (11, 5)
    assert at[()] == (2, 1)
    assert document.data["parts"]["hook"]["off"] == {"minutes": 2, "how": "Turn: slowly"}
    assert document.data["signs"] == ["one", "two lines"]


def test_positions_agree_with_pyyaml_s_composer() -> None:
    node = read(TEXT).node
    assert node is not None
    found = {route: (p.line, p.column) for route, p in places(node).values.items()}
    assert found == oracle(yaml.compose(TEXT, Loader=yaml.SafeLoader))


def test_columns_count_characters_not_bytes() -> None:
    node = read("a: {é: ü, b: c}\n").node
    assert node is not None
    assert places(node).keys["a", "b"].column == 11


def test_a_byte_order_mark_moves_no_column() -> None:
    node = read(b"\xef\xbb\xbftitle: Hook\n").node
    assert node is not None
    assert plain(node) == {"title": "Hook"}
    assert (node.keys["title"].line, node.keys["title"].column) == (1, 1)
    assert said(b"\xef\xbb\xbftitle: \xff") == [(1, 8, "Byte 0xff is not UTF-8.")]


def test_carriage_returns_keep_the_lines() -> None:
    assert said("a: 1\r\nb: 2\r\na: 3\r\n") == [(3, 1, "'a' stands twice: in line 1 and again in line 3.")]


def test_every_duplicate_key_is_named_and_the_first_is_kept() -> None:
    reading = read("a: 1\nb: {c: 1, c: 2}\na: 2\na: 3\n")
    assert [(f.line, f.column) for f in reading.findings] == [(2, 11), (3, 1), (4, 1)]
    assert reading.node is not None
    assert plain(reading.node) == {"a": 1, "b": {"c": 1}}


def test_a_key_repeated_by_an_alias_is_a_duplicate() -> None:
    assert said("&k a: 1\n*k : 2\n") == [(1, 1, "'a' stands twice: in line 1 and again in line 1.")]


def test_duplicates_before_a_fault_are_named_too() -> None:
    assert [line for line, _, _ in said("a: 1\na: 2\nb: [\n")] == [2, 4]


def test_keys_are_words_whatever_they_look_like() -> None:
    node = read("on: 1\noff: 2\n5: 3\ntrue: 4\nnull: 5\n1.0: 6\n").node
    assert node is not None
    assert list(plain(node)) == ["on", "off", "5", "true", "null", "1.0"]


def test_aliases_repeat_a_value_with_the_place_where_it_is_written() -> None:
    node = read("a: &x {b: 1}\nc: *x\n").node
    assert node is not None
    assert plain(node) == {"a": {"b": 1}, "c": {"b": 1}}
    assert places(node).values["c", "b"].line == 1
    assert places(node).keys["c",].line == 2


def test_an_alias_bomb_is_refused_before_it_is_written_out() -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 10)}]" for i in range(1, 40)]
    (finding,) = read("\n".join(lines)).findings
    assert finding.line == 5
    assert "100,000" in finding.message


def test_aliases_cannot_nest_deeper_than_brackets() -> None:
    lines = [f"k{i}: &k{i} {'[' * 30}{f'*k{i - 1}' if i else 'x'}{']' * 30}" for i in range(60)]
    assert "deeper" in read("\n".join(lines)).findings[0].message


@pytest.mark.parametrize("text", ["a: &x [*x]", "a: &x {b: {c: *x}}", "a: *x"])
def test_an_alias_without_a_finished_value_is_a_finding(text: str) -> None:
    assert len(read(text).findings) == 1


@pytest.mark.parametrize("opening", ["[", "{a: ", "- "])
def test_endless_nesting_ends_in_one_finding(opening: str) -> None:
    reading = read(opening * 100_000)
    assert reading.node is None
    assert len(reading.findings) == 1


def test_a_file_over_one_mebibyte_is_not_read() -> None:
    assert "1 MiB" in read(b"a: " + b"x" * LARGEST).findings[0].message


def test_pyyaml_s_parser_without_libyaml_gives_the_same_nodes(monkeypatch: pytest.MonkeyPatch) -> None:
    fast = read(TEXT)
    monkeypatch.setattr(compose_module, "FAST", yaml.SafeLoader)
    assert read(TEXT) == fast
    assert said('a: "\\U00110000"') != []


def test_a_file_that_cannot_be_opened_is_one_finding(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.yaml"
    path.write_text("a: 1")

    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    assert [f.message for f in read_file(path).findings] == ["The file cannot be opened: Permission denied."]


@given(st.binary(max_size=300))
def test_no_bytes_raise(raw: bytes) -> None:
    reading = read(raw)
    assert (reading.node is None) <= bool(reading.findings)


@given(st.text(alphabet="ab:-?&*!|>'\"{}[],#%@`\\ \n\t\u0085\u2028\u202e0.9eé~", max_size=60))
def test_no_text_of_yaml_s_own_characters_raises(text: str) -> None:
    reading = read(text)
    assert (reading.node is None) <= bool(reading.findings)
    assert all(f.line >= 1 and f.column >= 1 and f.hint for f in reading.findings)


NUMBER_SINCE_1_2 = re.compile(r"[-+]?(\d+\.?\d*|\.\d+)[eE][-+]?\d+|0o[0-7]+")
"Numbers of YAML 1.2 (section 10.3.2) that are text to the 1.1 that PyYAML writes, and so stand there without quotes."
WORDS = st.text(max_size=20).filter(lambda text: not NUMBER_SINCE_1_2.fullmatch(text))
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | WORDS,
    lambda below: st.lists(below, max_size=3) | st.dictionaries(WORDS, below, max_size=3),
    max_leaves=12,
)


@given(JSON)
def test_what_pyyaml_writes_is_read_back_as_it_was(data: object) -> None:
    text = yaml.safe_dump(data, allow_unicode=False)
    reading = read(text)
    assert reading.node is not None
    assert plain(reading.node) == data


def test_a_file_that_cannot_be_read_has_no_data_and_its_finding(tmp_path):
    path = tmp_path / "hook.yaml"
    path.write_text("a: [")
    data, findings = read_document(path)
    assert data is None and [f.path for f in findings] == [path]
    path.write_text("a: 1")
    data, findings = read_document(path)
    assert data is not None and (data.data, findings) == ({"a": 1}, ())
