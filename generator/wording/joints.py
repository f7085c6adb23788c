"""A joint in words."""

from __future__ import annotations

from generator.records.model import Fastener
from generator.wording import words


def joint_title(fastener: Fastener) -> str:
    """The joint in words."""
    return fastener.title or words.spaced(fastener.joint).capitalize()
