"""What was worked out for a family, as data for other programs: orders, the dependency matrix, outcomes, fault trees."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator

from generator.analysis.policy import to_json
from generator.bench import Bench, Complaint
from generator.bench.coverage import nothing_found
from generator.diagrams.dot import dot
from generator.family_view import FamilyView
from generator.pages.data.tables import as_csv

ORDERS, MATRIX, OUTCOMES, TREES = "orders", "matrix", "outcomes", "trees"
SCHEMA = "assets/handwheel/open/orders.schema.json"
"Address of the JSON Schema that every file of orders keeps to."
_ENDS = {ORDERS: "json", MATRIX: "csv", OUTCOMES: "csv", TREES: "gv"}


def open_address(what: str, family: str) -> str:
    """Where a family's file stands, from the site's root.

    >>> open_address("orders", "tessaly-40")
    'open/orders-tessaly-40.json'
    """
    return f"open/{what}-{family}.{_ENDS[what]}"


def open_files(bench: Bench, view: FamilyView) -> Iterator[tuple[str, str]]:
    """Address and content of a family's files."""
    complaints = [bench.complaint(view, symptom) for symptom in sorted(view.symptoms)]
    yield open_address(ORDERS, view.id), _orders(bench, view, complaints)
    yield open_address(MATRIX, view.id), as_csv(_matrix(complaints))
    yield open_address(OUTCOMES, view.id), as_csv(_outcomes(view, complaints))
    yield open_address(TREES, view.id), "\n".join(dot(c.tree, c.symptom_id) for c in complaints) + "\n"


def _orders(bench: Bench, view: FamilyView, complaints: Iterable[Complaint]) -> str:
    told = {c.symptom_id: _order(bench, c) for c in complaints}
    whole = {"$schema": f"../{SCHEMA}", "family": view.id, "title": view.name, "complaints": told}
    return json.dumps(whole, ensure_ascii=False, separators=(",", ":")) + "\n"


def _order(bench: Bench, complaint: Complaint) -> dict[str, object]:
    """A complaint's causes, minutes and first step; minutes to a hundredth, shares to a millionth."""
    order = bench.diagnosed(complaint).order
    first = to_json(order.policy) or {}
    return {
        "title": complaint.title,
        "expected_minutes": round(order.expected_minutes, 2),
        "lower_bound": round(order.lower_bound, 2),
        "exact": order.exact,
        "first": {key: first[key] for key in ("check", "remedy") if key in first},
        "causes": [
            {"causes": list(h.causes), "share": round(complaint.share(h), 6), "remedy": h.remedy.id} for h in complaint.case.hypotheses
        ],
        "something_else": complaint.doubt.unlisted,
    }


def _matrix(complaints: Iterable[Complaint]) -> Iterator[tuple[object, ...]]:
    """A row for every sign that a cause shows at a check; a cause that a check finds nothing of has none there.

    What an outcome says stands once, in the table of outcomes: here it would come again in thousands of rows.
    """
    yield "symptom", "cause", "check", "outcome", "cures"
    for complaint in complaints:
        for cause in complaint.case.hypotheses:
            for check in complaint.case.checks:
                seen, outcomes = check.sees[cause.id], complaint.view.outcomes[check.id]
                if seen in check.cured or seen != nothing_found(outcomes):
                    cures = "yes" if seen in check.cured else ""
                    yield complaint.symptom_id, cause.id, check.id, seen + 1, cures


def _outcomes(view: FamilyView, complaints: Iterable[Complaint]) -> Iterator[tuple[object, ...]]:
    """A row for every outcome of the checks that the matrix names, in the family's words: check and outcome are its key."""
    yield "check", "outcome", "says"
    for check in sorted({check.id for complaint in complaints for check in complaint.case.checks}):
        for number, outcome in enumerate(view.outcomes[check], start=1):
            yield check, number, outcome.says
