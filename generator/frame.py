"""What every book's site asks of MkDocs and its theme, so that a shop's mkdocs.yml need not say it."""

from __future__ import annotations

from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.theme import Theme
from pathspec.gitignore import GitIgnoreSpec

THEME = "material"
FEATURES = ("content.tooltips", "toc.follow", "navigation.sections")
RECORDS = ("*.yaml", "*.yml")
"Files of the content folder that are no pages."
PALETTE: tuple[dict[str, Any], ...] = tuple(
    {
        "media": f"(prefers-color-scheme: {wanted})",
        "scheme": scheme,
        "primary": "custom",
        "accent": "custom",
        "toggle": {"icon": f"material/weather-{icon}", "name": name},
    }
    for wanted, scheme, icon, name in (("light", "default", "night", "Dark"), ("dark", "slate", "sunny", "Light"))
)
"The toggle names what a press brings."


def settle(config: MkDocsConfig) -> None:
    """Settings that the pages rest on; a palette, a theme's folder or an extension of the shop's own stays."""
    if config.theme.name != THEME:
        config.theme = Theme(name=THEME)
    theme: Any = config.theme
    theme["font"] = False
    theme["features"] = list(dict.fromkeys((*(theme.get("features") or ()), *FEATURES)))
    if not theme.get("palette"):
        theme["palette"] = list(PALETTE)
    config.use_directory_urls = False
    config.extra["generator"] = False
    config.exclude_docs = GitIgnoreSpec.from_lines([*RECORDS, *_lines(config.exclude_docs)])
    extensions: list[Any] = config.markdown_extensions
    if "admonition" not in extensions:
        extensions.append("admonition")


def _lines(given: Any) -> list[str]:
    """The patterns that mkdocs.yml gives; those it gives later win, as in one list."""
    return [str(p.pattern) for p in given.patterns if isinstance(p.pattern, str)] if given else []
