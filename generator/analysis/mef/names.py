"""The words of the exchange format, and the names that it allows."""

from __future__ import annotations

import re

FORMULAS = {"any": "or", "all": "and", "at_least": "atleast"}
"The format's element for each kind of gate."

_UNSAFE = re.compile(r"[^A-Za-z0-9-]|-(?=-)|(?<=-)-|-$")


class Names:
    """Hands out names, each once: a letter, then letters, digits, `_` and single hyphens."""

    def __init__(self) -> None:
        self._taken: set[str] = set()

    def name(self, wanted: str, otherwise: str) -> str:
        """A name near to an id; `otherwise` begins it where the id does not begin with a letter.

        >>> names = Names()
        >>> names.name("skips/hook-late", "gate"), names.name("skips_hook-late", "gate")
        ('skips_hook-late', 'skips_hook-late-2')
        """
        safe = _UNSAFE.sub("_", wanted)
        stem = safe if safe[:1].isalpha() else f"{otherwise}_{safe}"
        name, count = stem, 1
        while name in self._taken:
            count += 1
            name = f"{stem}-{count}"
        self._taken.add(name)
        return name
