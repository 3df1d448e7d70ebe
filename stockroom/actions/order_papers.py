"""An order on paper: plain text, CSV and PDF, with its sums and the tax apart."""

from __future__ import annotations

import csv
import io
from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from stockroom.actions.papers import plain_cell, shown, write_new
from stockroom.domain.orders import Order
from stockroom.errors import BadInput
from stockroom.science.money import money_text, show_money
from stockroom.science.quantities import amount_text
from stockroom.science.sharing import round_half_even_ratio
from stockroom.store.edits import edits_of
from stockroom.store.open import Store
from stockroom.store.orders import find_order
from stockroom.store.stockroom_settings import setting
from stockroom.store.studio import find_person

COLUMNS = ("Line", "Number", "Goods", "Packs", "Pack", "Price", "Sum")
CSV_COLUMNS = (
    "order", "supplier", "line", "catalogue_number", "material", "name", "packs", "pack", "amount", "unit", "price",
    "sum", "currency", "tax_percent",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderPaper:
    """What a printed order says, all of it text."""

    code: str
    supplier: str
    day: str
    expected: str | None
    by: str | None
    """Name of the person who placed it."""
    note: str | None
    draft: bool
    lines: tuple[tuple[str, ...], ...]
    """A row for each line, in the order of COLUMNS."""
    sums: tuple[tuple[str, str], ...]
    """What each sum is, and the sum."""


def order_paper(store: Store, code: str) -> OrderPaper:
    """Return what the printed order says. Sums stand in the currency of the offers, tax by rate."""
    order = find_order(store, code)
    return OrderPaper(
        code=order.code,
        supplier=shown(order.supplier.name),
        day=order.placed_on or order.drafted_on or "",
        expected=order.expected_on,
        by=_placed_by(store, order),
        note=None if order.note is None else "\n".join(shown(line) for line in order.note.splitlines()),
        draft=order.state == "drafted",
        lines=tuple(
            (
                str(line.position),
                shown(line.offer.catalogue_number or ""),
                shown(", ".join(filter(None, (line.offer.material.name, line.offer.material.grade)))),
                str(line.packs),
                line.offer.pack_words,
                show_money(line.price, line.offer.currency),
                show_money(line.packs * line.price, line.offer.currency),
            )
            for line in order.lines
        ),
        sums=tuple(sums_of(order, setting(store, "costs"))),
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


def order_text(store: Store, code: str) -> str:
    """Write an order as plain text."""
    paper = order_paper(store, code)
    rows = [COLUMNS, *paper.lines]
    widths = [max(len(row[column]) for row in rows) for column in range(len(COLUMNS))]
    right = {0, 3, 5, 6}
    table = [
        "  ".join(
            cell.rjust(width) if column in right else cell.ljust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]
    whole = len(table[0]) if len(rows) == 1 else max(len(line) for line in table)
    sums = [f"{what}: {value}".rjust(whole) for what, value in paper.sums]
    return "\n".join([*heading(paper), "", *table, "", *sums, ""])


def heading(paper: OrderPaper) -> list[str]:
    """Return the lines above the table."""
    lines = [f"Order {paper.code}" + (" (draft)" if paper.draft else ""), f"To: {paper.supplier}", f"Date: {paper.day}"]
    if paper.by:
        lines.append(f"Ordered by: {shown(paper.by)}")
    if paper.expected:
        lines.append(f"Expected: {paper.expected}")
    if paper.note:
        lines += paper.note.splitlines()
    return lines


def order_csv(store: Store, code: str) -> str:
    """Write an order's lines as CSV (RFC 4180): numbers without units, text never a formula."""
    order = find_order(store, code)
    stream = io.StringIO()
    writer = csv.writer(stream)
    writer.writerow(CSV_COLUMNS)
    for line in order.lines:
        offer = line.offer
        amount, unit = amount_text(offer.pack)
        writer.writerow(
            [
                order.code,
                plain_cell(order.supplier.name),
                line.position,
                plain_cell(offer.catalogue_number or ""),
                offer.material.key,
                plain_cell(offer.material.name),
                line.packs,
                offer.pack_words,
                amount,
                unit,
                money_text(line.price, offer.currency),
                money_text(line.packs * line.price, offer.currency),
                offer.currency,
                "" if offer.tax_percent is None else str(offer.tax_percent),
            ]
        )
    return stream.getvalue()


def write_order(store: Store, code: str, path: Path) -> Path:
    """Write an order to a .pdf, .txt or .csv file. Raises BadInput, AlreadyExists: no file is written over."""
    kind = path.suffix.lower()
    if kind == ".pdf":
        from stockroom.labels.order_sheet import draw_order

        paper = order_paper(store, code)
        content = draw_order(heading(paper), COLUMNS, paper.lines, paper.sums)
    elif kind == ".txt":
        content = order_text(store, code).encode()
    elif kind == ".csv":
        content = order_csv(store, code).encode()
    else:
        raise BadInput(f"{path.name}: an order is written as .pdf, .txt or .csv.")
    return write_new(content, path)
