"""The dependency matrix of one complaint as a compact table."""

from __future__ import annotations

from generator.analysis.coverage import Group
from generator.bench.coverage import PairCoverage, nothing_found
from generator.wording.links import Links

NOTHING = ""
"A cause that a check does not name; the style sheet shows a dot."


def matrix_view(pair: PairCoverage, link: Links) -> dict[str, object]:
    """Checks as numbered columns, causes as rows, outcomes as numbers from 1; groups stay together."""
    complaint = pair.complaint
    checks = [
        {"title": link.title("check", c.id), "href": link("check", c.id)} for c in complaint.case.checks
    ]
    rows = [
        {"modes": _modes(h.causes, link), "alike": _alike(group), "cells": _cells(pair, h.id)}
        for group in pair.groups
        for h in group.hypotheses
    ]
    return {"checks": checks, "rows": rows}


def _alike(group: Group) -> str:
    """What stands under a cause that no check tells from another."""
    if group.size == 1:
        return ""
    remedies = "one remedy" if group.remedy_size == 1 else f"{group.remedy_size} remedies"
    return f"one of {group.size} that look alike, {remedies}"


def _modes(causes: tuple[str, ...], link: Links) -> list[dict[str, str]]:
    return [{"title": link.title("failure-mode", m), "href": link("failure-mode", m)} for m in causes]


def _cells(pair: PairCoverage, hypothesis: str) -> list[str]:
    """The number of each outcome as the bench page counts them; cures are marked."""
    outcomes = pair.complaint.view.outcomes
    cells = []
    for check in pair.complaint.case.checks:
        seen = check.sees[hypothesis]
        if seen in check.cured:
            cells.append(f"{seen + 1}*")
        else:
            cells.append(NOTHING if seen == nothing_found(outcomes[check.id]) else str(seen + 1))
    return cells
