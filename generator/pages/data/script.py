"""Data as a script that hands it to the page: read from disk as well as from a host."""

from __future__ import annotations

import json

FOLDER = "assets/handwheel/data"


def script(name: str, data: object) -> str:
    """A script that hands data to the page. Safe inside HTML too: no `<` stands in it.

    >>> script("family", {"t": "</script>"})
    'handwheel.give("family",{"t":"\\\\u003c/script>"});\\n'
    """
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    for unsafe in "<\u2028\u2029":
        text = text.replace(unsafe, f"\\u{ord(unsafe):04x}")
    return f'handwheel.give("{name}",{text});\n'
