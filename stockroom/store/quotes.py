"""Quotes, as stored. Their lines never change; only whether they were accepted does."""

from __future__ import annotations

from stockroom.domain.quotes import Quote, QuoteLine, Range
from stockroom.errors import NotFound, Unreadable
from stockroom.store.codes import give_code
from stockroom.store.jobs import job_by_id
from stockroom.store.materials import COLUMNS, material_of
from stockroom.store.open import Row, Store

_LINE = (
    "SELECT quote_line.*, recipe.key AS recipe_key, recipe.name AS recipe_name, recipe_version.number AS version, "
    + ", ".join(f"material.{name} AS m_{name}" for name in COLUMNS)
    + " FROM quote_line JOIN material ON material.id = quote_line.material_id "
    "JOIN recipe_version ON recipe_version.id = quote_line.version_id "
    "JOIN recipe ON recipe.id = recipe_version.recipe_id"
)


def add_quote(store: Store, quote: Quote, booked_at: str) -> str:
    """Insert a quote with its lines; return its code; inside `write()`."""
    _, code = give_code(store, "E")
    quote_id = store.insert(
        "quote",
        code=code,
        job_id=quote.job.id,
        day=quote.day,
        valid_until=quote.valid_until,
        shows=quote.shows,
        waste=quote.waste,
        handling=quote.handling,
        note=quote.note,
        initials=quote.initials,
        booked_at=booked_at,
    )
    for position, line in enumerate(quote.lines, 1):
        store.insert(
            "quote_line",
            quote_id=quote_id,
            position=position,
            booking=line.booking,
            version_id=line.version_id,
            fills_low=line.fills.low,
            fills=line.fills.best,
            fills_high=line.fills.high,
            material_id=line.material.id,
            quantity_low=line.quantity.low,
            quantity=line.quantity.best,
            quantity_high=line.quantity.high,
            value_low=line.value.low,
            value=line.value.best,
            value_high=line.value.high,
            cost_known="known" if line.complete else "unknown",
            priced_by=line.priced_by,
        )
    return code


def set_quote_state(store: Store, quote_id: int, state: str, accepted_on: str | None) -> None:
    """Say how a quote stands; inside `write()`."""
    store.update("quote", quote_id, state=state, accepted_on=accepted_on)


def find_quote(store: Store, typed: str) -> Quote:
    """Find a quote by its code. Raises NotFound."""
    from stockroom.domain.codes import read_code

    try:
        code = read_code(typed).text
    except Unreadable:
        code = ""
    row = store.row("SELECT * FROM quote WHERE code = :code", code=code)
    if row is None:
        raise NotFound(f"There is no quote '{typed}'. 'stockroom quote list' shows those there are.")
    return _quote_of(store, row)


def quotes(store: Store, job_id: int | None = None) -> list[Quote]:
    """Return the quotes of a job, or all, newest first."""
    rows = store.rows(
        "SELECT * FROM quote WHERE (:job IS NULL OR job_id = :job) ORDER BY day DESC, id DESC", job=job_id
    )
    return [_quote_of(store, row) for row in rows]


def accepted_quote(store: Store, job_id: int) -> Quote | None:
    """Return the quote of a job that was accepted, if one was."""
    row = store.row("SELECT * FROM quote WHERE job_id = :job AND state = 'accepted'", job=job_id)
    return None if row is None else _quote_of(store, row)


def _quote_of(store: Store, row: Row) -> Quote:
    lines = store.rows(f"{_LINE} WHERE quote_line.quote_id = :id ORDER BY quote_line.position", id=row["id"])
    plain = ("id", "code", "day", "valid_until", "state", "shows", "waste", "handling", "note", "initials")
    return Quote(
        **{name: row[name] for name in plain},
        accepted_on=row["accepted_on"],
        job=job_by_id(store, row["job_id"]),
        lines=tuple(_line_of(line) for line in lines),
    )


def _line_of(row: Row) -> QuoteLine:
    return QuoteLine(
        booking=row["booking"],
        recipe=row["recipe_key"],
        recipe_name=row["recipe_name"],
        version_id=row["version_id"],
        version=row["version"],
        fills=Range(low=row["fills_low"], best=row["fills"], high=row["fills_high"]),
        material=material_of(row, "m_"),
        quantity=Range(low=row["quantity_low"], best=row["quantity"], high=row["quantity_high"]),
        value=Range(low=row["value_low"], best=row["value"], high=row["value_high"]),
        complete=row["cost_known"] == "known",
        priced_by=row["priced_by"],
    )
