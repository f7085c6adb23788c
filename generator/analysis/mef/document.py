"""XML text to elements, with nothing in it that could expand or reach outside."""

from __future__ import annotations

from typing import NoReturn
from xml.etree.ElementTree import Element, TreeBuilder
from xml.parsers import expat


def parsed(text: str) -> Element:
    """The document's root. Raises ValueError for malformed XML and for a document type (DTD)."""
    builder = TreeBuilder()
    parser = expat.ParserCreate()
    parser.StartDoctypeDeclHandler = _refuse
    parser.StartElementHandler = builder.start
    parser.EndElementHandler = builder.end
    parser.CharacterDataHandler = builder.data
    try:
        parser.Parse(text.encode("utf-8"), True)
    except expat.ExpatError as error:
        raise ValueError(f"The document is not well-formed XML: {error}.") from error
    except UnicodeEncodeError as error:
        raise ValueError("The document is not well-formed XML: half a character.") from error
    return builder.close()


def attribute(element: Element, name: str) -> str:
    """An attribute's value. Raises ValueError if it is missing."""
    value = element.get(name)
    if value is None:
        raise ValueError(f"An element <{element.tag}> has no {name!r}.")
    return value


def _refuse(*_: object) -> NoReturn:
    raise ValueError("The document declares a document type, which is not read.")
