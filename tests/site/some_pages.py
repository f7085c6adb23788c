"""A site of a few pages with the real theme, styles and scripts: quicker to have than the whole."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from generator import site_build
from generator.pages.page import PageText

ROOT = Path(__file__).parent.parent.parent


def build_pages(folder: Path, pages: Iterable[PageText], data: Mapping[str, str]) -> Path:
    """Builds the pages and data files into `folder`/site."""
    site = site_build.Site(tuple(pages), data)
    (folder / "content").mkdir(parents=True)
    config = load_config(
        str(ROOT / "mkdocs.yml"), docs_dir=str(folder / "content"), site_dir=str(folder / "site"), strict=False
    )
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(site_build, "build", lambda *_: site)
        config.plugins.on_startup(command="build", dirty=False)
        build(config)
    return folder / "site"
