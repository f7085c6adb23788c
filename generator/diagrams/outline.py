"""The content of a picture as a nested list, for readers who cannot see the picture."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from generator.diagrams.text import clean


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the list and what stands under it."""

    title: str
    address: str | None = None
    "Where the title leads; None for plain text."
    before: str = ""
    "What is seen, before the title."
    note: str = ""
    "A figure, or how the items under it belong together, after the title."
    items: tuple[Item, ...] = ()


def _line(item: Item) -> str:
    title = escape(clean(item.title))
    if item.address:
        title = f'<a href="{escape(item.address)}">{title}</a>'
    before = f"<b>{escape(clean(item.before))}:</b> " if item.before else ""
    note = f" <i>{escape(clean(item.note))}</i>" if item.note else ""
    return before + title + note


def _entry(item: Item) -> str:
    under = "".join(map(_entry, item.items))
    return f"<li>{_line(item)}{f'<ul>{under}</ul>' if under else ''}</li>"


def as_html(item: Item) -> str:
    """The list as HTML.

    >>> as_html(Item("Skips", note="any of", items=(Item("Needle bent", "bent/"),)))
    '<ul class="hw-outline"><li>Skips <i>any of</i><ul><li><a href="bent/">Needle bent</a></li></ul></li></ul>'
    """
    return f'<ul class="hw-outline">{_entry(item)}</ul>'
