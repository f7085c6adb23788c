"""Ids: what one looks like, and what a word that is none may have been meant as."""

from __future__ import annotations

import re
import unicodedata

_LATIN = str.maketrans("аеорсухіјѕһԁԛԝοανικρτυ", "aeopcyxijshdqwoavikptu")


def slug(text: str, joint: str = "-") -> str:
    """The nearest id to some text, empty if nothing of it is left.

    Letters of other scripts that look like Latin ones are taken for those.

    >>> slug("Hook_Gear (worn)"), slug("hооk"), slug("Länge"), slug("!")
    ('hook-gear-worn', 'hook', 'lange', '')
    """
    latin = unicodedata.normalize("NFKD", text.lower().translate(_LATIN))
    return re.sub(r"[^a-z0-9]+", joint, latin.encode("ascii", "ignore").decode()).strip(joint)


def odd_letter(text: str) -> str:
    """A sentence about the first character that no id can hold and that may not look it, or nothing."""
    odd = next((c for c in text if not c.isascii()), None)
    return f" It holds {unicodedata.name(odd, 'a character without a name')}." if odd else ""
