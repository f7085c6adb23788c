"""Data as YAML text, as people write records: keys in their order, a line a key, `on` and `off` plain words."""

from __future__ import annotations

import yaml

WIDTH = 110
"Where a long text is folded, in characters."
_BOOLEAN = "tag:yaml.org,2002:bool"
_MARKS = "oOyYnN"
"First letters of words that an older YAML took for true and false; `scalar.resolve` does not."


class _Dumper(yaml.SafeDumper):
    """Writes a list indented below its key, and repeats what stands twice."""

    def increase_indent(self, flow: bool = False, indentless: bool = False) -> None:
        """Entries of a list stand deeper than its key."""
        super().increase_indent(flow, False)

    def ignore_aliases(self, data: object) -> bool:
        """A record names nothing with anchors."""
        return True


_Dumper.yaml_implicit_resolvers = {
    first: [pair for pair in pairs if pair[0] != _BOOLEAN or first not in _MARKS]
    for first, pairs in yaml.SafeDumper.yaml_implicit_resolvers.items()
}


def block(value: object) -> str:
    """A mapping or list in block style.

    >>> print(block({"off": {"minutes": 2}, "joints": ["hook-screws"]}), end="")
    off:
      minutes: 2
    joints:
      - hook-screws
    """
    return yaml.dump(value, Dumper=_Dumper, allow_unicode=True, width=WIDTH, sort_keys=False)
