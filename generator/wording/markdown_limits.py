"""What the Markdown of records and guides may not do: it shows as text instead."""

from __future__ import annotations

from markdown import Markdown
from markdown.extensions import Extension

_LINKS = (
    "reference", "link", "image_link", "image_reference", "short_reference", "short_image_ref", "autolink", "automail",
)  # fmt: skip
"Markdown's ways to write a link or a picture."


class NoHtml(Extension):
    """Whatever looks like a tag shows as text."""

    def extendMarkdown(self, md: Markdown) -> None:
        """Take out the two steps that let tags through."""
        md.preprocessors.deregister("html_block")
        md.inlinePatterns.deregister("html")


class NoLinks(Extension):
    """Links and pictures show as they are written: pages link by themselves, and no text leads to a script or off the site."""

    def extendMarkdown(self, md: Markdown) -> None:
        """Take out every way to write one."""
        md.parser.blockprocessors.deregister("reference")
        for pattern in _LINKS:
            md.inlinePatterns.deregister(pattern)
