"""What the Markdown of records and guides may not do: it shows as text instead."""

from __future__ import annotations

import re
from html import unescape

from markdown import Markdown
from markdown.extensions import Extension
from markdown.postprocessors import Postprocessor

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


_ADDRESS = re.compile(r'(?<=\s)(href|src)="([^"]*)"')
_UNSEEN = re.compile(r"[\x00-\x20\x7f-\xa0\u200b-\u200f\u2028-\u202e\u2060\ufeff]")
"What a browser passes over in an address, and what hides in one."
_SCHEME = re.compile(r"[^/?#]*?:")
_FOLLOWED = {"http:", "https:", "mailto:"}


class OwnLinks(Extension):
    """Links lead to pages of the book, to the web or to a mailbox, and pictures come from the book; others show as words."""

    def extendMarkdown(self, md: Markdown) -> None:
        """Looks at addresses last, when no step is left that could write one differently."""
        md.postprocessors.register(_Addresses(md), "own-links", -10)


class _Addresses(Postprocessor):
    """Takes every other address away from finished HTML, whose tags are the converter's own."""

    def run(self, text: str) -> str:
        """The text with its tags' addresses looked at."""
        return re.sub(r"<(?:a|img)\b[^>]*>", lambda tag: _ADDRESS.sub(_kept, tag[0]), text)


def _kept(found: re.Match[str]) -> str:
    return found[0] if _leads_well(found[1], _UNSEEN.sub("", unescape(found[2])).lower()) else ""


def _leads_well(name: str, address: str) -> bool:
    scheme = _SCHEME.match(address)
    if name == "src":
        return not scheme and not address.replace("\\", "/").startswith("//")
    return scheme is None or scheme[0] in _FOLLOWED
