"""What several data files say of the same record, in one spelling."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from generator.analysis.machine import MachineWait, Remedy
from generator.bench import Bench
from generator.family_view import FamilyView
from generator.pages.data.shapes import (
    CautionData,
    CheckData,
    Ids,
    PartData,
    PhotoData,
    PhotoFile,
    RemedyData,
    SettingData,
    ShownCheckData,
    WaitData,
)
from generator.pages.photos import addresses, credit, height
from generator.records.model import Caution, Check, Part, Picture, PictureFile, Records, Setting
from generator.wording import words

ROOT = "index.html"
"Links in the data are from the site's root; scripts put the page's own way to the root before them."


def part_data(part: Part, loses: Ids = ()) -> PartData:
    """What minutes are reckoned from. `loses` follows from the family; the scripts work it out for one that is not listed."""
    return {
        "title": part.title,
        "behind": part.behind,
        "off": part.off.minutes,
        "on": part.on.minutes,
        "disturbs": part.disturbs,
        "loses": loses,
        "mains": part.mains,
    }


def opening_cautions(part: Part) -> tuple[str, ...]:
    """The cautions of a part and of taking it off."""
    return tuple(dict.fromkeys((*part.cautions, *part.off.cautions)))


def setting_data(setting: Setting) -> SettingData:
    """What minutes and order are reckoned from."""
    return {
        "title": setting.title,
        "minutes": setting.minutes,
        "read_minutes": setting.read.minutes if setting.read else None,
        "after": setting.after,
        "disturbs": setting.disturbs,
        "reach": setting.reach,
    }


def check_data(check: Check, records: Records) -> CheckData:
    """A check as it is told and reckoned; what is seen is told apart."""
    told: CheckData = {
        "title": check.title,
        "how": words.block(check.how),
        "expect": words.plain(check.expect) if check.expect else "",
        "minutes": check.minutes,
        "reach": check.reach,
        "power": check.power,
        "trust": check.trust,
        "cautions": check.cautions,
    }
    if check.pictures:
        told["pictures"] = _photos(check.pictures, records)
    return told


def shown_check_data(check: Check, records: Records) -> ShownCheckData:
    """The same with what each outcome means, and how it looks."""
    means = [words.plain(o.means) if o.means else "" for o in check.outcomes]
    looks = [_photos(o.pictures, records) for o in check.outcomes]
    return {**check_data(check, records), "means": means, "looks": looks if any(looks) else ()}


def _photos(pictures: Iterable[Picture], records: Records) -> list[PhotoData]:
    return [_photo(picture, records.pictures[picture.file]) for picture in pictures]


def _photo(picture: Picture, file: PictureFile) -> PhotoData:
    files: list[PhotoFile] = [{"file": href, "width": width} for href, width in addresses(picture.file, file)]
    return {"files": files, "height": height(file, files[0]["width"]), "alt": picture.alt, "credit": credit(picture)}


def wait_data(wait: MachineWait | None) -> WaitData:
    """Minutes of waiting, and what for; none where nothing waits."""
    return {"minutes": wait.minutes, "why": wait.why} if wait else {"minutes": 0, "why": ""}


def remedy_data(remedy: Remedy) -> RemedyData:
    """What minutes are reckoned from."""
    return {
        "renew": remedy.renew,
        "set": remedy.set,
        "reach": remedy.reach,
        "minutes": remedy.minutes,
        "clean": remedy.clean,
        "wait": wait_data(remedy.wait),
    }


def cautions_data(cautions: Iterable[Caution]) -> dict[str, CautionData]:
    """Caution id -> its words."""
    return {c.id: {"title": c.title, "text": words.plain(c.text), "level": c.level} for c in cautions}


def causes_of_remedies(bench: Bench, view: FamilyView) -> Mapping[str, tuple[Remedy, list[str]]]:
    """Remedy id -> the remedy, and the failure modes that it puts right, by id."""
    found: dict[str, tuple[Remedy, list[str]]] = {}
    for mode, remedy in sorted(bench.remedies(view).items()):
        found.setdefault(remedy.id, (remedy, []))[1].append(mode)
    return found
