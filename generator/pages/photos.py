"""Photographs and drawings of records: as pages show them, and as files of the site."""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from PIL import Image, ImageOps

from generator.library import Library
from generator.records.model import Picture, PictureFile, Records
from generator.wording.links import Links

WIDTHS = (480, 960)
"Pixels: a phone's column, and the same on a fine screen or on paper."
_FOLDER = "assets/handwheel/pictures"
_QUALITY: dict[str, dict[str, Any]] = {
    "JPEG": {"quality": 82, "optimize": True, "progressive": True},
    "PNG": {"optimize": True},
    "WEBP": {"quality": 80, "method": 4},
}


@dataclass(frozen=True, slots=True)
class PhotoView:
    """A picture as one page shows it."""

    src: str
    srcset: str
    width: int
    "Pixels of `src`, like the height: a page keeps its place free while it loads."
    height: int
    alt: str
    credit: str


def photo_views(records: Records, pictures: Iterable[Picture], link: Links) -> tuple[PhotoView, ...]:
    """The pictures of a record, in order."""
    return tuple(_view(picture, records.pictures[picture.file], link) for picture in pictures)


def _view(picture: Picture, file: PictureFile, link: Links) -> PhotoView:
    files = [(link.to(address), width) for address, width in addresses(picture.file, file)]
    (src, narrowest), *_ = files
    srcset = ", ".join(f"{href} {width}w" for href, width in files)
    return PhotoView(src, srcset, narrowest, height(file, narrowest), picture.alt, credit(picture))


def addresses(name: str, file: PictureFile) -> list[tuple[str, int]]:
    """Where a picture stands from the site's root, with its width in pixels; the narrowest first, and none wider than it is."""
    return [(f"{_FOLDER}/{width}/{name}", width) for width in sorted({min(width, file.width) for width in WIDTHS})]


def height(file: PictureFile, width: int) -> int:
    """Pixels, at a width."""
    return max(1, round(file.height * width / file.width))


def credit(picture: Picture) -> str:
    """Who made it and under which licence it may be passed on, in one line."""
    return f"{picture.credit}, {picture.licence}"


def photo_files(library: Library) -> Iterator[tuple[str, bytes]]:
    """Address and bytes of every picture that some record shows, at every width."""
    for picture in shown(library):
        name, file = picture.file, library.records.pictures[picture.file]
        with Image.open(file.path) as image:
            clean, kind = _clean(image), image.format or ""
        for address, width in addresses(name, file):
            yield address, _saved(clean.resize((width, height(file, width)), Image.Resampling.LANCZOS), kind)


def shown(library: Library) -> list[Picture]:
    """Every picture that a record shows, each file once, by its name."""
    found = {picture.file: picture for pictures in _of_records(library) for picture in pictures}
    return [found[name] for name in sorted(found)]


def _of_records(library: Library) -> Iterator[tuple[Picture, ...]]:
    """Of every record; of parts also as families have them."""
    records = library.records
    yield from (family.pictures for family in records.families.values())
    yield from (symptom.pictures for symptom in records.symptoms.values())
    yield from (check.pictures for check in records.checks.values())
    yield from (outcome.pictures for check in records.checks.values() for outcome in check.outcomes)
    yield from (part.pictures for assembly in records.assemblies.values() for part in assembly.parts.values())
    yield from (part.pictures for view in library.views for part in view.parts.values())


def _clean(image: Image.Image) -> Image.Image:
    """The picture the right way up, and nothing else of what its file says: no place, no camera, no remark."""
    upright = ImageOps.exif_transpose(image)
    seen_through = "A" in upright.getbands() or "transparency" in upright.info
    mode = "RGBA" if seen_through else "L" if upright.mode in ("1", "L") else "RGB"
    clean = Image.new(mode, upright.size)
    clean.paste(upright.convert(mode))
    return clean


def _saved(image: Image.Image, kind: str) -> bytes:
    written = io.BytesIO()
    image.save(written, kind, **_QUALITY[kind])
    return written.getvalue()
