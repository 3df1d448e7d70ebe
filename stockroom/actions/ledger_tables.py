"""What the books say, line by line, as tables: for reading elsewhere, not for taking in again."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from zoneinfo import ZoneInfo

from stockroom.actions.costing import Used, by_lot, used_for
from stockroom.actions.exchange_rows import cost_cell, local_minute
from stockroom.domain.sizes import show_size
from stockroom.exchange.layouts import COUNTS
from stockroom.exchange.sheet import Column, Table
from stockroom.science.money import minor_digits, money_text
from stockroom.science.quantities import Dimension, Quantity, amount_and_unit, amount_text
from stockroom.store.exchange import every_action, every_check, every_count, every_edit, every_entry
from stockroom.store.jobs import all_jobs, bookings_of
from stockroom.store.lots import shelf
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting

Rows = list[dict[str, str | None]]

_NUMBERS = ("amount", "books_said", "fills", "position", "number", "version")
_MONEY = ("value", "cost")


def ledger_table(store: Store, name: str) -> Table:
    """Return one of the tables that `LEDGER_TABLES` names."""
    currency, zone = setting(store, "currency"), ZoneInfo(setting(store, "time_zone"))
    heading, rows_of = LEDGER_TABLES[name]
    names = heading.split()
    columns = tuple(
        Column(
            name=each, number=each in (*_NUMBERS, *_MONEY), decimals=minor_digits(currency) if each in _MONEY else None
        )
        for each in names
    )
    rows = rows_of(store, currency, zone)
    return Table(name=name, columns=columns, rows=tuple(tuple(row.get(each) for each in names) for row in rows))


def _actions(store: Store, currency: str, zone: ZoneInfo) -> Rows:
    return [
        {**_texts(dict(row)), "order": row["purchase"], "at": local_minute(row["at"], zone), "by": row["initials"]}
        for row in every_action(store)
    ]


def _entries(store: Store, currency: str, zone: ZoneInfo) -> Rows:
    return [
        {
            **_texts(dict(row)),
            "at": local_minute(row["at"], zone),
            **_amount(row["dimension"], row["quantity"]),
            "value": money_text(row["value"], currency),
        }
        for row in every_entry(store)
    ]


def _checks(store: Store, currency: str, zone: ZoneInfo) -> Rows:
    return [
        {**_texts(dict(row)), "at": local_minute(row["at"], zone), "by": row["initials"]} for row in every_check(store)
    ]


def _counts(store: Store, currency: str, zone: ZoneInfo) -> Rows:
    return [
        {
            **_texts(dict(row)),
            "at": local_minute(row["at"], zone),
            "by": row["initials"],
            **_amount(row["dimension"], row["quantity"]),
            "books_said": _amount(row["dimension"], row["books_said"])["amount"],
        }
        for row in every_count(store)
    ]


def _count_sheet(store: Store, currency: str, zone: ZoneInfo) -> Rows:
    """What is on the shelves, place by place, with room for what is found."""
    lots = sorted(shelf(store), key=lambda lot: (lot.place or "", lot.material.name, lot.id))
    return [
        {"code": lot.code, "material": lot.material.key, "place": lot.place, "unit": amount_text(lot.amount)[1]}
        for lot in lots
        if lot.kind != "waste can"
    ]


def _edits(store: Store, currency: str, zone: ZoneInfo) -> Rows:
    return [{**_texts(dict(row)), "by": row["initials"]} for row in every_edit(store)]


def _job_costs(store: Store, currency: str, zone: ZoneInfo) -> Rows:
    return [
        {
            "job": job.code,
            "title": job.title,
            "client": job.client,
            "state": job.state,
            "material": one.lot.material.key,
            "lot": one.lot.code,
            **_amount(one.quantity.dimension, one.quantity.quanta),
            "cost": money_text(one.value, currency),
            "cost_complete": "yes" if _costs_known(used) else "no",
        }
        for job in all_jobs(store)
        for used in [by_lot(used_for(store, job))]
        for one in used
    ]


def _costs_known(used: Iterable[Used]) -> bool:
    return all(one.lot.cost_known for one in used)


def _jobs(store: Store, currency: str, zone: ZoneInfo) -> Rows:
    return [
        {
            "job": job.code,
            "title": job.title,
            "client": job.client,
            "state": job.state,
            "opened_on": job.opened_on,
            "closed_on": job.closed_on,
            "object": thing.name if thing else None,
            "size": show_size(thing.length_um, thing.width_um) if thing else None,
            # beside the first object alone, so that the column adds up
            "cost": None if number else cost_cell(sum(one.value for one in used), _costs_known(used), currency),
        }
        for job in all_jobs(store)
        for used in [by_lot(used_for(store, job))]
        for number, thing in enumerate(job.objects or (None,))
    ]


def _bookings(store: Store, currency: str, zone: ZoneInfo) -> Rows:
    return [
        {
            "booking": one.code,
            "job": one.job_code,
            "recipe": one.recipe_key,
            "for_day": one.for_day,
            **(_amount(Dimension.VOLUME, one.fill_quanta) if one.fill_quanta else {"amount": None, "unit": None}),
            "fills": None if one.fills is None else str(one.fills),
            "state": one.state,
            "note": one.note,
        }
        for job in all_jobs(store)
        for one in bookings_of(store, job.id)
    ]


LEDGER_TABLES: dict[str, tuple[str, Callable[[Store, str, ZoneInfo], Rows]]] = {
    "entries": (
        "action position day at lot material amount unit value other_end other_lot job reason effect reverses "
        "reverses_position counted_by",
        _entries,
    ),
    "actions": (
        "number code kind day at booked_at by reason job booking order recipe version undoes in_effect seal",
        _actions,
    ),
    "checks": ("action day at by lot material method readings verdict why in_effect", _checks),
    "every-count": ("action day at by lot material amount unit books_said method reason in_effect stands", _counts),
    "count-sheet": (" ".join(COUNTS.names), _count_sheet),
    "edits": ("booked_at by noun named field was became reason", _edits),
    "jobs": ("job title client state opened_on closed_on object size cost", _jobs),
    "job-costs": ("job title client state material lot amount unit cost cost_complete", _job_costs),
    "bookings": ("booking job recipe for_day amount unit fills state note", _bookings),
}
"""Each table's headings and what fills it."""


def _amount(dimension: str, quanta: int) -> dict[str, str | None]:
    return amount_and_unit(Quantity(Dimension(dimension), quanta))


def _texts(row: dict[str, object]) -> dict[str, str | None]:
    return {name: None if value is None else str(value) for name, value in row.items()}
