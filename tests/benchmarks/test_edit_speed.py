"""What a build takes after one record was edited, over a build from nothing; and how soon the preview shows the record.

Edits of a text or of a number, in a record of each kind, as a fixed draw gives them, on the real content and on a made
library. After each the record is put back, and the site built again: both builds count. What is compared is time of the
processor.
"""

from __future__ import annotations

import re
import shutil
import time
from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from generator.preview import Preview
from tests.benchmarks.conftest import Sites
from tests.benchmarks.figures import Figures
from tests.benchmarks.made_library import CONTENT
from tests.benchmarks.made_sites import MadeSite
from tests.benchmarks.measured import measured

PART, SHOWN = 0.10, 1.0
"Of a build from nothing; seconds by the clock."
KINDS = ("failure-modes", "checks", "symptoms", "assemblies", "families", "techniques", "fasteners")
EACH, MANY, SEED = 2, 100, 1117
_TEXT = re.compile(r"^(?:  )?(?:title|how|summary|means|tell|expect|text|use_when|note): [A-Za-z]", re.M)
_NUMBER = re.compile(r"^(?:  )?(?:minutes|seen|trust): \d", re.M)


def _edits(content: Path, chance: Random) -> Iterator[tuple[Path, str]]:
    """A record's file, and what stands in it after the edit."""
    for kind in KINDS:
        for path in chance.sample(sorted((content / kind).iterdir()), EACH):
            words = path.read_text(encoding="utf-8")
            found = [*_TEXT.finditer(words), *_NUMBER.finditer(words)]
            if found:
                end = chance.choice(found).end()
                yield path, f"{words[: end - 1]}{'1' if words[end - 1].isdigit() else 'So '}{words[end - 1 :]}"


@pytest.fixture(scope="module")
def real(tmp_path_factory: pytest.TempPathFactory) -> MadeSite:
    """The real content, in a project of its own."""
    project = tmp_path_factory.mktemp("real")
    shutil.copytree(CONTENT, project / "content")
    return MadeSite(project, 0, quiet=True, given=True)


def test_a_build_after_an_edit_of_the_real_content(real: MadeSite, figures: Figures) -> None:
    _after_edits(real, figures)


def test_a_build_after_an_edit_of_a_large_book(made_sites: Sites, figures: Figures) -> None:
    _after_edits(made_sites(MANY), figures)


def _after_edits(site: MadeSite, figures: Figures) -> None:
    whole, chance = site.from_nothing.processor, Random(SEED)
    figures.add(f"{site.pages:,} pages: nothing changed, over a build from nothing", site.again.processor / whole, "times")
    parts: list[float] = []
    for path, edited in _edits(site.project / "content", chance):
        before = path.read_text(encoding="utf-8")
        for words in (edited, before):
            path.write_text(words, encoding="utf-8")
            parts.append(measured(["-m", "mkdocs", "build", "--strict"], site.project).processor / whole)
        print(f"  {path.parent.name}/{path.name}: {parts[-2]:.3f} and back {parts[-1]:.3f}", flush=True)
    figures.add(f"{site.pages:,} pages: one record edited, over a build from nothing", parts, "times", PART)


def test_the_preview_shows_an_edited_record(real: MadeSite, figures: Figures) -> None:
    def config(site: Path = real.project / "shown"):  # type: ignore[no-untyped-def]
        return load_config(str(real.project / "mkdocs.yml"), site_dir=str(site))

    assert real.from_nothing
    first = config()
    first.plugins.on_startup(command="serve", dirty=False)
    build(first)
    preview = Preview(lambda: None, first.plugins["handwheel"]._built, [Path(first.docs_dir)])  # type: ignore[attr-defined]
    preview.show_edited()
    taken = []
    for path, edited in _edits(real.project / "content", Random(SEED)):
        before = path.read_text(encoding="utf-8")
        for words in (edited, before):
            path.write_text(words, encoding="utf-8")
            start = time.perf_counter()
            preview.show_edited()
            taken.append(time.perf_counter() - start)
    figures.add("the preview, from a change seen to the record's page shown", taken, "s", SHOWN)
