"""Sites of made libraries, built with everything measured, once each in a run."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from tests.benchmarks.made_library import write
from tests.benchmarks.measured import ROOT, Spent, measured
from tests.benchmarks.plain_site import write_plain

_ORDERS = ("order-", "certain-", "missing-")
"How files of kept orders, and of what is worked out like them, begin."


@dataclass(frozen=True)
class MadeSite:
    """A made library with its site. What is asked for is built, in the order in which it is asked for."""

    project: Path
    families: int
    quiet: bool
    given: bool = False
    "Whether the records are there already."

    @property
    def site(self) -> Path:
        """The folder of the built site."""
        assert self.from_nothing
        return self.project / "site"

    @cached_property
    def pages(self) -> int:
        """Pages of the site."""
        return sum(1 for _ in self.site.rglob("*.html"))

    @cached_property
    def from_nothing(self) -> Spent:
        """The first build, with no site and nothing kept."""
        if not self.given:
            print(f"\n{self.families} families are made ...", flush=True)
            write(self.project / "content", self.families)
        shutil.copy(ROOT / "mkdocs.yml", self.project)
        return self._build("from nothing")

    @cached_property
    def orders_kept(self) -> Spent:
        """A build with no site and no records kept, but the orders of checks."""
        shutil.rmtree(self.site)
        for path in (self.project / ".cache" / "handwheel").iterdir():
            if not path.name.startswith(_ORDERS):
                shutil.rmtree(path) if path.is_dir() else path.unlink()
        return self._build("with orders kept")

    @cached_property
    def again(self) -> Spent:
        """A build after which nothing is another than it was."""
        assert self.from_nothing
        return self._build("with nothing changed")

    @cached_property
    def plain(self) -> Spent:
        """The same words by MkDocs and the theme alone."""
        words = write_plain(self.site, self.project / "plain")
        print(f"{self.families} families by MkDocs alone, {words:,} words ...", flush=True)
        spent = measured(["-m", "mkdocs", "build"], self.project / "plain", self.quiet)
        made = sum(1 for _ in (self.project / "plain" / "site").rglob("*.html"))
        assert abs(made - self.pages) <= 1, "the two sites have the same pages"
        return spent

    def _build(self, how: str) -> Spent:
        print(f"{self.families or 'The real'} families {how} ...", flush=True)
        return measured(["-m", "mkdocs", "build", "--strict"], self.project, self.quiet)
