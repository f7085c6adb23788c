"""Pictures as files of the site: the right way up, in two widths, and nothing of what a camera wrote."""

from __future__ import annotations

import io
import shutil
from pathlib import Path

import pytest
from PIL import Image, PngImagePlugin

from generator.content_rules import load_checked
from generator.library import Library
from generator.pages.photos import photo_files, photo_views, shown
from generator.wording.links import Links

SOUND = Path(__file__).parents[1] / "records" / "sound"
SECRET = "51 deg 28 min N, kitchen"
NAMED = "pictures:\n  - {{file: {}, alt: The hook from the side, credit: The workshop, licence: CC0-1.0}}\n"


def _noted(kind: str) -> dict[str, object]:
    """Everything that a file of this kind can say beside the picture; turned by a quarter."""
    exif = Image.Exif()
    exif[0x0112], exif[0x010E] = 6, SECRET
    exif.get_ifd(0x8825)[1] = SECRET
    text = PngImagePlugin.PngInfo()
    text.add_text("Comment", SECRET)
    more = {"JPEG": {"comment": SECRET.encode()}, "PNG": {"pnginfo": text}, "WEBP": {"xmp": SECRET.encode()}}
    return {"exif": exif, **more[kind]}


@pytest.fixture(scope="module", params=[("jpg", "JPEG"), ("png", "PNG"), ("webp", "WEBP")], ids=lambda p: p[1])
def library(request, tmp_path_factory) -> Library:
    """Sound records with one wide picture, dark on its left side, taken with the camera on its side."""
    ending, kind = request.param
    folder = Path(shutil.copytree(SOUND, tmp_path_factory.mktemp(ending) / "content"))
    (folder / "pictures").mkdir()
    image = Image.new("RGB", (2000, 1500), "white")
    image.paste("black", (0, 0, 500, 1500))
    image.save(folder / "pictures" / f"hook.{ending}", kind, **_noted(kind))
    with (folder / "checks" / "watch-hook.yaml").open("a") as record:
        record.write(NAMED.format(f"hook.{ending}"))
    records, findings = load_checked([folder])
    assert not findings
    return Library(records)


def test_nothing_that_the_camera_wrote_is_published(library):
    before = Path(library.records.pictures[shown(library)[0].file].path).read_bytes()
    assert SECRET.encode() in before
    for _, data in photo_files(library):
        assert SECRET.encode() not in data
        with Image.open(io.BytesIO(data)) as image:
            assert not image.getexif() and "comment" not in image.info and "xmp" not in image.info


def test_it_stands_upright_in_two_widths_under_the_addresses_that_pages_ask_for(library):
    files = dict(photo_files(library))
    (view,) = photo_views(library.records, shown(library), Links(library, "index.html"))
    assert [source.split() for source in view.srcset.split(", ")] == [[name, f"{w}w"] for name, w in zip(files, (480, 960), strict=True)]
    assert view.src == next(iter(files))
    for data, width in zip(files.values(), (480, 960), strict=True):
        with Image.open(io.BytesIO(data)) as image:
            assert image.size == (width, round(width * 2000 / 1500))
            grey = image.convert("L")
            assert grey.getpixel((width // 2, 20)) < 30 and grey.getpixel((width // 2, image.height - 20)) > 225
    assert (view.width, view.height) == (480, 640)


def test_the_same_picture_gives_the_same_bytes(library):
    assert dict(photo_files(library)) == dict(photo_files(library))
