"""Prove the books: fold every entry anew and compare it with what is kept beside the entries.

Everything that is wrong is returned at once, as values; nothing is changed.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import groupby
from operator import itemgetter

from stockroom.progress import Progress, quiet
from stockroom.store.counts import held_at
from stockroom.store.failures import DAMAGE
from stockroom.store.ledger import LOT_FACTS
from stockroom.store.open import Row, Store
from stockroom.store.seals import FIRST, FORM, hash_of, sealed_text
from stockroom.store.stockroom_settings import closed_until

PROGRESS_EVERY = 500
"""Actions between two reports of progress."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Something that is not as it must be."""

    kind: str
    """balance, below-nothing, worth-nothing, unequal, sums, seal, undone, fact, state, count, closed, schema, file."""
    where: str | None
    """Code of the lot or action."""
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sums:
    """Where the value of everything bought is, in minor units."""

    bought: int = 0
    on_the_shelves: int = 0
    in_jobs: int = 0
    studio_use: int = 0
    wasted: int = 0
    differences: int = 0

    @property
    def balance(self) -> bool:
        whole = self.on_the_shelves + self.in_jobs + self.studio_use + self.wasted + self.differences
        return self.bought == whole


@contextmanager
def one_moment(store: Store) -> Iterator[None]:
    """Read everything inside as it is at one moment, whoever books meanwhile."""
    store.connection.execute("BEGIN")
    try:
        yield
    finally:
        store.connection.execute("ROLLBACK")


def sums(store: Store) -> Sums:
    """Add every entry up by the other end of its value."""
    rows = store.rows("SELECT other_end, sum(value) AS value FROM entry GROUP BY other_end")
    return where_value_is((row["other_end"], int(row["value"])) for row in rows)


def where_value_is(values: Iterable[tuple[str, int]]) -> Sums:
    """Add up where the value of everything bought is, from values by the end they went to or came from."""
    ends: dict[str, int] = defaultdict(int)
    for end, value in values:
        ends[end] += value
    return Sums(
        bought=ends["supplier"],
        on_the_shelves=sum(ends.values()),
        in_jobs=-ends["job"],
        studio_use=-ends["studio"],
        wasted=-ends["waste"],
        differences=-ends["difference"],
    )


def problems_of_books(store: Store, progress: Progress = quiet) -> Iterator[Problem]:
    """Find what is wrong with entries, balances, days, counts and what a lot says of itself."""
    progress("folding the entries", 0, 1)
    lots = {row["id"]: row for row in store.rows("SELECT * FROM lot")}
    yield from _fold(store, lots)
    progress("proving every day", 1, 3)
    yield from _days(store, lots)
    yield from _counts(store, lots)
    progress("comparing lots with what was said of them", 2, 3)
    yield from _facts(store, lots)
    yield from _undone(store)
    yield from _closed(store)
    if not sums(store).balance:
        yield Problem(kind="sums", where=None, words="What was bought is not what the books have of it.")


def _fold(store: Store, lots: dict[int, Row]) -> Iterator[Problem]:
    entries = store.each(
        "SELECT entry.*, action.code AS code FROM entry JOIN action ON action.number = entry.action_number "
        "ORDER BY action_number, position"
    )
    held: dict[int, tuple[int, int, int, int]] = {lot: (0, 0, 0, 0) for lot in lots}
    for code, rows in groupby(entries, key=itemgetter("code")):
        between = 0
        touched: set[int] = set()
        for row in rows:
            quantity, value, base_quantity, base_value = held.get(row["lot_id"], (0, 0, 0, 0))
            quantity, value = quantity + row["quantity"], value + row["value"]
            if row["effect"] == "base":
                base_quantity, base_value = quantity, value
            held[row["lot_id"]] = (quantity, value, base_quantity, base_value)
            touched.add(row["lot_id"])
            between += row["value"] if row["other_end"] == "lot" else 0
        if between:
            yield Problem(kind="unequal", where=code, words=f"{code}: what left lots for lots is not what came in.")
        for lot in sorted(touched):
            quantity, value, _, _ = held[lot]
            name = _code(lots, lot)
            if value < 0:
                yield Problem(
                    kind="below-nothing", where=name, words=f"{name} was worth less than nothing after {code}."
                )
            if value and not quantity:
                yield Problem(kind="worth-nothing", where=name, words=f"{name} was empty and had a value after {code}.")
    kept = {row["lot_id"]: tuple(row)[1:] for row in store.rows(_BALANCES)}
    for lot, row in lots.items():
        if kept.get(lot) != held[lot]:
            words = f"{row['code']}: the kept balance {kept.get(lot)} is not that of its entries {held[lot]}."
            yield Problem(kind="balance", where=row["code"], words=words)
        if row["state"] != "on the shelf" and held[lot][0]:
            yield Problem(kind="state", where=row["code"], words=f"{row['code']} is {row['state']} and holds some.")


def _code(lots: dict[int, Row], lot: int) -> str:
    return lots[lot]["code"] if lot in lots else f"a lot that is gone ({lot})"


_BALANCES = "SELECT lot_id, quantity, value, base_quantity, base_value FROM balance"


def _days(store: Store, lots: dict[int, Row]) -> Iterator[Problem]:
    days = store.each("SELECT lot_id, day, sum(quantity) AS moved FROM entry GROUP BY lot_id, day ORDER BY lot_id, day")
    for lot, rows in groupby(days, key=itemgetter("lot_id")):
        held = 0
        for row in rows:
            held += row["moved"]
            if held < 0:
                code = _code(lots, lot)
                words = f"{code} held less than nothing at the end of {row['day']}."
                yield Problem(kind="below-nothing", where=code, words=words)
                break


def _counts(store: Store, lots: dict[int, Row]) -> Iterator[Problem]:
    rows = store.rows(
        "SELECT counted.*, action.code AS code, coalesce((SELECT sum(entry.quantity) FROM entry "
        "WHERE entry.action_number = counted.action_number AND entry.count_action = counted.action_number "
        "AND entry.lot_id = counted.lot_id), 0) AS difference FROM counted "
        "JOIN action ON action.number = counted.action_number ORDER BY counted.action_number"
    )
    undone = {row["action_number"] for row in store.rows("SELECT action_number FROM undone")}
    for row in rows:
        lot = _code(lots, row["lot_id"])
        if row["quantity"] - row["books_said"] != row["difference"]:
            words = f"{row['code']}: the difference booked for {lot} is not what was counted less what the books said."
            yield Problem(kind="count", where=row["code"], words=words)
        if row["action_number"] in undone:
            continue
        if held_at(store, row["lot_id"], row["at"], row["action_number"]) != row["quantity"]:
            words = f"{lot} does not hold what {row['code']} counted on {row['day']}."
            yield Problem(kind="count", where=row["code"], words=words)


def _facts(store: Store, lots: dict[int, Row]) -> Iterator[Problem]:
    said: dict[tuple[int, str], str | None] = {
        (lot, field): "on the shelf" if field == "state" else None for lot in lots for field in LOT_FACTS
    }
    rows = store.rows(
        "SELECT fact.*, action.code AS code FROM fact JOIN action ON action.number = fact.action_number "
        "ORDER BY action_number, position"
    )
    for row in rows:
        key = (row["lot_id"], row["field"])
        if said.get(key) != row["was"]:
            words = f"{row['code']}: {row['field']} of {_code(lots, row['lot_id'])} was not what it says it was."
            yield Problem(kind="fact", where=row["code"], words=words)
        said[key] = row["became"]
    for (lot, field), value in said.items():
        if lot not in lots:
            continue
        now = lots[lot][field]
        if (None if now is None else str(now)) != value:
            code = lots[lot]["code"]
            words = f"{code}: its {field} is {now!r}, and {value!r} by the actions."
            yield Problem(kind="fact", where=code, words=words)


def undone_by_actions(store: Store) -> set[int]:
    """Return the numbers of the actions that another one undoes, and none puts back in effect."""
    undone: set[int] = set()
    undoes: dict[int, int] = {}
    for row in store.rows("SELECT number, undoes FROM action WHERE undoes IS NOT NULL ORDER BY number"):
        undoes[row["number"]] = row["undoes"]
        undone.add(row["undoes"])
        undone.discard(undoes.get(row["undoes"], 0))
    return undone


def _undone(store: Store) -> Iterator[Problem]:
    codes = {row["number"]: row["code"] for row in store.rows("SELECT number, code FROM action")}
    kept = {row["action_number"] for row in store.rows("SELECT action_number FROM undone")}
    for number in sorted(undone_by_actions(store) ^ kept):
        which = "is kept as undone and is not" if number in kept else "is undone and not kept as undone"
        yield Problem(kind="undone", where=codes.get(number), words=f"{codes.get(number, number)} {which}.")


def _closed(store: Store) -> Iterator[Problem]:
    kept = closed_until(store)
    last = store.row(
        "SELECT details FROM action WHERE kind IN ('close-books', 'open-books') ORDER BY number DESC LIMIT 1"
    )
    until = json.loads(last["details"])["until"] if last else None
    if kept != until:
        words = f"The books are closed up to {kept} by the settings, and up to {until} by the actions."
        yield Problem(kind="closed", where=None, words=words)


def problems_of_seals(store: Store, progress: Progress = quiet) -> Iterator[Problem]:
    """Recompute the chain of seals, and name every action that is not as it was sealed."""
    (whole,) = store.rows("SELECT count(*) FROM action")[0]
    sealed = store.each(
        "SELECT number, code, kind, form, previous, hash FROM action "
        "LEFT JOIN seal ON seal.action_number = action.number ORDER BY number"
    )
    before = FIRST
    for done, row in enumerate(sealed):
        if done % PROGRESS_EVERY == 0:
            progress("proving the seals", done, whole)
        name = f"{row['code']} ({row['kind']})"
        if row["hash"] is None:
            yield Problem(kind="seal", where=row["code"], words=f"{name} was never sealed.")
            continue
        if row["previous"] != before:
            yield Problem(kind="seal", where=row["code"], words=f"{name} is not sealed over the action before it.")
        if row["form"] != FORM or hash_of(row["previous"], sealed_text(store, row["number"])) != row["hash"]:
            yield Problem(kind="seal", where=row["code"], words=f"{name} is not as it was sealed.")
        before = row["hash"]
    for row in store.rows("SELECT action_number FROM seal WHERE action_number NOT IN (SELECT number FROM action)"):
        words = f"There is a seal for action number {row['action_number']}, which is gone."
        yield Problem(kind="seal", where=None, words=words)


def problems_of_file(store: Store) -> Iterator[Problem]:
    """Find what is wrong with the file itself: its schema and triggers, its references, its pages."""
    import sqlite3

    from stockroom.store.migrate import schema_files

    fresh = sqlite3.connect(":memory:")
    for _, sql in schema_files():
        fresh.executescript(sql)
    query = "SELECT type || ' ' || name AS thing, sql FROM sqlite_schema WHERE sql IS NOT NULL"
    wanted = dict(fresh.execute(query).fetchall())
    fresh.close()
    there = {row["thing"]: row["sql"] for row in store.rows(query)}
    for thing, sql in wanted.items():
        if there.get(thing) != sql:
            words = f"The {thing} is {'not as it should be' if thing in there else 'missing'}."
            yield Problem(kind="schema", where=None, words=words)
    for thing in there.keys() - wanted.keys():
        if thing.startswith(("trigger", "view")):
            yield Problem(kind="schema", where=None, words=f"The {thing} does not belong here.")
    for row in store.rows("PRAGMA foreign_key_check"):
        words = f"A row of {row['table']} names a row of {row['parent']} that is not there."
        yield Problem(kind="file", where=None, words=words)
    for thing in wanted:
        if thing.startswith("table "):
            yield from _unreadable(store, thing.removeprefix("table "))
    for row in store.rows("PRAGMA integrity_check"):
        if row[0] != "ok":
            yield Problem(kind="file", where=None, words=f"The file is damaged: {row[0]}.")


def _unreadable(store: Store, table: str) -> Iterator[Problem]:
    """Read every row: text that is no text is nothing that an integrity check would notice."""
    try:
        for _ in store.connection.execute(f"SELECT * FROM {table}"):
            pass
    except DAMAGE as error:
        yield Problem(kind="file", where=None, words=f"A row of {table} cannot be read: {error}.")
