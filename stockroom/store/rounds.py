"""Rounds of counting in progress. A round is no entry of the ledger until it is confirmed as one action."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.store.codes import give_code
from stockroom.store.open import Row, Store


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenLine:
    """A lot that was seen in a round: how much, when (UTC text)."""

    lot: int
    quantity: int
    at: str
    weighed: str | None = None
    """What its gross weight said, as JSON, where it was weighed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """A round at one place."""

    id: int
    code: str
    place_id: int
    begun_at: str
    initials: str
    lines: tuple[SeenLine, ...]


def open_round(store: Store, place_id: int) -> Round | None:
    """Return the round in progress at a place."""
    row = store.row("SELECT * FROM round WHERE place_id = :place AND state = 'open' ORDER BY id", place=place_id)
    return _round_of(store, row) if row else None


def open_rounds_begun_by(store: Store, day: str) -> list[str]:
    """Return the codes of the rounds in progress that were begun on a day or before."""
    rows = store.rows("SELECT code, begun_at FROM round WHERE state = 'open' ORDER BY id")
    return [row["code"] for row in rows if row["begun_at"][:10] <= day]


def _round_of(store: Store, row: Row) -> Round:
    lines = store.rows(
        "SELECT lot_id AS lot, quantity, at, weighed FROM round_line WHERE round_id = :id ORDER BY lot_id", id=row["id"]
    )
    return Round(
        id=row["id"],
        code=row["code"],
        place_id=row["place_id"],
        begun_at=row["begun_at"],
        initials=row["initials"],
        lines=tuple(SeenLine(**dict(line)) for line in lines),
    )


def begin_round(store: Store, place_id: int, at: str, initials: str) -> None:
    """Begin a round at a place; inside `write()`."""
    _, code = give_code(store, "R")
    store.insert("round", code=code, place_id=place_id, begun_at=at, initials=initials, state="open")


def see_lot(store: Store, round_id: int, line: SeenLine) -> None:
    """Keep what was seen of a lot; seen again, the later one holds."""
    store.run(
        "INSERT INTO round_line (round_id, lot_id, quantity, at, weighed) "
        "VALUES (:round, :lot, :quantity, :at, :weighed) ON CONFLICT (round_id, lot_id) "
        "DO UPDATE SET quantity = excluded.quantity, at = excluded.at, weighed = excluded.weighed",
        round=round_id,
        lot=line.lot,
        quantity=line.quantity,
        at=line.at,
        weighed=line.weighed,
    )


def end_round(store: Store, round_id: int, state: str, action: int | None = None) -> None:
    """End a round: confirmed by an action, or dropped."""
    store.update("round", round_id, state=state, action_number=action)
