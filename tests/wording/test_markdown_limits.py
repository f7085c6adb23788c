"""What a guide may link to: pages of the book, the web, a mailbox; pictures of the book."""

from __future__ import annotations

from html import unescape

import pytest
from lxml.html import fromstring
from markdown import Markdown

from generator.wording.markdown_limits import NoHtml, OwnLinks
from tests.site.vectors import VECTORS

_BROWSER_DROPS = dict.fromkeys((*range(33), 0x200B))
"In an address: the URL standard takes out tabs and line ends and trims control characters and spaces before it."


def _guide(text: str) -> str:
    return Markdown(extensions=["tables", "fenced_code", "toc", NoHtml(), OwnLinks()]).convert(text)


@pytest.mark.parametrize("vector", VECTORS, ids=range(len(VECTORS)))
def test_no_address_leads_to_a_script_and_no_picture_comes_from_outside(vector):
    page = fromstring(f"<div>{_guide(vector)}</div>")
    for name in ("href", "src"):
        for address in page.xpath(f"//@{name}"):
            scheme, colon, _ = unescape(address).translate(_BROWSER_DROPS).lower().partition(":")
            assert not colon or (scheme in ("http", "https", "mailto") and name == "href")
            assert name == "href" or not address.startswith("//")
    assert not page.xpath("//@*[starts-with(name(), 'on')] | //script | //style | //iframe | //base")


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("[oil](../oil-chart.html#tessaly-40)", 'href="../oil-chart.html#tessaly-40"'),
        ("[oil](oil.md \"a: b\")", 'href="oil.md"'),
        ("[law](https://law.example/a:b?c=d&e=f)", 'href="https://law.example/a:b?c=d&amp;e=f"'),
        ("[write](mailto:shop@shop.example)", 'href="mailto:shop@shop.example"'),
        ("<shop@shop.example>", 'href="&#109;'),
        ("[step](#step:2)", 'href="#step:2"'),
        ("![lamp](lamp.png)", 'src="lamp.png"'),
    ],
)  # fmt: skip
def test_what_leads_well_stays(text, wanted):
    assert wanted in _guide(text)
