"""What to reorder: brought together from shelf, bookings, open orders, past use and offers; and drafting the orders."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from stockroom.actions.order_points import choices_by_material
from stockroom.actions.planned import load_plan
from stockroom.actions.stock_standing import Known, standing_of
from stockroom.domain.occasion import Occasion
from stockroom.domain.orders import OPEN_STATES, Order, OrderLine
from stockroom.domain.studio import Supplier
from stockroom.errors import BadInput, Refused
from stockroom.planning.buying import BuyLine, plan_buying
from stockroom.planning.buying_advice import Economy
from stockroom.science.money import show_money
from stockroom.science.quantities import Dimension
from stockroom.store import orders
from stockroom.store.deliveries import last_suppliers
from stockroom.store.lots import shelf
from stockroom.store.materials import all_materials
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes
from stockroom.store.stockroom_settings import setting

WITHIN_DAYS = 28
"""How far ahead buying looks: what need not be ordered within this time waits."""


NOT_BOUGHT = frozenset({"bath", "waste"})
"""Kinds of material that come about in the studio."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyGroup:
    """What is to be bought from one supplier."""

    supplier: Supplier
    lines: tuple[BuyLine, ...]
    cost: int
    short_of_minimum: int
    """How much more an order must come to, in minor units; 0 where it need not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyList:
    """What to buy: by supplier, what is to be ordered first first; and what nobody is known to offer."""

    groups: tuple[BuyGroup, ...]
    without_offer: tuple[BuyLine, ...]
    drafted: tuple[str, ...]
    """Codes of drafts that wait to be placed; what stands on them is counted as coming."""
    troubles: tuple[str, ...] = ()

    @property
    def lines(self) -> tuple[BuyLine, ...]:
        """Every line, the most urgent first."""
        lines = [line for group in self.groups for line in group.lines] + list(self.without_offer)
        return tuple(sorted(lines, key=lambda line: (line.order_by, line.material.name)))


def what_to_buy(store: Store, local: datetime, *, within: int = WITHIN_DAYS, economy: Economy | None = None) -> BuyList:
    """Return what to order within so many days, at a local moment. Nothing is changed by it."""
    today = local.date()
    lots = shelf(store)
    coming = orders.incoming(store, OPEN_STATES)
    made = {recipe.makes for recipe in all_recipes(store)}
    planned = load_plan(store, local, lots=lots)
    choices = choices_by_material(store)
    last = last_suppliers(store)
    known = Known(lots=lots, coming=coming, plan=planned.plan, local=local, within=within)
    lines: list[BuyLine] = []
    for material in all_materials(store):
        own = choices.get(material.id, [])
        if (
            not material.metered
            or material.dimension is Dimension.USES
            or (not own and (material.key in made or material.kind in NOT_BOUGHT))
        ):
            continue
        line = plan_buying(standing_of(store, material, known, own), own, today, economy)
        if line is None or line.order_by > today + timedelta(days=within):
            continue
        if line.choice is None and material.id in last:
            line = replace(line, advice=(*line.advice, f"it last came from {last[material.id].name}"))
        lines.append(line)
    return BuyList(
        groups=tuple(_groups(lines)),
        without_offer=tuple(line for line in lines if line.choice is None),
        drafted=tuple(dict.fromkeys(one.order for one in coming if one.state == "drafted")),
        troubles=tuple(planned.plan.troubles),
    )


def order_lines(
    store: Store, occasion: Occasion, *, within: int = WITHIN_DAYS, economy: Economy | None = None
) -> tuple[BuyList, tuple[Order, ...]]:
    """Draft an order to each supplier of what is to be bought, all or none; return what was and the drafts.

    Raises Refused where nothing is to be bought, or nobody is known to offer it.
    """
    with store.write():
        wanted = what_to_buy(store, occasion.local, within=within, economy=economy)
        if not wanted.groups:
            hint = f" {', '.join(wanted.drafted)} waits to be placed." if wanted.drafted else ""
            lacking = " Nobody is known to offer what lacks." if wanted.without_offer else ""
            raise Refused(f"There is nothing to order within {within} days.{lacking}{hint}")
        codes = []
        for group in wanted.groups:
            code = orders.insert_order(store, group.supplier.id, None, occasion.day.isoformat())
            lines = [
                OrderLine(position=0, offer=line.offer, packs=line.packs, price=line.offer.price_at(line.packs))
                for line in group.lines
                if line.offer is not None and line.packs is not None
            ]
            orders.set_lines(store, orders.find_order(store, code).id, lines)
            codes.append(code)
    return wanted, tuple(orders.find_order(store, code) for code in codes)


def read_economy(order_cost: int | None, keeping_percent: float | None) -> Economy | None:
    """Return the two costs of the economic quantity, or None where neither is told. Raises BadInput for only one."""
    if order_cost is None and keeping_percent is None:
        return None
    if not order_cost or not keeping_percent or keeping_percent <= 0:
        raise BadInput("The economic quantity takes both: what an order costs, and what keeping costs in % a year.")
    return Economy(order_cost=order_cost, keeping_percent=keeping_percent)


def minimum_words(store: Store, group: BuyGroup) -> str | None:
    """Say how much an order to a supplier falls short of its least order."""
    if not group.short_of_minimum:
        return None
    currency = setting(store, "currency")
    least = show_money(group.supplier.minimum_order or 0, currency)
    return f"{group.supplier.name} delivers from {least} on: {show_money(group.short_of_minimum, currency)} more"


def _groups(lines: Sequence[BuyLine]) -> list[BuyGroup]:
    by_supplier: dict[int, tuple[Supplier, list[BuyLine]]] = {}
    for line in sorted(lines, key=lambda line: (line.order_by, line.material.name)):
        if line.offer is not None:
            by_supplier.setdefault(line.offer.supplier.id, (line.offer.supplier, []))[1].append(line)
    groups = []
    for supplier, own in by_supplier.values():
        cost = sum(line.cost or 0 for line in own)
        short = max(0, (supplier.minimum_order or 0) - cost)
        groups.append(BuyGroup(supplier=supplier, lines=tuple(own), cost=cost, short_of_minimum=short))
    return groups
