"""What a script file of data gives the page, read without a browser."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

_TOKEN = re.compile(r'\s*("(?:[^"\\]|\\.)*"|-?\d[\d.eE+-]*|[A-Za-z_]\w*|[^\s])')
_WHOLE = re.compile(r'(?:\{const (?P<said>.*);)?handwheel\.give\("(?P<name>[\w-]+)",(?P<data>.*)\);\}?\n', re.S)
_WORDS = {"true": True, "false": False, "null": None}


def given(text: str) -> Any:
    """The data, from the subset of JavaScript that `script` writes."""
    whole = _WHOLE.fullmatch(text)
    assert whole, text[:80]
    named: dict[str, Any] = {}
    said = _TOKEN.findall(whole["said"] or "")[::-1]
    while said:
        name, sign = said.pop(), said.pop()
        assert sign == "=" and name not in named, (name, sign)
        named[name] = _value(said, named)
        assert not said or said.pop() == ",", name
    tokens = _TOKEN.findall(whole["data"])[::-1]
    data = _value(tokens, named)
    assert not tokens
    return data


def _value(tokens: list[str], named: Mapping[str, Any]) -> Any:
    """The value that the tokens begin with, taken off their end, where the first stands."""
    token = tokens.pop()
    if token == "[":
        return [_value(tokens, named) for _ in _until(tokens, "]")]
    if token == "{":
        return {_key(tokens): _value(tokens, named) for _ in _until(tokens, "}")}
    if token in _WORDS:
        return _WORDS[token]
    return json.loads(token) if token[0] in '"-0123456789' else named[token]


def _until(tokens: list[str], end: str):
    """Once for each entry before the end, which it takes off with the commas."""
    while tokens[-1] != end:
        yield
        assert tokens[-1] == end or tokens.pop() == ","
    tokens.pop()


def _key(tokens: list[str]) -> str:
    token = tokens.pop()
    key = json.loads(token) if token.startswith('"') else token
    assert tokens.pop() == ":", key
    return key
