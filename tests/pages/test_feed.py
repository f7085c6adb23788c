"""The feed of changes holds what RFC 4287 asks of a feed and of an entry, and the same for the same records."""

from __future__ import annotations

from datetime import datetime
from xml.etree.ElementTree import fromstring

import pytest

from generator.edition import Edition, Release
from generator.pages.learn.feed import ADDRESS, feed_file

RELEASES = (
    Release("0.3.0", "", ("Not dated.",)),
    Release("0.2.0, edition 2026.12", "2026-12", ("A *lamp* & a belt.", "A tally.")),
    Release("0.1.0, edition 2026.11", "2026-11", ("All.",)),
)
A = "{http://www.w3.org/2005/Atom}"


@pytest.mark.parametrize(("site_url", "href"), [("", "this-copy.html#changes"), ("https://book.example", "https://book.example/this-copy.html#changes")])
def test_every_part_that_the_standard_requires_is_there(site_url: str, href: str) -> None:
    """RFC 4287, 4.1.1 and 4.1.2: one id, title and updated each, an author, a link where the content is no page; 3.3 for dates."""
    feed = fromstring(feed_file(Edition("f", releases=RELEASES), site_url)[ADDRESS].encode())
    entries = feed.findall(f"{A}entry")
    for part in (feed, *entries):
        assert [len(part.findall(A + tag)) for tag in ("id", "title", "updated")] == [1, 1, 1]
        assert datetime.fromisoformat(part.findtext(f"{A}updated").replace("Z", "+00:00")).tzinfo
    assert feed.findtext(f"{A}author/{A}name")
    assert len({part.findtext(f"{A}id") for part in (feed, *entries)}) == 3
    assert feed.findtext(f"{A}updated") == "2026-12-01T00:00:00Z"
    assert [entry.find(f"{A}link").get("href") for entry in entries] == [href, href]
    assert entries[0].findtext(f"{A}content") == "A lamp & a belt.\nA tally."


def test_without_a_dated_edition_there_is_no_feed() -> None:
    assert feed_file(Edition("f", releases=RELEASES[:1]), "") == {}
