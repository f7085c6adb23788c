"""A finished page, before it becomes a file of the site."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Heading:
    """An entry of a page's table of contents."""

    anchor: str
    title: str


@dataclass(frozen=True, slots=True)
class PageText:
    """One page, all words in place."""

    address: str
    "From the site's root, such as checks/x.html."
    title: str
    html: str
    "The content, its h1 first."
    headings: tuple[Heading, ...] = ()
    "Second-level headings in order."
    search: str = ""
    "The words by which search finds it; empty keeps it out of the index."
    description: str = ""
    scripts: tuple[str, ...] = field(default=())
    "Addresses of the scripts that this page needs beyond the common ones, from the site's root."
    wide: bool = False
    "Whether the page takes the room of the table of contents too."
    family: str = ""
    "The family that the page is about; the finder begins with it."
