"""Every key that a family may change, changed: read, worked with and shown as if its mechanism were written so.

The keys are those of the schema; a key that the tables lack, or have too many, fails.
"""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Mapping
from dataclasses import fields
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner
from PIL import Image

from generator.__main__ import main
from generator.content_rules import load_checked
from generator.library import Library
from generator.records.model import Records
from generator.records.report import as_text
from generator.records.schema import schema
from generator.site_build import build

SOUND = Path(__file__).parents[1] / "records" / "sound"
MOVE = {"technique": "free-a-bound-part", "tools": ["driver"], "slackens": ["altered-joint"], "cautions": ["unplug-first"]}
PART = {
    "title": "Altered gear",
    "what": "Altered words about the gear.",
    "pictures": [{"file": "altered.png", "alt": "Altered picture", "credit": "Altered shop", "licence": "CC0-1.0"}],
    "behind": ["needle"],
    "off": {"position": "on-its-side", "minutes": 41, "wait": {"minutes": 7, "why": "altered wait off"}, "says": "Altered off", "how": "Altered way off.", **MOVE},
    "on": {"position": "on-its-end", "minutes": 43, "wait": {"minutes": 8, "why": "altered wait on"}, "says": "Altered on", "how": "Altered way on.", **MOVE},
    "joints": ["gear-screws", "altered-joint"],
    "disturbs": ["bar-height"],
    "wears": True,
    "renew_with": ["motor"],
    "price": "41..43",
    "loose": ["altered shim"],
    "refit": ["Altered note for the way back."],
    "guards": ["belt"],
    "by_hand": True,
    "mains": True,
    "needs": ["lamp"],
    "lacks": ["zigzag"],
    "cautions": ["altered-caution"],
}
SETTING = {
    "title": "Altered timing",
    "what": "Altered words about timing.",
    "why": "Altered reason.",
    "how": "Altered way to set it.",
    "minutes": 37,
    "read": {"minutes": 1, "how": "Altered way to read it."},
    "after": [],
    "disturbs": ["free-play"],
    "reach": ["motor"],
    "in_place": ["needle"],
    "joints": ["altered-joint"],
    "position": "on-its-face",
    "tools": ["driver"],
    "power": "handwheel-only",
    "target": {"measure": "altered measure", "low": "3 mm", "high": "4 mm", "note": "Altered note.", "source": "demo"},
    "gauge": {"draws": "gap", "of": "altered face", "to": "altered wall", "tool": "driver"},
    "proved_by": "look-again",
    "needs": ["lamp"],
    "lacks": ["zigzag"],
    "cautions": ["altered-caution"],
}
TARGETS = (
    {"measure": "altered measure", "source": "demo"},
    {"measure": "altered measure", "source": "demo", "low": "2 mm"},
    {"measure": "altered measure", "source": "demo", "high": "4 mm"},
)
"Beside the whole one: targets with an end or both left open."
CHANGES = [
    *(("parts", "hook-gear", {key: value}) for key, value in PART.items()),
    *(("settings", "hook-timing", {key: value}) for key, value in SETTING.items()),
    *(("settings", "hook-timing", {"target": target}) for target in TARGETS),
    *(("settings", "bar-height", {"target": target}) for target in (SETTING["target"], *TARGETS)),
    ("parts", "hook-gear", PART),
    ("settings", "hook-timing", SETTING),
]
"Group, item, what the family changes of it; bar-height has no target in its mechanism."


def write(folder: Path, place: str, data: object) -> None:
    path = folder / place
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(yaml.safe_dump(data), "utf-8")


def more(folder: Path) -> Path:
    """Records that the changes name, laid over the sound ones."""
    (folder / "pictures").mkdir(parents=True, exist_ok=True)
    Image.new("L", (320, 200)).save(folder / "pictures" / "altered.png")
    write(folder, "cautions.yaml", {"altered-caution": {"title": "Altered caution", "text": "Mind.", "level": "danger"}})
    write(folder, "features.yaml", {"lamp": {"title": "Lamp", "absent": "has no lamp"}})
    write(folder, "positions.yaml", {f"on-its-{lie}": {"title": f"On its {lie}", "turn": f"Lay it on its {lie}."} for lie in ("side", "end", "face")})
    write(folder, "fasteners/testa-1.yaml", [{"joint": "altered-joint", "kind": "cap screw"}])
    write(folder, "assemblies/hook-drive.yaml", {"settings": {"free-play": {"title": "Free play", "minutes": 3, "joints": ["altered-joint"]}}})
    look = {"title": "Look again", "how": "Look.", "minutes": 1, "power": "off"}
    outcomes = [{"says": "Late", "fits": ["timing-off"]}, {"says": "In time", "otherwise": True}]
    write(folder, "checks/look-again.yaml", {**look, "outcomes": outcomes})
    write(folder, "failure-modes/timing-off.yaml", {"shows": {"skipped-stitches": "always"}})
    return folder


def by_family(folder: Path, *changes: tuple[str, str, Mapping[str, object]]) -> Path:
    """The folder with the changes made by the family, and nothing else different in its mechanisms."""
    drive: dict = {"use": "hook-drive", "without": ["hook-felt"]}
    motor: dict = {"use": "bench-motor"}
    for group, item, change in changes:
        (motor if item == "motor" else drive).setdefault(group, {})[item] = change
    family = {"features": {"lamp": True}, "assemblies": ["covers", drive, motor]}
    write(more(folder), "families/testa-1.yaml", family)
    return folder


def by_mechanism(folder: Path, group: str, item: str, change: Mapping[str, object]) -> Path:
    """The folder with the same change written into the mechanism."""
    by_family(folder)
    path = folder / "assemblies" / "hook-drive.yaml"
    data = yaml.safe_load(path.read_text())
    data.setdefault(group, {}).setdefault(item, {}).update(change)
    write(folder, "assemblies/hook-drive.yaml", data)
    return folder


def read(folder: Path) -> Records:
    records, findings = load_checked([SOUND, folder])
    assert not [f for f in findings if f.level == "error"], as_text(findings)
    return records


@pytest.mark.parametrize(("table", "shape"), [(PART, "part"), (SETTING, "setting")])
def test_the_tables_hold_every_key_that_the_schema_lets_a_family_change(table, shape) -> None:
    changes = schema("assembly")["$defs"][f"{shape}-changes"]
    assert table.keys() == (changes.get("properties") or schema("assembly")["$defs"][shape]["properties"]).keys()


@pytest.mark.parametrize(("group", "item", "change"), CHANGES, ids=lambda given: given if isinstance(given, str) else "+".join(given))
def test_a_familys_change_is_read_as_if_its_mechanism_were_written_so(tmp_path: Path, group, item, change) -> None:
    changed = Library(read(by_family(tmp_path / "one", (group, item, change)))).for_family("testa-1")
    written = Library(read(by_mechanism(tmp_path / "other", group, item, change))).for_family("testa-1")
    assert (changed.parts, changed.settings) == (written.parts, written.settings)
    before = Library(read(by_family(tmp_path / "neither"))).for_family("testa-1")
    old, new = (getattr(view, group)[item] for view in (before, changed))
    differs = {f.name for f in fields(old) if getattr(old, f.name) != getattr(new, f.name)}
    assert differs == change.keys()


@pytest.mark.parametrize("guard", [{"needs": ["zigzag"]}, {"lacks": ["lamp"]}])
def test_a_part_that_the_family_makes_ask_for_what_it_lacks_is_not_there(tmp_path: Path, guard) -> None:
    view = Library(read(by_family(tmp_path, ("parts", "hook-gear", guard)))).for_family("testa-1")
    assert "hook-gear" not in view.parts
    assert "gear-cracked" in view.not_here


ALL = (
    ("parts", "hook-gear", PART),
    ("settings", "hook-timing", SETTING),
    ("settings", "bar-height", {"target": TARGETS[1]}),
    ("parts", "motor", {"price": "71..73"}),
)
"The shop has its own price for the gear and none for the motor, which is renewed with it."
GEAR, TIMING = "jobs/testa-1/gear-cracked.html", "jobs/testa-1/timing-off.html"
SHOWN = {
    "families/testa-1.html": ("altered gear", "altered timing"),
    GEAR: (
        "Altered gear", "on its side", "on its end", "Altered way off.", "Altered way on.", "altered shim", "parts €82 to €87",
        "Altered note for the way back.", "Altered caution", "cap screw", "renew motor", "Needle-bar height", "at least 2 mm",
    ),
    TIMING: (
        "Altered timing", "Altered way to set it.", "37 min", "Free play", "on its face", "altered measure", "3 mm to 4 mm",
        "Altered note.", "Altered caution", "cap screw", "Look again", "Altered face to altered wall: least 3 mm, most 4 mm",
    ),
    "settings-order/testa-1.html": ("Altered timing", "altered measure", "3 mm to 4 mm", "at least 2 mm"),
    "fasteners/testa-1.html": ("Altered gear",),
}  # fmt: skip
"Page -> words that the changes put there. What a part or setting is, and why, stands on its mechanism's own page."


@pytest.mark.parametrize(
    ("address", "said"), [(a, said) for a, all_said in SHOWN.items() for said in all_said]
)
def test_a_page_shows_the_change(pages, address: str, said: str) -> None:
    before, after = pages
    assert said in after[address]
    assert said not in before[address]


def test_every_kind_of_page_is_made_with_every_key_changed(pages) -> None:
    before, after = pages
    assert {a for a in before if not a.startswith("jobs/")} == {a for a in after if not a.startswith("jobs/")}


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, str], dict[str, str]]:
    """Address -> page, before and after all the changes."""
    base = tmp_path_factory.mktemp("pages")
    folders = by_family(base / "before"), by_family(base / "after", *ALL)
    sites = [build([SOUND, folder], base / "cache", "") for folder in folders]
    before, after = ({page.address: page.html for page in site.pages} for site in sites)
    return before, after


COMMANDS = {
    "rank skipped-stitches -f testa-1": "Hook-shaft gear cracked",
    "flow skipped-stitches -f testa-1": "Look again",
    "tree skipped-stitches -f testa-1": "Hook-shaft gear cracked",
    "plan -f testa-1 --for gear-cracked": "Altered gear",
    "plan -f testa-1 --set hook-timing": "3 mm to 4 mm: altered measure",
    "plan -f testa-1 --renew hook-gear": "parts €82 to €87",
    "coverage": "testa-1",
    "compare HEAD": "settings.hook-timing.why; now: Altered reason.",
}
"Command -> what its answer holds."


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_works_with_every_key_changed(repository: Path, monkeypatch, command: str) -> None:
    monkeypatch.chdir(repository)
    folders = ["--content", "sound", "--content", "over"]
    told = CliRunner().invoke(main, [*command.split(), *folders], catch_exceptions=False)
    assert told.exit_code == 0, told.output
    assert COMMANDS[command] in told.output


@pytest.fixture(scope="module")
def repository(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A git repository whose last commit has none of the changes and whose files have all."""
    base = tmp_path_factory.mktemp("repository")
    shutil.copytree(SOUND, base / "sound")
    by_family(base / "over")
    for arguments in (["init", "-q"], ["add", "."], ["-c", "user.name=t", "-c", "user.email=t@example.org", "commit", "-qm", "x"]):
        subprocess.run(["git", *arguments], cwd=base, check=True, capture_output=True)
    by_family(base / "over", *ALL)
    return base
