"""Record text as HTML: Markdown without raw HTML, numbers and lists in words."""

from __future__ import annotations

import html
import re
from collections.abc import Sequence
from functools import cache, lru_cache
from math import floor

import markdown
from markdown.extensions.tables import TableExtension
from markupsafe import Markup

from generator.wording.markdown_limits import NoHtml, NoLinks


@lru_cache(maxsize=1)
def _converter() -> markdown.Markdown:
    """One for all texts: making one takes longer than most texts do."""
    return markdown.Markdown(extensions=[TableExtension(use_align_attribute=True), NoHtml(), NoLinks()], output_format="html")


@cache
def block(text: str) -> Markup:
    """Markdown blocks as HTML; anything that looks like a tag shows as text.

    >>> str(block("Turn **slowly** <b>"))
    '<p>Turn <strong>slowly</strong> &lt;b&gt;</p>'
    """
    return Markup(_converter().reset().convert(text))


def inline(text: str) -> Markup:
    """One paragraph of Markdown without its paragraph tags.

    >>> str(inline("Oil *lightly*."))
    'Oil <em>lightly</em>.'
    """
    rendered = block(text)
    single = re.fullmatch(r"<p>(.*)</p>", rendered, re.S)
    return Markup(single[1]) if single and "<p>" not in single[1] else rendered


@cache
def plain(text: str) -> str:
    """The words alone, for titles, search and attributes.

    >>> plain("Oil *lightly*, at 5 < 6.")
    'Oil lightly, at 5 < 6.'
    """
    return html.unescape(re.sub(r"<[^>]+>", "", block(text))).strip()


SOMETHING_ELSE = "Something that this book does not list"


_QUARTERS = ("", "¼", "½", "¾")


def minutes(value: float) -> str:
    """Bench minutes as they are read: quarters below two, halves below ten, whole above.

    Never further off than a sixth of what is said. `minutes` in assets/js/common/base.js says the same.

    >>> minutes(0.5), minutes(0.7), minutes(1.2), minutes(3.4), minutes(13.6), minutes(0.1), minutes(0)
    ('½ min', '¾ min', '1¼ min', '3½ min', '14 min', 'under ¼ min', '0 min')
    """
    if value and value < 0.2:
        return "under ¼ min"
    step = 4 if value < 2 else 2 if value < 10 else 1
    quarters = floor(value * step + 0.5) * (4 // step)
    whole, rest = divmod(quarters, 4)
    return f"{whole or ''}{_QUARTERS[rest]} min" if quarters else "0 min"


def signed_minutes(value: float) -> str:
    """Minutes more or less.

    >>> signed_minutes(0.1), signed_minutes(-3), signed_minutes(0)
    ('under ¼ min more', '3 min less', '0 min')
    """
    return f"{minutes(abs(value))} {'more' if value > 0 else 'less'}" if value else minutes(0)


def percent(share: float) -> str:
    """A share as it is read.

    >>> percent(0.314), percent(0.004), percent(1)
    ('31 %', 'under 1 %', '100 %')
    """
    if 0 < share < 0.01:
        return "under 1 %"
    return f"{floor(share * 100 + 0.5)} %"


def plural(noun: str, count: int) -> str:
    """A noun whose plural ends in s, as it stands after a count.

    >>> plural("drop", 1), plural("drop", 3)
    ('drop', 'drops')
    """
    return noun if count == 1 else f"{noun}s"


def counted(count: int, noun: str) -> str:
    """A count and its noun.

    >>> counted(1, "drop"), counted(3, "more complaint")
    ('1 drop', '3 more complaints')
    """
    return f"{count} {plural(noun, count)}"


def listed(words: Sequence[str], last: str = "and") -> str:
    """Words as a sentence lists them.

    >>> listed(["cover", "needle", "plate"])
    'cover, needle and plate'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def spaced(record_id: str) -> str:
    """An id that has no title of its own, as words.

    >>> spaced("hook-gear-screws")
    'hook gear screws'
    """
    return record_id.replace("-", " ")


STANDING = re.compile(r"\s*The machine's own\s+service\s+data\s+stands\s+above\s+this\.")
"What nearly every target says; a page that shows targets says it once, in its own place."


def own_note(text: str) -> str:
    """A target's note without the sentence that the page says for all targets.

    >>> own_note("Heavy thread: the high end. The machine's own service data stands above this.")
    'Heavy thread: the high end.'
    """
    return STANDING.sub("", text).strip()
