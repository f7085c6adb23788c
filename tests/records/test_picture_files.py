"""Pictures of content folders: what their bytes say, whatever their names say."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from PIL import Image, ImageOps

from generator.content_rules import load_checked
from generator.records.picture_files import FEWEST_PIXELS, MOST_BYTES, MOST_PIXELS, picture_files

SOUND = Path(__file__).parent / "sound"
KINDS = {"jpg": "JPEG", "png": "PNG", "webp": "WEBP"}


def drawn(folder: Path, name: str, kind: str, size: tuple[int, int] = (320, 200), **more: object) -> Path:
    path = folder / "pictures" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    Image.linear_gradient("L").resize(size).save(path, kind, **more)
    return path


def only(folder: Path):
    (found,) = picture_files([folder]).values()
    return found


@pytest.mark.parametrize(("ending", "kind"), KINDS.items())
def test_each_kind_is_known_by_its_bytes(tmp_path, ending, kind):
    drawn(tmp_path, f"hook.{ending}", kind)
    found = only(tmp_path)
    assert (found.width, found.height, found.fault) == (320, 200, "")


@pytest.mark.parametrize("ending", KINDS)
def test_a_name_that_says_another_kind_is_a_fault_with_its_mend(tmp_path, ending):
    other, kind = next((e, k) for e, k in KINDS.items() if e != ending)
    drawn(tmp_path, f"hook.{ending}", kind)
    assert (only(tmp_path).fault, only(tmp_path).mend) == (f"is a {kind} picture by its bytes", f"Let its name end in .{other}.")


@pytest.mark.parametrize(("orientation", "size"), [(1, (320, 200)), (3, (320, 200)), (6, (200, 320)), (8, (200, 320))])
def test_a_picture_taken_with_the_camera_on_its_side_has_the_size_of_what_is_seen(tmp_path, orientation, size):
    """Values of the orientation: Exif 2.3, from memory; that they are read so by others: Pillow's own `exif_transpose`."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    path = drawn(tmp_path, "hook.jpg", "JPEG", exif=exif)
    with Image.open(path) as image:
        assert ImageOps.exif_transpose(image).size == size
    assert (only(tmp_path).width, only(tmp_path).height) == size


FAULTS = {
    "text": (lambda p: p.write_text("<svg onload='alert(1)'/>"), "is no JPEG, PNG or WebP picture"),
    "short": (lambda p: p.write_bytes(p.read_bytes()[: p.stat().st_size // 2]), "is broken: it cannot be read to its end"),
    "heavy": (lambda p: p.write_bytes(b"\0" * (MOST_BYTES + 1)), "is larger than 12 MB"),
    "empty": (lambda p: p.write_bytes(b""), "is no JPEG, PNG or WebP picture"),
    "bomb": (lambda p: Image.new("1", (30_000, 30_000)).save(p, "PNG"), "has far too many pixels"),
    "large": (lambda p: Image.new("1", (10_000, 9_000)).save(p, "PNG"), "has 10000 by 9000 pixels"),
    "small": (lambda p: Image.new("1", (FEWEST_PIXELS - 1, 9)).save(p, "PNG"), "has 159 by 9 pixels, too few to show anything"),
    "round": (lambda p: (p.unlink(), p.symlink_to(p)), "cannot be opened"),
}


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("spoilt", FAULTS)
def test_what_is_no_picture_for_a_page_is_said_in_words(tmp_path, spoilt):
    spoil, said = FAULTS[spoilt]
    spoil(drawn(tmp_path, "hook.png", "PNG"))
    found = only(tmp_path)
    assert found.fault.startswith(said) and found.mend.endswith(".")
    assert (found.width, found.height) == (0, 0)


@pytest.mark.filterwarnings("error")
def test_a_picture_as_large_as_may_be_is_sound_and_one_byte_or_one_row_more_is_not(tmp_path):
    path = drawn(tmp_path, "hook.png", "PNG")
    drawing = path.read_bytes()
    path.write_bytes(drawing.ljust(MOST_BYTES, b"\0"))
    assert only(tmp_path).fault == ""
    path.write_bytes(drawing.ljust(MOST_BYTES + 1, b"\0"))
    assert only(tmp_path).fault == "is larger than 12 MB"
    Image.new("1", (8000, MOST_PIXELS // 8000)).save(path)
    assert (only(tmp_path).fault, only(tmp_path).height) == ("", 7500)
    Image.new("1", (8000, MOST_PIXELS // 8000 + 1)).save(path)
    assert only(tmp_path).fault == "has 8000 by 7501 pixels"


def faults(*folders: Path) -> list[str]:
    return [f"{f.path}: {f.message} {f.hint}" for f in load_checked(folders)[1] if f.level != "note"]


def test_a_check_of_the_records_tells_of_a_heavy_picture_at_the_picture_and_of_nothing_else(tmp_path):
    path = drawn(tmp_path, "hook.png", "PNG")
    record = tmp_path / "checks" / "watch-hook.yaml"
    record.parent.mkdir()
    record.write_text("pictures:\n- {file: hook.png, alt: The point behind the needle, credit: The workshop, licence: CC0-1.0}\n", encoding="utf-8")
    assert faults(SOUND, tmp_path) == []
    path.write_bytes(path.read_bytes().ljust(MOST_BYTES + 1, b"\0"))
    assert faults(SOUND, tmp_path) == [f"{path}: 'hook.png' is larger than 12 MB. Save it smaller: 2,000 pixels on the longer side are plenty."]


def test_a_link_out_of_the_content_folder_is_not_followed(tmp_path):
    outside = drawn(tmp_path / "outside", "hook.png", "PNG")
    (tmp_path / "content" / "pictures").mkdir(parents=True)
    (tmp_path / "content" / "pictures" / "hook.png").symlink_to(outside)
    assert only(tmp_path / "content").fault == "is a link that leads out of the content folder"


def test_a_picture_of_a_later_folder_stands_in_the_place_of_one_of_the_same_name(tmp_path):
    drawn(tmp_path / "book", "hook.png", "PNG")
    drawn(tmp_path / "shop", "hook.png", "PNG", (400, 300))
    (found,) = picture_files([tmp_path / "book", tmp_path / "shop"]).values()
    assert (found.width, found.path) == (400, str(tmp_path / "shop" / "pictures" / "hook.png"))
    shutil.rmtree(tmp_path / "shop" / "pictures")
    assert only(tmp_path / "book").width == 320
