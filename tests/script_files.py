"""What a script file of data gives the page, read without a browser."""

from __future__ import annotations

import json
import re
from typing import Any

_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|(?<![\w.])[A-Za-z_]\w*')
_WHOLE = re.compile(r'(?:\{const (?P<said>.*);)?handwheel\.give\("(?P<name>[\w-]+)",(?P<data>.*)\);\}?\n', re.S)
_WORDS = {"true", "false", "null"}


def given(text: str) -> Any:
    """The data, from the subset of JavaScript that `script` writes."""
    whole = _WHOLE.fullmatch(text)
    assert whole, text[:80]
    said = re.findall(r'(\w+)=("(?:[^"\\]|\\.)*")', whole["said"] or "")
    named = dict(said)
    data = whole["data"]

    def json_of(token: re.Match[str]) -> str:
        word = token[0]
        if word.startswith('"') or word in _WORDS:
            return word
        return json.dumps(word) if data[token.end() : token.end() + 1] == ":" else named[word]

    return json.loads(re.sub(r"(?<=[{,])(\d+)(?=:)", r'"\1"', _TOKEN.sub(json_of, data)))
