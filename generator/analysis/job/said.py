"""An id in the middle of a sentence."""

from __future__ import annotations


def said(id: str) -> str:
    """A part, setting, joint or loose piece as a note names it.

    >>> said("hook-gear-screws")
    'the hook gear screws'
    """
    return f"the {id.replace('-', ' ')}"
