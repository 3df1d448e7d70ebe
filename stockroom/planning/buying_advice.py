"""Advice on how much to order at once: price breaks, and the economic quantity where its two costs are told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stockroom.domain.orders import Offer
from stockroom.science.money import show_money
from stockroom.science.numerals import counted
from stockroom.science.order_size import best_at_breaks, in_whole_packs

NEAR = 2
"""A price break is told where it takes at most so many times the packs that are needed. A judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Economy:
    """What ordering and keeping cost the studio."""

    order_cost: int
    """Of one order, in minor units: the time it takes, the freight."""
    keeping_percent: float
    """Of the goods' price, a year: room, money bound, what goes past its date."""


def advise(
    offer: Offer, packs: int, yearly: int | None, economy: Economy | None, used: int | None = None
) -> Sequence[str]:
    """Return in words what else could be ordered of an offer, and what it would cost.

    `yearly` quanta are used a year, `used` of them before what is ordered now is past its date; None where not known.
    """
    words: list[str] = []
    least = next((least for least, _ in offer.breaks if least > packs), None)
    if least is not None and (least <= NEAR * packs or offer.cost(least) <= offer.cost(packs)):
        now, then = offer.cost(packs), offer.cost(least)
        compared = "less than" if then < now else "as much as" if then == now else "against"
        words.append(
            f"from {least} packs each costs {_each(offer, least)} instead of {_each(offer, packs)}: "
            f"{least} cost {_own(offer, then)}, {compared} {_own(offer, now)}"
        )
    if economy is not None and yearly:
        words.append(_economic(offer, yearly, economy, used))
    return words


def _economic(offer: Offer, yearly: int, economy: Economy, used: int | None) -> str:
    """Write the economic quantity, and where it is more than will be used in time.

    That no more is ordered than the use of one shelf life: Silver, Pyke and Peterson, Inventory Management and
    Production Planning and Scheduling, 3rd edition, section 5.6; from memory.
    """
    use = yearly / offer.pack_quanta
    share = economy.keeping_percent / 100
    prices = [(0.0, float(offer.in_own(offer.price)))]
    prices += [(float(least), float(offer.in_own(price))) for least, price in offer.breaks]
    if any(price <= 0 for _, price in prices):
        return "what costs nothing has no economic quantity"
    best = best_at_breaks(prices, use, economy.order_cost, share)
    plain = in_whole_packs(1.0, use, economy.order_cost, share * prices[0][1])
    at = f", at the price breaks {max(1, round(best.quantity))}" if offer.breaks else ""
    most = None if used is None else used // offer.pack_quanta
    limit = "" if most is None or most >= plain else f", but only {counted(most, 'pack')} used before their date"
    return (
        f"economic quantity {counted(plain, 'pack')}{at} (about {use:.1f} of them used a year, "
        f"{_own(offer, economy.order_cost)} an order, keeping {economy.keeping_percent:g} % a year){limit}"
    )


def _each(offer: Offer, packs: int) -> str:
    return show_money(offer.price_at(packs), offer.currency)


def _own(offer: Offer, minor: int) -> str:
    return show_money(minor, offer.own_currency)
