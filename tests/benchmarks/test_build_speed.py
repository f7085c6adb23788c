"""What building a made library takes, beside MkDocs with the same theme and the same words as plain Markdown.

Three builds of ours: from nothing; with the orders of checks kept and nothing else; and once more with nothing changed.
Beside them, in the same run, MkDocs with its search and with our hubs in the navigation. Its pages have our words and
links, without drawings, forms and scripts. What is compared is time of the processor, of all processes: it says the
same on a busy machine. The long one, with 1,000 families, takes hours: `make benchmarks LARGE=1`.
"""

from __future__ import annotations

from tests.benchmarks.conftest import Sites
from tests.benchmarks.figures import Figures

OF_MKDOCS = 0.30
"The part of MkDocs' time that a build may take."
LINEAR = 1.15
"Time a page in a large book, over time a page in a small one."
MEMORY = 1536
"MiB."


FEW, MANY, LARGE = 25, 100, 1000
"Families of the books compared."


def test_a_build_beside_mkdocs_alone(made_sites: Sites, figures: Figures, large: bool) -> None:
    site = made_sites(LARGE if large else MANY)
    built = {"from nothing": site.from_nothing, "orders kept": site.orders_kept, "nothing changed": site.again}
    of, plain = f"{site.families} families, {site.pages:,} pages", site.plain
    for name, spent in {**built, "MkDocs alone": plain}.items():
        figures.add(f"{of}: {name}, of the processor", spent.processor, "s")
        figures.add(f"{of}: {name}, by the clock", spent.wall, "s")
        figures.add(f"{of}: {name}, memory", spent.peak, "MiB", MEMORY if name in built else None)
    for name in ("from nothing", "orders kept"):
        figures.add(f"{of}: {name}, of MkDocs' time", built[name].processor / plain.processor, "times", OF_MKDOCS)


def test_time_a_page_in_a_small_and_in_a_large_book(made_sites: Sites, figures: Figures, large: bool) -> None:
    few, many = (MANY, LARGE) if large else (FEW, MANY)
    small, big = made_sites(few), made_sites(many)
    for name, one, other in (
        ("from nothing", small.from_nothing, big.from_nothing),
        ("orders kept", small.orders_kept, big.orders_kept),
    ):
        growth = (other.processor / big.pages) / (one.processor / small.pages)
        figures.add(f"a page among {many} families over one among {few}, {name}", growth, "times", LINEAR)
