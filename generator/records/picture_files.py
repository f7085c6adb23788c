"""The pictures of content folders, by what their bytes say."""

from __future__ import annotations

import warnings
from collections.abc import Iterator, Sequence
from pathlib import Path

from generator.records.model import PictureFile

FOLDER = "pictures"
"Below a content folder."
KINDS = {"JPEG": (".jpg", ".jpeg"), "PNG": (".png",), "WEBP": (".webp",)}
"Format -> endings of a file's name."
MOST_BYTES = 12 * 2**20
MOST_PIXELS = 60_000_000
FEWEST_PIXELS = 160
"Of the longer side; a smaller picture shows nothing at a bench."
_SMALLER = "Save it smaller: 2,000 pixels on the longer side are plenty."
_TURNED = (5, 6, 7, 8)
"Values of the orientation in Exif 2.3 (from memory) at which height and width change places."
_ORIENTATION = 0x0112


def picture_files(folders: Sequence[Path]) -> dict[str, PictureFile]:
    """Every file of the folders' pictures by its name; one of a later folder stands in an earlier one's place. Never raises."""
    found: dict[str, PictureFile] = {}
    for folder in folders:
        found.update((path.name, _picture(path, folder)) for path in _files(folder / FOLDER))
    return dict(sorted(found.items()))


def _files(folder: Path) -> Iterator[Path]:
    """Files and links of a folder; hidden ones are passed over."""
    try:
        yield from sorted(p for p in folder.iterdir() if not p.name.startswith(".") and not p.is_dir())
    except OSError:
        return  # none there; one that cannot be opened is told of as a folder


def _picture(path: Path, within: Path) -> PictureFile:
    try:
        if not path.resolve(strict=True).is_relative_to(within.resolve()):
            return _faulty(path, "is a link that leads out of the content folder", "Put the picture itself there.")
        if not path.is_file():
            return _faulty(path, "is no plain file", "Put a picture there, or take it away.")
        if path.stat().st_size > MOST_BYTES:
            return _faulty(path, f"is larger than {MOST_BYTES // 2**20} MB", _SMALLER)
        return _read(path)
    except RuntimeError:  # what Python 3.11 and 3.12 raise of a round of links
        return _faulty(path, "cannot be opened: its link leads round in a circle", "Put the picture itself there.")
    except OSError as error:
        why = f": {error.strerror}" if error.strerror else ""
        return _faulty(path, f"cannot be opened{why}", "Mend its permissions or the link.")


def _read(path: Path) -> PictureFile:
    from PIL import Image, UnidentifiedImageError  # slow to load, and most content has no picture to read

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)  # its size is looked at here
            with Image.open(path, formats=tuple(KINDS)) as image:
                return _fault_in(path, image.format or "", image.size) or _decoded(path, image)
    except UnidentifiedImageError:
        return _faulty(path, "is no JPEG, PNG or WebP picture", "Save it as one of these.")
    except Image.DecompressionBombError:
        return _faulty(path, "has far too many pixels", _SMALLER)
    except (OSError, ValueError, SyntaxError):
        return _faulty(path, "is broken: it cannot be read to its end", "Save it once more from its source.")


def _fault_in(path: Path, kind: str, size: tuple[int, int]) -> PictureFile | None:
    if path.suffix not in KINDS[kind]:
        return _faulty(path, f"is a {kind} picture by its bytes", f"Let its name end in {KINDS[kind][0]}.")
    if size[0] * size[1] > MOST_PIXELS:
        return _faulty(path, f"has {size[0]} by {size[1]} pixels", _SMALLER)
    if max(size) < FEWEST_PIXELS:
        return _faulty(path, f"has {size[0]} by {size[1]} pixels, too few to show anything", f"Take one of {FEWEST_PIXELS} or more.")
    return None


def _decoded(path: Path, image: object) -> PictureFile:
    """With its size as it is looked at, once it has been read to its end."""
    from PIL import Image

    assert isinstance(image, Image.Image)
    turned = image.getexif().get(_ORIENTATION) in _TURNED
    width, height = reversed(image.size) if turned else image.size
    image.draft(None, (max(1, width // 8), max(1, height // 8)))
    image.load()
    return PictureFile(str(path), width, height)


def _faulty(path: Path, fault: str, mend: str) -> PictureFile:
    return PictureFile(str(path), fault=fault, mend=mend)
