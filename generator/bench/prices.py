"""What a part costs in the shop."""

from __future__ import annotations

from fractions import Fraction

from generator.records.model import Part, Shop, price_band


def price(part: Part, shop: Shop) -> tuple[Fraction, Fraction] | None:
    """Low and high, by the shop's own list before the assembly's; None where neither says."""
    written = shop.prices.get(part.id, part.price)
    return price_band(written) if written else None


def dear_part(part: Part, shop: Shop) -> bool:
    """Whether its price may reach the shop's line, from which a sign must be seen before it is renewed."""
    band = price(part, shop)
    return band is not None and band[1] >= shop.dear_price
