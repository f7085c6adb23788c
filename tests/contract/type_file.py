"""The scripts' type file from the shapes in `generator/pages/data/shapes.py`; run it to write the file.

    python -m tests.contract.type_file
"""

from __future__ import annotations

import inspect
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import NoneType, UnionType
from typing import Any, NotRequired, Union, get_args, get_origin, get_type_hints, is_typeddict

from generator.pages.data import shapes

FILE = Path(inspect.getfile(shapes)).with_name("browser.d.ts")
_PLAIN = {str: "string", float: "number", int: "number", bool: "boolean", NoneType: "null", object: "unknown", Any: "any"}
_HEAD = "/* Made from shapes.py by tests/contract/type_file.py. What the browser is given, and nothing else. */\n"


def type_file() -> str:
    """The declarations, in the order of the module."""
    shaped = [s for s in vars(shapes).values() if is_typeddict(s) and s.__module__ == shapes.__name__]
    return "\n".join([_HEAD, *map(_interface, shaped)])


def _interface(shape: type) -> str:
    keys = get_type_hints(shape, include_extras=True)
    lines = [f"  {name}{'?' if get_origin(kind) is NotRequired else ''}: {_written(kind)};" for name, kind in keys.items()]
    return "\n".join([f"/** {inspect.getdoc(shape)} */", f"interface {shape.__name__} {{", *lines, "}", ""])


def _written(kind: Any) -> str:
    origin, inner = get_origin(kind), get_args(kind)
    if origin is NotRequired:
        return _written(inner[0])
    if origin in (Union, UnionType):
        return " | ".join(map(_written, inner))
    if origin is Sequence:
        return f"Array<{_written(inner[0])}>"
    if origin is Mapping:
        return f"Record<{_written(inner[0])}, {_written(inner[1])}>"
    return kind.__name__ if is_typeddict(kind) else _PLAIN[kind]


if __name__ == "__main__":
    FILE.write_text(type_file(), encoding="utf-8")
