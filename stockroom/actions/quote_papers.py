"""A quote on paper: what the client sees is chosen, and it is plainly marked as materials only."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stockroom.domain.papers import Column, Lines, Paper, Rows, Words
from stockroom.domain.quotes import NOTHING, Quote, QuoteLine, Range
from stockroom.science.money import money_text, show_money
from stockroom.science.quantities import amount_text, show
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting
from stockroom.store.studio import find_person

RECORD = (
    "sheet", "job", "treatment", "recipe_version", "fills_low", "fills", "fills_high", "material", "name", "code",
    "amount_low", "amount", "amount_high", "unit", "cost_low", "cost", "cost_high", "currency", "cost_known",
)  # fmt: skip
"""The columns for a spreadsheet, of the final sheet too."""

Records = tuple[tuple[str, ...], ...]


def materials_only(store: Store) -> str:
    """Say what a sheet is and is not."""
    costs = setting(store, "costs")
    return f"Materials only: labour is not part of it. Prices are {costs}, as the books keep them."


def quote_paper(store: Store, quote: Quote) -> Paper:
    """Return a quote as a sheet, with as much as it was chosen to show."""
    currency = setting(store, "currency")
    least = "" if quote.complete else " at least: some prices are not known"
    sums = [("Materials" + least, show_range(quote.materials, currency))]
    if quote.waste is not None:
        sums.append((f"Allowance for waste, {percent_words(quote.waste)}", show_range(quote.for_waste, currency)))
    if quote.handling is not None:
        sums.append((f"Handling, {quote.handling}", show_range(quote.for_handling(currency), currency)))
    if len(sums) > 1:
        sums.append(("In all", show_range(quote.whole(currency), currency)))
    columns, rows = _QUOTE_ROWS[quote.shows](quote, currency)
    heading = (
        f"For: {quote.job.title} ({quote.job.code})",
        *([f"Client: {quote.job.client}"] if quote.job.client else []),
        f"Date: {quote.day}; valid until {quote.valid_until}",
        f"Given by: {find_person(store, quote.initials).name}",
        *(quote.note or "").splitlines(),
    )
    return Paper(
        title=f"Quote {quote.code or 'not given yet'}: materials only"
        + (f" ({quote.state})" if quote.state != "given" else ""),
        blocks=(
            Lines(items=heading),
            Rows(columns=columns, rows=rows, sums=tuple(sums)),
            Words(text=materials_only(store)),
        ),
        records=_quote_records(quote, currency),
    )


def show_range(of: Range, currency: str) -> str:
    """Write a sum, or from what to what where it is uncertain."""
    if of.certain:
        return show_money(of.best, currency)
    return f"{money_text(of.low, currency)} to {show_money(of.high, currency)}"


def percent_words(typed: str) -> str:
    return typed if typed.rstrip().endswith("%") else f"{typed} %"


def _fills(of: Range) -> str:
    return str(of.best) if of.certain else f"{of.low} to {of.high}"


def _amount(line: QuoteLine) -> str:
    material, of = line.material, line.quantity
    if of.certain:
        return show(material.quantity(of.best)) if of.best else "to a reading"
    return f"{show(material.quantity(of.low))} to {show(material.quantity(of.high))}"


Cells = tuple[tuple[Column, ...], tuple[tuple[str, ...], ...]]


def _total_rows(quote: Quote, currency: str) -> Cells:
    names = dict.fromkeys(line.recipe_name for line in quote.lines)
    return (Column(title="Treatment", share=170),), tuple((name,) for name in names)


def _treatment_rows(quote: Quote, currency: str) -> Cells:
    values: dict[str, Range] = {}
    first: dict[str, QuoteLine] = {}
    for line in quote.lines:
        values[line.booking] = values.get(line.booking, NOTHING) + line.value
        first.setdefault(line.booking, line)
    columns = (
        Column(title="Treatment", share=105),
        Column(title="Fills", share=20, right=True),
        Column(title="Cost", share=45, right=True),
    )
    return columns, tuple(
        (first[code].recipe_name, _fills(first[code].fills), show_range(value, currency))
        for code, value in values.items()
    )


def _material_rows(quote: Quote, currency: str) -> Cells:
    columns = (
        Column(title="Treatment", share=47),
        Column(title="Fills", share=16, right=True),
        Column(title="Material", share=42),
        Column(title="Amount", share=32, right=True),
        Column(title="Cost", share=33, right=True),
    )
    return columns, tuple(
        (
            line.recipe_name,
            _fills(line.fills),
            line.material.name,
            _amount(line),
            show_range(line.value, currency) if line.complete else f"at least {show_range(line.value, currency)}",
        )
        for line in quote.lines
    )


def _price_rows(quote: Quote, currency: str) -> Cells:
    columns = (
        Column(title="Treatment", share=30),
        Column(title="Material", share=38),
        Column(title="Amount", share=29, right=True),
        Column(title="Cost", share=32, right=True),
        Column(title="Recipe, price from", share=41),
    )
    return columns, tuple(
        (
            line.recipe_name,
            line.material.name,
            _amount(line),
            show_range(line.value, currency) if line.complete else f"at least {show_range(line.value, currency)}",
            f"version {line.version}, {line.priced_by}",
        )
        for line in quote.lines
    )


_QUOTE_ROWS = {
    "total": _total_rows,
    "treatments": _treatment_rows,
    "materials": _material_rows,
    "prices": _price_rows,
}


def records(
    sheet: str, job: str, lines: Sequence[dict[str, str]], on_top: Mapping[str, Range], currency: str
) -> Records:
    """Return the rows for a spreadsheet: the lines, then what comes on top of them, so that the costs add up."""
    known = "known" if all(line["cost_known"] == "known" for line in lines) else "at least"
    every = {"sheet": f"{sheet}, materials only", "job": job, "currency": currency, "cost_known": known}
    whole = [*lines, *({"name": name} | costs(value, currency) for name, value in on_top.items())]
    return (RECORD, *(tuple((every | line).get(name, "") for name in RECORD) for line in whole))


def costs(of: Range, currency: str) -> dict[str, str]:
    """Return a sum as it stands in a spreadsheet, from the least to the greatest."""
    return {
        name: money_text(value, currency)
        for name, value in (("cost_low", of.low), ("cost", of.best), ("cost_high", of.high))
    }


def _quote_records(quote: Quote, currency: str) -> Records:
    """Return a row a material, or a row a treatment where materials are not shown; of the total alone, one row."""
    lines: list[dict[str, str]] = []
    for line in quote.lines if quote.shows in ("materials", "prices") else ():
        amounts = [
            amount_text(line.material.quantity(q)) for q in (line.quantity.low, line.quantity.best, line.quantity.high)
        ]
        lines.append(
            _treatment_record(line)
            | {
                "material": line.material.key,
                "name": line.material.name,
                **dict(zip(("amount_low", "amount", "amount_high"), (amount for amount, _ in amounts), strict=True)),
                "unit": amounts[0][1],
                **costs(line.value, currency),
                "cost_known": "known" if line.complete else "at least",
            }
        )
    if quote.shows == "treatments":
        for code in dict.fromkeys(line.booking for line in quote.lines):
            those = [line for line in quote.lines if line.booking == code]
            known = "known" if all(line.complete for line in those) else "at least"
            whole = costs(sum((line.value for line in those), NOTHING), currency)
            lines.append(_treatment_record(those[0]) | whole | {"cost_known": known})
    if quote.shows == "total":
        known = "known" if quote.complete else "at least"
        lines.append({"name": "Materials", **costs(quote.materials, currency), "cost_known": known})
    on_top = {}
    if quote.waste is not None:
        on_top[f"Allowance for waste, {percent_words(quote.waste)}"] = quote.for_waste
    if quote.handling is not None:
        on_top[f"Handling, {quote.handling}"] = quote.for_handling(currency)
    return records(f"quote {quote.code}", quote.job.code, lines, on_top, currency)


def _treatment_record(line: QuoteLine) -> dict[str, str]:
    fills = (line.fills.low, line.fills.best, line.fills.high)
    numbers = dict(zip(("fills_low", "fills", "fills_high"), map(str, fills), strict=True))
    return {"treatment": line.recipe, "recipe_version": str(line.version)} | numbers
