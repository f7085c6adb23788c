"""What others made and every site carries, with its licence: a copy of the site is a copy of these too."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, distribution

FRAME_LICENCE = "assets/handwheel/licences/frame.txt"
"Address of the text that copies of the frame must carry."


@dataclass(frozen=True, slots=True)
class Shipped:
    """A piece of the site."""

    what: str
    name: str
    "As its makers call it; a script's name as in the script's own list of what it was made from."
    licence: str
    "The identifier of the SPDX list."
    text: str = ""
    "Address of the licence, from the site's root; empty where the licence asks for none beside a built script."


SHIPPED = (
    Shipped("Words, pictures, scripts and styles of our own", "Handwheel", "MIT"),
    Shipped("The frame of the pages: script, styles, templates", "Material for MkDocs", "MIT", FRAME_LICENCE),
    *(
        Shipped("In the frame's script", name, licence)
        for name, licence in (
            ("clipboard", "MIT"),
            ("escape-html", "MIT"),
            ("focus-visible", "W3C-20150513"),
            ("rxjs", "Apache-2.0"),
            ("tslib", "0BSD"),
        )
    ),
    Shipped("In the frame's style", "material-design-color", "MIT"),
    Shipped("The frame's signs", "Material Design Icons", "Apache-2.0"),
    Shipped("The type", "Handwheel Docket", "OFL-1.1", "assets/handwheel/type/OFL.txt"),
)
"Licences of the script's pieces are from memory of what they are published under."


def licence_files() -> Iterator[tuple[str, str]]:
    """Address and text of the licences that come with what is installed."""
    text = _licence("mkdocs-material")
    if text:
        yield FRAME_LICENCE, text


def _licence(package: str) -> str:
    """The licence that an installed package carries; empty where it carries none."""
    try:
        files = distribution(package).files or []
    except PackageNotFoundError:
        return ""
    return next((f.read_text(encoding="utf-8") for f in files if f.stem.upper() in ("LICENSE", "LICENCE")), "")
