"""What the knowledge tells apart and what it leaves open: a hub, and a page of matrices for each family."""

from __future__ import annotations

from math import fsum

from generator.analysis.coverage import MINUTES, MissingCheck
from generator.bench.coverage import (
    SIZES,
    WORTH,
    Alike,
    Coverage,
    PairCoverage,
    Pairs,
    coverage,
    gap,
)
from generator.bench.gaps import KINDS, Gap, Gaps
from generator.family_view import FamilyView
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.pages.piece import Piece
from generator.pages.records.coverage_matrix import matrix_view
from generator.records.model import Shop
from generator.wording import words
from generator.wording.links import Links

HUB = "coverage.html"
NAMED = 4
"Causes named before the rest is only counted."


def piece(maker: Maker) -> Piece:
    """The hub, then one page a family."""
    families = {_address(view.id): (view.id,) for view in maker.library.views if view.symptoms}
    pairs = Pairs(maker.bench)
    left_open = Gaps(maker.bench, pairs)

    def page(of: tuple[str, ...]) -> PageText:
        found = coverage(maker.bench, of, pairs)
        return _family_page(maker, found) if of else _hub(maker, found, left_open.of())

    return maker.each({HUB: (), **families}, lambda _: page)


def _address(family: str) -> str:
    return f"coverage/{family}.html"


def _hub(maker: Maker, found: Coverage, left_open: tuple[Gap, ...]) -> PageText:
    link = Links(maker.library, HUB)
    return maker.page(
        HUB,
        "Coverage",
        "coverage.html",
        pairs=len(found.pairs),
        sizes=SIZES,
        remedies_said=_fraction(found.isolated_to_remedies(1)),
        causes_said=_fraction(found.isolated(1)),
        rows=_rows(link, found),
        order=_order(found, maker.records.shop),
        orders=[_pair_order(link, pair) for pair in sorted(found.pairs, key=_saved, reverse=True)],
        alike=[_alike(link, pair, alike) for pair, alike in found.alike],
        missing=[{**_where(link, pair), **_missing(pair, check)} for pair, check in found.missing],
        minutes=MINUTES,
        gaps=_gaps(maker, link, left_open),
        description="What the checks tell apart, what they do not, and what the records leave open.",
    )


def _fraction(value: float) -> str:
    """A fraction as it is read; it says all only where it is all."""
    return "over 99 %" if 0.995 <= value < 1 - 1e-9 else words.percent(value)


def _rows(link: Links, found: Coverage) -> list[dict[str, object]]:
    """All machines, then each family."""
    rows = [_row("All machines", "", found)]
    for family in found.families:
        part = found.of(family)
        rows.append(_row(part.pairs[0].complaint.view.name, link.to(_address(family)), part))
    return rows


def _row(title: str, href: str, found: Coverage) -> dict[str, object]:
    return {
        "title": title,
        "href": href,
        "shares": [_fraction(share(n)) for share in (found.isolated_to_remedies, found.isolated) for n in SIZES],
        "named": _fraction(found.named),
    }


def _order(found: Coverage, shop: Shop) -> dict[str, object]:
    """The orders of all complaints together."""
    worst = found.not_proved[0] if found.not_proved else None
    diagnosed = [p.diagnosed for p in found.pairs]
    return {
        "proved": sum(d.order.exact for d in diagnosed),
        "gap": words.minutes(gap(worst)) if worst else "",
        "ours": words.minutes(fsum(d.order.expected_minutes for d in diagnosed)),
        "record": words.minutes(fsum(d.record_order_minutes for d in diagnosed)),
        "ratio": words.minutes(fsum(d.ratio_order_minutes for d in diagnosed)),
        "caution": words.signed_minutes(fsum(d.caution_minutes for d in diagnosed) / max(1, len(diagnosed))),
        "caution_most": words.signed_minutes(max((d.caution_minutes for d in diagnosed), default=0.0)),
        "dear_minutes": words.minutes(shop.dear_minutes),
        "dear_price": f"{shop.currency} {shop.dear_price:g}",
    }


def _saved(pair: PairCoverage) -> float:
    return pair.diagnosed.record_order_minutes - pair.diagnosed.order.expected_minutes


def _pair_order(link: Links, pair: PairCoverage) -> dict[str, object]:
    order = pair.diagnosed.order
    return {
        **_where(link, pair),
        "ours": words.minutes(order.expected_minutes),
        "record": words.minutes(pair.diagnosed.record_order_minutes),
        "ratio": words.minutes(pair.diagnosed.ratio_order_minutes),
        "caution": words.signed_minutes(pair.diagnosed.caution_minutes),
        "proved": "proved the best" if order.exact else f"at least {words.minutes(order.lower_bound)}",
    }


def _where(link: Links, pair: PairCoverage) -> dict[str, str]:
    """The complaint with its bench page."""
    complaint = pair.complaint
    return {
        "href": link("bench", complaint.symptom_id, complaint.view.id),
        "title": f"{complaint.title}: {complaint.view.name}",
    }


def _alike(link: Links, pair: PairCoverage, alike: Alike) -> dict[str, object]:
    return {
        **_where(link, pair),
        "why": alike.why,
        "weight": words.percent(alike.weight),
        "causes": [_cause(pair, h.id) for h in alike.hypotheses],
        "remedies": len(alike.remedies),
        **_missing(pair, alike.best_check),
    }


def _missing(pair: PairCoverage, check: MissingCheck) -> dict[str, object]:
    """What a check would have to show, and what it saves."""
    shows = [_cause(pair, h) for h in check.shows]
    more = len(shows) - NAMED
    return {
        "shows": words.listed(shows[:NAMED] + ([f"{more} more"] if more > 0 else [])),
        "saves": f"{check.saves_minutes:.1f} min" if check.saves_minutes >= WORTH else "",
        "sure": "" if check.exact else "at least",
    }


def _cause(pair: PairCoverage, hypothesis: str) -> str:
    modes = (pair.complaint.view.title("failure-mode", m) for m in hypothesis.split("+"))
    return " with ".join(modes)


def _gaps(maker: Maker, link: Links, found: tuple[Gap, ...]) -> list[dict[str, object]]:
    """Gaps by kind: each record once, with the machines where it stands."""
    groups = []
    for kind, title in KINDS.items():
        of_kind = [g for g in found if g.kind == kind]
        records = sorted({(_title(link, g), g.record_kind, g.record) for g in of_kind})
        entries = [_entry(maker, link, named, [g for g in of_kind if g.record == r]) for named, _, r in records]
        if entries:
            groups.append({"id": kind, "title": title, "count": len(of_kind), "entries": entries})
    return groups


def _title(link: Links, found: Gap) -> str:
    if found.record_kind == "joint":
        return words.spaced(found.record).capitalize()
    return " with ".join(link.title(found.record_kind, r) for r in found.record.split("+"))


def _entry(maker: Maker, link: Links, title: str, gaps_of_record: list[Gap]) -> dict[str, object]:
    first = gaps_of_record[0]
    views = [maker.library.for_family(g.family) for g in gaps_of_record if g.family]
    where = words.listed(list(dict.fromkeys(v.name for v in views)))
    return {"title": title, "href": _href(link, first, views), "where": where}


def _href(link: Links, found: Gap, views: list[FamilyView]) -> str:
    """Where the record stands; a joint is listed on the family's fastener chart."""
    if found.record_kind == "joint":
        return link("fasteners", views[0].id)
    home = views[0].home_of.get(found.record, "") if views else ""
    return link(found.record_kind, found.record.split("+")[0], home)


def _family_page(maker: Maker, found: Coverage) -> PageText:
    view = found.pairs[0].complaint.view
    address = _address(view.id)
    link = Links(maker.library, address)
    return maker.page(
        address,
        f"Coverage: {view.name}",
        "coverage-family.html",
        of=view,
        family=view.family,
        hub=link.to(HUB),
        matrices=[_matrix(link, pair) for pair in found.pairs],
        description=f"Which check tells which cause on {view.name}.",
    )


def _matrix(link: Links, pair: PairCoverage) -> dict[str, object]:
    complaint = pair.complaint
    return {
        "id": complaint.symptom_id,
        "title": complaint.title,
        "href": link("bench", complaint.symptom_id, complaint.view.id),
        "one": _fraction(pair.isolated(1)),
        "one_remedy": _fraction(pair.isolated_to_remedies(1)),
        **matrix_view(pair, link),
    }
