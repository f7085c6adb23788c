"""A finished page without the bytes that nobody sees: room between its pieces, quotes and ends that a browser adds by itself."""

from __future__ import annotations

import re

_ROOM = re.compile(r"(?<=>)\s*\n\s*|\s*\n\s*(?=<)")
"Between tags of the frame, and between them and words: none of it shows where a piece has its own line or box."
_APART = "h1|h2|header|section|table|tbody|tr"
_BEFORE, _AFTER = re.compile(rf"\n(?=</?(?:{_APART})\b)"), re.compile(rf"(</?(?:{_APART})\b[^<>]*>)\n")
"Room beside what stands apart from all else, on the screen and on paper: nothing of it is in a line with other words."
_AS_WRITTEN = ("<pre", "<textarea")
"Where room is part of what is said."
_QUOTED = re.compile(r"""="([^\s"'=<>`]*[^\s"'=<>`/])"(?=[\s>])""")
"""The value of an attribute that reads the same without quotes: HTML standard, 13.1.2.3 Attributes.

One that ends in a stroke, or stands before the stroke of an empty element, keeps them.
"""
_SAID = re.compile(r'>[^<]*="')
"Such a thing in the words of a page, or in data that it holds."
_IN_SINGLE = re.compile("=\\s*'")
"An attribute between single signs, or words that look like one."
_ENDED = "li|dt|dd|tr|td|th|tbody|thead"
_ENDS_P = "address|article|aside|blockquote|details|div|dl|fieldset|figure|footer|form|h[1-6]|header|hr|main|nav|ol|p|pre|section|table|ul"
_HOLDS_P = "article|aside|blockquote|dd|details|div|figure|header|li|section|td|th"
_IMPLIED = re.compile(
    rf"</(?:(?:{_ENDED})>(?=\s*</?(?:{_ENDED}|ul|ol|dl|table)\b)|p>(?=\s*<(?:(?:{_ENDS_P})\b|/(?:{_HOLDS_P})>)))"
)
"""Ends that the next tag says as well: HTML standard, 13.1.2.4 Optional tags.

That of a paragraph is one before what cannot stand in it and at the end of what it stands in.
"""
_SIGNS = {"&#39;": "'", "&#x27;": "'"}
"Written as a number by what escapes values, which cannot know that no attribute here stands between such signs."
_DRAWN = ' xmlns="http://www.w3.org/2000/svg"'
"What a drawing needs in a file of its own alone: HTML standard, 4.8.16 SVG."


def lean(page: str) -> str:
    """The page as a browser reads it alike, in four fifths of the bytes. Linear.

    >>> lean('<body>\\n<ul class="a">\\n  <li id="b c">One</li>\\n  </ul>\\n<article>\\n\\n  <p>Two</article></body>')
    '<body><ul class=a><li id="b c">One</ul><article>\\n<p>Two</article></body>'
    """
    head, begin, rest = page.partition("<article")
    article, end, foot = rest.rpartition("</article>")
    if not any(tag in article for tag in _AS_WRITTEN):
        article = "".join(_AFTER.split(_BEFORE.sub("", _without_margins(article))))
    return _plain(without_room(head)) + _plain(begin + article + end) + _plain(without_room(foot))


def without_room(frame: str) -> str:
    """A part of the frame without the room between its pieces."""
    return _ROOM.sub("", frame)


def _without_margins(article: str) -> str:
    """Each line without the room around it; empty ones left out, but for the end of the last."""
    first, *rest = article.split("\n")
    lines = "\n".join((first.rstrip(), *filter(None, map(str.strip, rest))))
    return lines + "\n" if rest and not rest[-1].strip() else lines


def _plain(html: str) -> str:
    """The head of a page stays as it is: it is read by more than browsers."""
    head, begin, body = html.rpartition("</head>")
    if not _SAID.search(body):
        body = _unquoted(_without_numbers(body.replace(_DRAWN, "")))
    return head + begin + _IMPLIED.sub("", body)


def _unquoted(body: str) -> str:
    """Cut and joined again, which takes less time than to write each value anew."""
    cut = _QUOTED.split(body)
    cut[1::2] = ["=" + value for value in cut[1::2]]
    return "".join(cut)


def _without_numbers(body: str) -> str:
    if _IN_SINGLE.search(body):
        return body
    for number, sign in _SIGNS.items():
        body = body.replace(number, sign)
    return body
