"""An order on paper, with its sums and the tax apart."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from decimal import Decimal

from stockroom.domain.orders import Order
from stockroom.domain.papers import Column, Lines, Paper, Rows
from stockroom.science.money import money_text, show_money
from stockroom.science.quantities import amount_text
from stockroom.science.sharing import round_half_even_ratio
from stockroom.store.edits import edits_of
from stockroom.store.open import Store
from stockroom.store.orders import find_order
from stockroom.store.stockroom_settings import setting
from stockroom.store.studio import find_person

_COLUMNS = (
    Column(title="Line", share=0.9, right=True),
    Column(title="Number", share=1.8),
    Column(title="Goods", share=4),
    Column(title="Packs", share=1, right=True),
    Column(title="Pack", share=1.6),
    Column(title="Price", share=1.8, right=True),
    Column(title="Sum", share=1.8, right=True),
)
RECORD = (
    "order", "supplier", "line", "catalogue_number", "material", "name", "packs", "pack", "amount", "unit", "price",
    "sum", "currency", "tax_percent",
)  # fmt: skip
"""The columns for a spreadsheet."""


def order_paper(store: Store, code: str) -> Paper:
    """Return an order as a sheet to send. Sums stand in the currency of the offers, tax by rate."""
    order = find_order(store, code)
    by = _placed_by(store, order)
    lines = Rows(
        columns=_COLUMNS,
        rows=tuple(
            (
                str(line.position),
                line.offer.catalogue_number or "",
                ", ".join(filter(None, (line.offer.material.name, line.offer.material.grade))),
                str(line.packs),
                line.offer.pack_words,
                show_money(line.price, line.offer.currency),
                show_money(line.packs * line.price, line.offer.currency),
            )
            for line in order.lines
        ),
        sums=tuple(sums_of(order, setting(store, "costs"))),
    )
    heading = (
        f"To: {order.supplier.name}",
        f"Date: {order.placed_on or order.drafted_on or ''}",
        *([f"Ordered by: {by}"] if by else []),
        *([f"Expected: {order.expected_on}"] if order.expected_on else []),
        *(order.note or "").splitlines(),
    )
    return Paper(
        title=f"Order {order.code}" + (" (draft)" if order.state == "drafted" else ""),
        blocks=(Lines(items=heading), lines),
        records=(RECORD, *_records(order)),
    )


def _records(order: Order) -> Iterator[tuple[str, ...]]:
    for line in order.lines:
        offer = line.offer
        yield (
            order.code,
            order.supplier.name,
            str(line.position),
            offer.catalogue_number or "",
            offer.material.key,
            offer.material.name,
            str(line.packs),
            offer.pack_words,
            *amount_text(offer.pack),
            money_text(line.price, offer.currency),
            money_text(line.packs * line.price, offer.currency),
            offer.currency,
            "" if offer.tax_percent is None else str(offer.tax_percent),
        )


def _placed_by(store: Store, order: Order) -> str | None:
    """Return the name of the person who placed an order last; None for a draft."""
    steps = [edit for edit in edits_of(store, "order", order.code) if str(edit["became"]).startswith("placed on")]
    return find_person(store, steps[-1]["initials"]).name if order.placed_on and steps else None


def sums_of(order: Order, costs: str) -> list[tuple[str, str]]:
    """Return the sums of an order: goods, tax by rate, and whole; the tax is rounded once a rate.

    `costs` says whether the prices are net, so that tax comes on top, or gross, so that it is within.
    """
    goods: dict[str, int] = defaultdict(int)
    taxed: dict[tuple[str, Decimal], int] = defaultdict(int)
    for line in order.lines:
        goods[line.offer.currency] += line.packs * line.price
        if line.offer.tax_percent is not None:
            taxed[line.offer.currency, line.offer.tax_percent] += line.packs * line.price
    found: list[tuple[str, str]] = []
    for currency, whole in sorted(goods.items()):
        found.append((f"Goods, {costs}", show_money(whole, currency)))
        taxes = {rate: tax_on(of, rate, costs) for (within, rate), of in taxed.items() if within == currency}
        for rate, tax in sorted(taxes.items()):
            found.append((f"tax {rate} %" if costs == "net" else f"of it tax {rate} %", show_money(tax, currency)))
        if costs == "net" and taxes:
            found.append(("Sum with tax", show_money(whole + sum(taxes.values()), currency)))
    return found


def tax_on(amount: int, percent: Decimal, costs: str) -> int:
    """Return the tax on a net amount, or within a gross one, in minor units, rounded half to even."""
    above, below = percent.as_integer_ratio()
    return round_half_even_ratio(amount * above, 100 * below + (above if costs == "gross" else 0))
