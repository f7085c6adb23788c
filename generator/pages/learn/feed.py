"""A feed of what each edition changed in the records, for whoever follows the book: Atom, RFC 4287."""

from __future__ import annotations

from uuid import NAMESPACE_URL, UUID, uuid5
from xml.etree.ElementTree import Element, SubElement, tostring

from generator.edition import Edition, Release
from generator.wording import words

ADDRESS = "changes.atom"
_ATOM = "http://www.w3.org/2005/Atom"
_NAME = "Handwheel"


def feed_file(edition: Edition, site_url: str) -> dict[str, str]:
    """The feed by its address; nothing where no edition has a month, since an entry must be dated.

    Entries lead to the page *This copy* below `site_url`; without one they lead to it beside the feed.
    """
    releases = [release for release in edition.releases if release.month]
    if not releases:
        return {}
    root = f"{site_url.rstrip('/')}/" if site_url else ""
    feed = Element("feed", xmlns=_ATOM)
    _say(feed, f"{_NAME}: what changed in the records", _id(site_url or _NAME), max(map(_date, releases)))
    SubElement(SubElement(feed, "author"), "name").text = _NAME
    for release in releases:
        entry = SubElement(feed, "entry")
        _say(entry, release.title, uuid5(_id(site_url or _NAME), release.title), _date(release))
        SubElement(entry, "link", rel="alternate", href=f"{root}this-copy.html#changes")
        SubElement(entry, "content", type="text").text = "\n".join(words.plain(change) for change in release.changes)
    return {ADDRESS: '<?xml version="1.0" encoding="utf-8"?>\n' + tostring(feed, encoding="unicode") + "\n"}


def _say(of: Element, title: str, id: UUID, updated: str) -> None:
    for tag, text in (("title", title), ("id", id.urn), ("updated", updated)):
        SubElement(of, tag).text = text


def _id(name: str) -> UUID:
    return uuid5(NAMESPACE_URL, name)


def _date(release: Release) -> str:
    """The first of the edition's month: the book dates no closer."""
    return f"{release.month}-01T00:00:00Z"
