"""Titles of every kind, and what to ask of a picture in text and in a browser."""

from __future__ import annotations

import re
from itertools import takewhile
from xml.etree import ElementTree

from generator.analysis.tree import Event, Gate

TITLES = (
    "Needle bent",
    "Presser-foot pressure regulator worn or wrongly set",
    "Hook-to-needle-guard clearance out of limits after a strike",
    "Counterbalancedcrankshaftconnectingrodbearingseized",
    "illilli filling till lit",
    "WWWWW MMMMM @@@@",
    "Ünüsüal ïnkjét œuvre, Łódź Ærø",
    "Фетровая прокладка изношена",
    "בורג רופף",
    "上糸の張りが強すぎる",
)
HOSTILE = (
    '<script>alert("x")</script>',
    "back\\slash \\N \\G \\l \\",
    '"quoted" \'single\' & amp; &lt;',
    "turned \u202egnorw\u202c and \u200fmarked",
    "]]> --> <!-- {{ jinja }} {% x %}",
    "null\x00 bell\x07 \ufffe end",
    "n1 -> n2; } digraph {",
    "-" * 60,
)


def tree(*titles: str, kind: str = "any", k: int = 0) -> Gate:
    """A gate over one basic event for each title, ids e0, e1 ..."""
    return Gate("top", "Skips stitches", kind, tuple(Event(f"e{n}", t) for n, t in enumerate(titles)), k)


def elements(svg: str, name: str) -> list[ElementTree.Element]:
    """All elements of a name, in the order of the document."""
    return list(ElementTree.fromstring(svg).iter(f"{{http://www.w3.org/2000/svg}}{name}"))


def classed(svg: str, name: str) -> list[ElementTree.Element]:
    """All elements of a class, in the order of the document."""
    return [e for e in ElementTree.fromstring(svg).iter() if name in e.get("class", "").split()]


def areas(svg: str) -> list[ElementTree.Element]:
    """What of each link can be pressed, in the order of the document: the paths without a class."""
    return [path for path in elements(svg, "path") if "class" not in path.attrib]


def seen(svg: str) -> list[str]:
    """The lines of what is seen before a box: those that stand between the area of its link and the box."""
    groups = [list(group)[1:] for group in ElementTree.fromstring(svg) if group.tag.endswith(("}a", "}g"))]
    before = [child for group in groups for child in takewhile(lambda child: "class" not in child.attrib, group)]
    return [(child.text or "").strip() for child in before]


def shown(svg: str) -> str:
    """All that is shown as text, without the breaks that wrapping put in."""
    return re.sub(r"[\s-]", "", "".join(e.text or "" for e in elements(svg, "text")))


def heard(link: ElementTree.Element) -> str:
    """What a screen reader says of a link: its label, or else its texts in their order. Accessible Name and Description Computation 1.2."""
    return link.get("aria-label") or "".join(e.text or "" for e in link.iter("{http://www.w3.org/2000/svg}text"))


OVERFLOWS = """() => [...document.querySelectorAll('svg')].flatMap(svg => {
  const frames = [...svg.querySelectorAll('.box, path:not([class]), circle.event, path.gate')]
    .map(e => e.getBoundingClientRect())
  const around = svg.getBoundingClientRect()
  const within = (t, f, room) => t.left >= f.left - room && t.right <= f.right + room
    && t.top >= f.top - room && t.bottom <= f.bottom + room
  return [...svg.querySelectorAll('text')].map(e => [e.textContent, e.getBoundingClientRect()])
    .filter(([, t]) => !frames.some(f => within(t, f, 0.5)) || !within(t, around, 0))
    .map(([words]) => words)
})"""
"The texts that no box, circle, gate or link area of their picture holds."

OVERLAPS = """() => [...document.querySelectorAll('svg')].flatMap(svg => {
  const texts = [...svg.querySelectorAll('text')].map(e => [e.textContent, e.getBoundingClientRect()])
  return texts.flatMap(([a, s], i) => texts.slice(i + 1)
    .filter(([, t]) => s.left < t.right && t.left < s.right && s.top + 2 < t.bottom && t.top + 2 < s.bottom)
    .map(([b]) => [a, b]))
})"""
"Pairs of texts that lie over one another, but for the ascent and descent of neighbouring lines."

SMALLEST_TYPE = """() => Math.min(...[...document.querySelectorAll('svg text')].map(e =>
  parseFloat(getComputedStyle(e).fontSize) * e.getScreenCTM().a))"""
"The smallest type on the screen, px."
