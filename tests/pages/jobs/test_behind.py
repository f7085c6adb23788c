"""The picture of a way in has the fewest lines that say what lies behind what."""

from __future__ import annotations

import networkx as nx

from generator.bench import Bench
from generator.pages.jobs.behind import nearest


def test_lines_are_the_transitive_reduction(published: Bench) -> None:
    for view in published.library.views:
        off = {part: number for number, part in enumerate(view.parts, 1)}
        whole = nx.DiGraph((off[front], off[part]) for part in off for front in view.parts[part].behind)
        least = set(nx.transitive_reduction(whole).edges)
        assert {(front, off[part]) for part in off for front in nearest(view, part, off)} == least
