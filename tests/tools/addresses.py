"""Adds the addresses of a built site to those kept: `python -m tests.tools.addresses site`."""

from __future__ import annotations

import sys
from pathlib import Path

from generator.published import NAME, as_text, published

_NEVER_LINKED = "404.html"


def pages_of(site: Path) -> set[str]:
    """The addresses of the site's pages."""
    return {path.relative_to(site).as_posix() for path in site.rglob("*.html")} - {_NEVER_LINKED}


if __name__ == "__main__":
    Path("content", NAME).write_text(as_text({*published(Path("content")), *pages_of(Path(sys.argv[1]))}), encoding="utf-8")
