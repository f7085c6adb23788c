"""What every book's site asks of MkDocs and its theme, so that a shop's mkdocs.yml need not say it."""

from __future__ import annotations

from collections.abc import Iterable
from fnmatch import fnmatch
from pathlib import Path
from typing import Any

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files
from mkdocs.theme import Theme
from pathspec.gitignore import GitIgnoreSpec

from generator.frame_of_page import FEATURES, SCRIPT

THEME = "material"
RECORDS = ("*.yaml", "*.yml", "addresses.txt", "/pictures/")
"Files of the content folder that are no pages."
PALETTE: tuple[dict[str, Any], ...] = tuple(
    {
        "media": f"(prefers-color-scheme: {wanted})",
        "scheme": scheme,
        "primary": "custom",
        "accent": "custom",
        "toggle": {"name": name},
    }
    for wanted, scheme, name in (("light", "default", "Dark"), ("dark", "slate", "Light"))
)
"The toggle names what a press brings; js/frame/palette.js lays it."
_SEARCH = ("assets/javascripts/lunr/", "assets/javascripts/workers/")
CONTENT_POLICY = ";".join(
    (
        "default-src 'none'",
        "script-src 'self' file:",
        "style-src 'self' file:",
        "img-src 'self' file: data:",
        "font-src 'self' file: data:",
        "connect-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
    )
)
"""What a page may load and run: files of this site, and pictures and type that its style sheets hold as data.

Nothing written into a page runs or dresses it, whatever a record says. From disk a browser may not know the site as
`self`, hence `file:`, which no page from a host can load. A worker goes by what is said of scripts: CSP Level 3, 6.8.3.
"""
BOOK = "book.css"
"The style sheet that every page asks for."
COMMON = "common.js"
"The script that every page asks for."
_SHEETS = ("assets/stylesheets/main.*.css", "assets/stylesheets/palette.*.css")
_SCRIPTS = ("assets/javascripts/bundle.*.js",)
"Of the theme; no page asks for them one by one."
_NO_DAY = "1980-01-01"
"Where a date must be: the first day that every kind of archive knows."


def settle(config: MkDocsConfig) -> None:
    """Settings that the pages rest on; a palette, a theme's folder or an extension of the shop's own stays."""
    if config.theme.name != THEME:
        config.theme = Theme(name=THEME)
    theme: Any = config.theme
    theme["font"] = False
    theme["features"] = list(dict.fromkeys((*(theme.get("features") or ()), *FEATURES)))
    if not theme.get("palette"):
        theme["palette"] = list(PALETTE)
    theme.static_templates.add(SCRIPT)
    config.use_directory_urls = False
    config.extra["generator"] = False
    config.exclude_docs = GitIgnoreSpec.from_lines([*RECORDS, *_lines(config.exclude_docs)])
    extensions: list[Any] = config.markdown_extensions
    if "admonition" not in extensions:
        extensions.append("admonition")
    config.mdx_configs.setdefault("tables", {"use_align_attribute": True})


def _lines(given: Any) -> list[str]:
    """The patterns that mkdocs.yml gives; those it gives later win, as in one list."""
    return [str(p.pattern) for p in given.patterns if isinstance(p.pattern, str)] if given else []


def leave_out_what_is_not_used(files: Files, config: MkDocsConfig) -> None:
    """The theme's search and the maps of its scripts, some 2 MB: the finder is ours, and nobody mends the theme here.

    Its style sheets and its script stand in the book's.
    """
    searched = any("search" in plugin for plugin in config.plugins)
    for file in list(files):
        not_searched = not searched and (file.src_uri.startswith(_SEARCH) or file.src_uri.endswith(".map"))
        if not_searched or any(fnmatch(file.src_uri, name) for name in (*_SHEETS, *_SCRIPTS)):
            files.remove(file)


def one_sheet(folder: Path, theme: Theme) -> str:
    """The theme's style sheets, then ours by name: every page names each that it asks for, and a phone waits for each."""
    return joined([*_of_theme(theme, _SHEETS), *sorted(folder.glob("*.css"))])


def one_script(folder: Path, theme: Theme) -> str:
    """The theme's script, then ours of all pages by name, for the same reason."""
    return joined([*_of_theme(theme, _SCRIPTS), *sorted(folder.glob("*.js"))])


def joined(paths: Iterable[Path]) -> str:
    """Files in one, in their order."""
    return "".join(path.read_text(encoding="utf-8") for path in paths)


def _of_theme(theme: Theme, names: Iterable[str]) -> list[Path]:
    return [path for name in names for at in theme.dirs for path in sorted(Path(at).glob(name))]


def without_dates(files: Files) -> None:
    """The same records give the same bytes on any day: MkDocs would date every page, and what it packs, with today."""
    for file in files.documentation_pages():  # there always are some: what tells of this copy of the book is made every time
        if file.page:
            file.page.update_date = _NO_DAY


def list_pages(env: Environment, files: Files) -> None:
    """Give the map of the site every page, those too that are taken over as they stand; by address, whichever was made anew."""
    env.globals["all_pages"] = [file.page for file in sorted(files, key=lambda file: file.dest_uri) if file.page]


def guard(env: Environment) -> None:
    """Have every page refuse what it should not load. A live preview goes without: it is told of changes by a script in its pages."""
    env.globals["content_policy"] = CONTENT_POLICY
