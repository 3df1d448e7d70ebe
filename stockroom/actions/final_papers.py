"""The final sheet of a job on paper: what its materials cost, beside the quote that was accepted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stockroom.actions.cost_reports import by_material, by_treatment
from stockroom.actions.costing import Costing, Used
from stockroom.actions.quote_comparing import Against, against_quote
from stockroom.actions.quote_papers import Records, costs, materials_only, records, show_range
from stockroom.domain.papers import Block, Column, Heading, Lines, Paper, Rows, Words
from stockroom.domain.quotes import NOTHING, SHOWS, Quote, Range
from stockroom.errors import BadInput
from stockroom.science.handling import handling_on
from stockroom.science.money import show_money
from stockroom.science.quantities import amount_text, show
from stockroom.store.history import recipe_versions_used
from stockroom.store.open import Store
from stockroom.store.quotes import accepted_quote
from stockroom.store.stockroom_settings import setting


def final_paper(
    store: Store, costing: Costing, *, day: str, handling: str | None = None, shows: str | None = None
) -> Paper:
    """Return what a job's materials cost, as a sheet, against the quote that was accepted, if one was.

    Handling and what is shown are the accepted quote's where they are not given. Raises BadInput.
    """
    currency = setting(store, "currency")
    quote = accepted_quote(store, costing.job.id)
    handling = handling or (quote.handling if quote else None)
    shows = shows or (quote.shows if quote else "materials")
    if shows not in SHOWS:
        raise BadInput(f"A final sheet shows one of: {', '.join(SHOWS)}.")
    least = "" if costing.complete else " at least: the cost of some of it is not known"
    on_top: dict[str, int] = {}
    if costing.waste:
        on_top["Share of what was wasted"] = costing.waste_value
    if handling is not None:
        on_top[f"Handling, {handling}"] = handling_on(handling, costing.total + costing.waste_value, currency)
    sums = [("Materials" + least, costing.total), *on_top.items()]
    if on_top:
        sums.append(("In all", costing.total + sum(on_top.values())))
    told = tuple((words, show_money(value, currency)) for words, value in sums)
    job = costing.job
    heading = (
        f"For: {job.title}",
        *([f"Client: {job.client}"] if job.client else []),
        f"Date: {day}" + ("" if job.state == "closed" else "; the job is not closed yet"),
    )
    blocks: list[Block] = [Lines(items=heading), _used(store, costing, shows, currency, told)]
    if quote is not None:
        blocks += [
            Heading(text=f"Against quote {quote.code} of {quote.day}, without handling"),
            _compared(against_quote(quote, costing), shows, currency),
        ]
    return Paper(
        title=f"Final sheet of {job.code}: materials only",
        blocks=(*blocks, Words(text=materials_only(store))),
        records=_records(store, costing, shows, on_top, currency),
    )


def _used(store: Store, costing: Costing, shows: str, currency: str, sums: tuple[tuple[str, str], ...]) -> Rows:
    cost = Column(title="Cost", share=35, right=True)
    if shows in ("total", "treatments"):
        rows = [(one.name, show_money(one.value, currency)) for one in by_treatment(store, costing.used)]
        if shows == "total":
            return Rows(
                columns=(Column(title="Treatment", share=170),), rows=tuple((name,) for name, _ in rows), sums=sums
            )
        return Rows(columns=(Column(title="Treatment", share=135), cost), rows=tuple(rows), sums=sums)
    amount = Column(title="Amount", share=35, right=True)
    if shows == "materials":
        return Rows(
            columns=(Column(title="Material", share=100), amount, cost),
            rows=tuple(
                (one.name, show(one.quantity) if one.quantity else "", show_money(one.value, currency))
                for one in by_material(costing.used)
            ),
            sums=sums,
        )
    return Rows(
        columns=(Column(title="Material", share=75), Column(title="Lot", share=25), amount, cost),
        rows=tuple(
            (one.lot.material.name, one.lot.code, show(one.quantity), show_money(one.value, currency))
            for one in costing.used
        ),
        sums=sums,
    )


def comparison_paper(store: Store, quote: Quote, costing: Costing) -> Paper:
    """Return a quote against what its job used so far, line by line, each difference with its reason."""
    return Paper(
        title=f"Quote {quote.code} against what was used",
        blocks=(
            Lines(
                items=(
                    f"For: {quote.job.title} ({quote.job.code})",
                    f"Quoted on {quote.day}, {quote.state}; without handling",
                )
            ),
            _compared(against_quote(quote, costing), "materials", setting(store, "currency")),
            Words(text=materials_only(store)),
        ),
    )


def _compared(lines: Sequence[Against], shows: str, currency: str) -> Rows:
    columns = (
        Column(title="Treatment, material", share=56),
        Column(title="Quoted", share=30, right=True),
        Column(title="Used", share=24, right=True),
        Column(title="Difference", share=24, right=True),
        Column(title="Why", share=36),
    )
    quoted = sum(line.quoted.best for line in lines if line.quoted)
    used = sum(line.used.value for line in lines if line.used)
    whole = (
        ("Quoted", show_money(quoted, currency)),
        ("Used", show_money(used, currency)),
        ("Difference", show_money(used - quoted, currency)),
    )
    parts: dict[str, list[Against]] = {}
    for line in lines:
        material = f", {line.material.name}" if line.material and shows != "treatments" else ""
        parts.setdefault(line.treatment + material, []).append(line)
    rows = tuple(_compared_row(name, those, currency) for name, those in parts.items())
    return Rows(columns=columns, rows=rows if shows != "total" else (), sums=whole)


def _compared_row(name: str, lines: Sequence[Against], currency: str) -> tuple[str, ...]:
    quoted = [line.quoted for line in lines if line.quoted]
    used = [line.used.value for line in lines if line.used]
    return (
        name,
        show_range(sum(quoted, NOTHING), currency) if quoted else "",
        show_money(sum(used), currency) if used else "",
        show_money(sum(line.difference for line in lines), currency),
        "; ".join(dict.fromkeys(line.why for line in lines if line.why)),
    )


def _records(store: Store, costing: Costing, shows: str, on_top: Mapping[str, int], currency: str) -> Records:
    """Return a row a lot, or a row a treatment where materials are not shown; of the total alone, one row."""
    versions = recipe_versions_used(store, costing.job.id)
    lines: list[dict[str, str]] = []
    if shows == "total":
        lines.append({"name": "Materials"} | _costs(costing.used, currency))
    if shows == "treatments":
        for key in dict.fromkeys(one.treatment for one in costing.used):
            those = [one for one in costing.used if one.treatment == key]
            lines.append(_treatment_record(key, versions) | _costs(those, currency))
    for one in costing.used if shows in ("materials", "prices") else ():
        amount, unit = amount_text(one.quantity)
        lines.append(
            _treatment_record(one.treatment, versions)
            | {"material": one.lot.material.key, "name": one.lot.material.name, "code": one.lot.code}
            | dict.fromkeys(("amount_low", "amount", "amount_high"), amount)
            | {"unit": unit}
            | _costs([one], currency)
        )
    extra = {name: _certain(value) for name, value in on_top.items()}
    return records("final", costing.job.code, lines, extra, currency)


def _treatment_record(key: str | None, versions: Mapping[str, Sequence[int]]) -> dict[str, str]:
    return {"treatment": key or "", "recipe_version": " ".join(map(str, versions.get(key or "", ())))}


def _costs(used: Sequence[Used], currency: str) -> dict[str, str]:
    known = "known" if all(one.lot.cost_known for one in used) else "at least"
    return costs(_certain(sum(one.value for one in used)), currency) | {"cost_known": known}


def _certain(value: int) -> Range:
    return Range(low=value, best=value, high=value)
