"""`coverage`: what the records tell apart, what they do not, and what they leave open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import fsum
from pathlib import Path

import click

from generator.analysis.coverage import MINUTES, MissingCheck
from generator.bench.coverage import SIZES, WORTH, Alike, Coverage, PairCoverage, Pairs, gap
from generator.bench.coverage import coverage as covered
from generator.bench.gaps import KINDS, Gap, Gaps
from generator.commands import common
from generator.commands.folders import content_option

SHOWN = 12
"Rows of a table in the text; `--json` has all."


@click.command()
@click.option("-f", "--family", metavar="FAMILY", help="One machine family, by its id; all of them without it.")
@common.json_option
@content_option
def coverage(family: str | None, as_json: bool, folders: Sequence[Path]) -> None:
    """Say what the checks tell apart, which check is missing most, and what the records leave open."""
    bench = common.open_bench(folders)
    chosen = (common.view_of(bench, family).id,) if family else ()
    pairs = Pairs(bench)
    found, left_open = covered(bench, chosen, pairs), Gaps(bench, pairs).of(chosen)
    if as_json:
        common.print_json(_json(found, left_open))
    else:
        click.echo("\n".join(_lines(found, left_open)))


def _json(found: Coverage, left_open: Sequence[Gap]) -> dict[str, object]:
    return {
        "isolated": {
            "overall": _isolated(found),
            "families": {f: _isolated(found.of(f)) for f in found.families},
        },
        "groups": [_group(pair, alike) for pair, alike in found.alike],
        "missing": [{**_where(pair), **_check(check)} for pair, check in found.missing],
        "gaps": [
            {
                "kind": g.kind,
                "family": g.family,
                "symptom": g.symptom,
                "record": g.record,
                "record_kind": g.record_kind,
            }
            for g in left_open
        ],
        "orders": [_order(pair) for pair in found.pairs],
    }


def _isolated(found: Coverage | PairCoverage) -> dict[str, object]:
    return {
        "causes": {str(n): found.isolated(n) for n in SIZES},
        "remedies": {str(n): found.isolated_to_remedies(n) for n in SIZES},
        "named": found.named,
    }


def _where(pair: PairCoverage) -> dict[str, str]:
    return {"family": pair.complaint.view.id, "symptom": pair.complaint.symptom_id}


def _group(pair: PairCoverage, alike: Alike) -> dict[str, object]:
    return {
        **_where(pair),
        "why": alike.why,
        "causes": [h.id for h in alike.hypotheses],
        "remedies": list(alike.remedies),
        "weight": alike.weight,
        "best_check": _check(alike.best_check),
    }


def _check(check: MissingCheck) -> dict[str, object]:
    return {
        "split": [list(check.shows), list(check.others)],
        "saves_minutes": check.saves_minutes,
        "exact": check.exact,
        "all_splits": check.all_splits,
    }


def _order(pair: PairCoverage) -> dict[str, object]:
    order = pair.diagnosed.order
    return {
        **_where(pair),
        "isolated": _isolated(pair),
        "expected_minutes": order.expected_minutes,
        "caution_minutes": pair.diagnosed.caution_minutes,
        "exact": order.exact,
        "lower_bound": order.lower_bound,
        "record_order_minutes": pair.diagnosed.record_order_minutes,
        "ratio_order_minutes": pair.diagnosed.ratio_order_minutes,
    }


def _lines(found: Coverage, left_open: Sequence[Gap]) -> Iterator[str]:
    if not found.pairs:
        yield "No family has a symptom yet."
    else:
        yield from _isolated_lines(found)
        yield from _order_lines(found)
        yield from _alike_lines(found)
        yield from _missing_lines(found)
    yield from _gap_lines(left_open)


def _isolated_lines(found: Coverage) -> Iterator[str]:
    yield f"Isolated, of {len(found.pairs)} complaints weighted by how often each is met"
    yield f"{'':24}{'to causes':^24}{'to remedies':^24}{'named by'}"
    yield f"{'':24}{'1':>8}{'2':>8}{'3':>8}{'1':>8}{'2':>8}{'3':>8}{'a check':>8}"
    for name, part in (("all", found), *((f, found.of(f)) for f in found.families)):
        values = [*map(part.isolated, SIZES), *map(part.isolated_to_remedies, SIZES), part.named]
        yield f"{name:24}" + "".join(f"{v:8.1%}" for v in values)


def _order_lines(found: Coverage) -> Iterator[str]:
    proved = sum(p.diagnosed.order.exact for p in found.pairs)
    ours, record, ratio = (fsum(values) for values in zip(*map(_three, found.pairs), strict=False))
    yield ""
    yield f"Order of checks: {proved} of {len(found.pairs)} proved the best."
    for pair in found.not_proved[:1]:
        yield f"Elsewhere at most {gap(pair):.1f} min above the lower bound ({_name(pair)})."
    yield f"Added up: {ours:.0f} min; as the records stand {record:.0f}; likeliest for its cost first {ratio:.0f}."
    caution = fsum(p.diagnosed.caution_minutes for p in found.pairs) / len(found.pairs)
    yield f"A sign before every dear remedy: {caution:+.2f} min a job, counted in."
    yield f"{'saves, min':>12}{'':4}against the records' order, and against likeliest for its cost"
    for pair in sorted(found.pairs, key=lambda p: -_saved(p)[0])[:SHOWN]:
        yield "{:6.1f}{:6.1f}    ".format(*_saved(pair)) + _name(pair)


def _three(pair: PairCoverage) -> tuple[float, float, float]:
    diagnosed = pair.diagnosed
    return diagnosed.order.expected_minutes, diagnosed.record_order_minutes, diagnosed.ratio_order_minutes


def _saved(pair: PairCoverage) -> tuple[float, float]:
    ours, record, ratio = _three(pair)
    return record - ours, ratio - ours


def _name(pair: PairCoverage) -> str:
    return f"{pair.complaint.view.id} {pair.complaint.symptom_id}"


def _alike_lines(found: Coverage) -> Iterator[str]:
    yield ""
    yield f"Not told apart, with more than one remedy: {len(found.alike)}"
    for pair, alike in found.alike[:SHOWN]:
        yield f"{alike.weight:7.1%}  {_name(pair)}: {', '.join(h.id for h in alike.hypotheses)} ({alike.why})"
        yield f"         {_saving(alike.best_check)}"


def _missing_lines(found: Coverage) -> Iterator[str]:
    yield ""
    yield f"The check that each complaint lacks most ({MINUTES:g} min, nothing to open, never wrong)"
    for pair, check in found.missing[:SHOWN]:
        yield f"  {_name(pair)}: {_saving(check)}"


def _saving(check: MissingCheck) -> str:
    if check.saves_minutes < WORTH:
        return f"no check of {MINUTES:g} min would save anything: trying is as quick"
    more = f" and {len(check.shows) - 3} more" if len(check.shows) > 3 else ""
    sure = "" if check.exact else "at least "
    return f"one that shows {', '.join(check.shows[:3])}{more} saves {sure}{check.saves_minutes:.1f} min"


def _gap_lines(left_open: Sequence[Gap]) -> Iterator[str]:
    yield ""
    yield f"Gaps: {len(left_open)}"
    for kind, title in KINDS.items():
        found = [_gap(g) for g in left_open if g.kind == kind]
        more = f" and {len(found) - SHOWN} more" if len(found) > SHOWN else ""
        if found:
            yield f"{len(found):5}  {title}: {', '.join(found[:SHOWN])}{more}"


def _gap(found: Gap) -> str:
    where = " ".join(w for w in (found.family, found.symptom) if w and w != found.record)
    return f"{found.record} ({where})" if where else found.record
