"""Write everything as plain text: a page for people, then every row and every seal for programs yet to be written."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from stockroom.actions.telling import tell
from stockroom.domain.ledger import Entry
from stockroom.domain.occasion import utc_text
from stockroom.progress import Progress, quiet
from stockroom.science.money import show_money
from stockroom.science.quantities import Quantity, show
from stockroom.store import ledger
from stockroom.store.copies import Copy, growing, put_in_place
from stockroom.store.history import action_by_number
from stockroom.store.jobs import job_by_id
from stockroom.store.lots import lot_by_id, shelf
from stockroom.store.open import SCHEMA_VERSION, Store
from stockroom.store.plain_rows import action_numbers, rows_of, sealed_actions, tables
from stockroom.store.seals import count_sealed, last_seal
from stockroom.store.stockroom_settings import setting
from stockroom.store.verification import one_moment

_HEAD = """\
STOCKROOM: all that is in a conservator's materials stockroom, as plain text (UTF-8).

File: {name}, form {form}, written {written}
Currency: {currency}; days and times in part 1 are local ({zone})
Actions: {actions}
Last seal: {seal}

Part 1  what was done, one line an action, beneath it one line for each lot that it moved:
        action, day and time, initials, what
            lot, material, how much came in (+) or went out (-), its value, from where or to where
Part 2  what is on the shelf
Part 3  every row of every table: a line '# table: columns', then one JSON array a row.
        Quantities are micrograms, microlitres, square millimetres, micrometres, or thousandths of a piece or a use;
        money is in the currency's smallest unit; times are UTC.
Part 4  the seals: number of the action, seal, and the text that is sealed, one line an action. Each seal is the SHA-256
        of the seal before it (64 zeros before the first), a line feed and that text, all in UTF-8, in hexadecimal.
        Whoever wrote down a seal can prove with any SHA-256 program that nothing up to it was changed.
"""

_ENDS = {
    "supplier": "supplier",
    "studio": "studio use",
    "waste": "waste",
    "difference": "difference",
    "found": "found",
    "evaporated": "evaporated",
}
PROGRESS_EVERY = 500


def write_plain(store: Store, target: Path, *, replace: bool = False, progress: Progress = quiet) -> Copy:
    """Write the stockroom as text, as it is at one moment. Raises AlreadyExists, BadInput as a copy does."""
    target = target.expanduser()
    if target.is_dir():
        target = target / f"{store.path.stem}-{datetime.now(UTC):%Y-%m-%d-%H%M%S}.txt"
    with growing(target, replace=replace) as part, one_moment(store):
        with part.open("w", encoding="utf-8", errors="surrogatepass", newline="\n") as file:
            for line in _lines(store, progress):
                file.write(line + "\n")
        seal, actions = last_seal(store), count_sealed(store)
        put_in_place(part, target, replace=replace)
    return Copy(path=target, last_seal=seal, actions=actions, size=target.stat().st_size)


def _lines(store: Store, progress: Progress) -> Iterator[str]:
    zone, currency, actions = setting(store, "time_zone"), setting(store, "currency"), count_sealed(store)
    yield _HEAD.format(
        name=one_line(store.path.name),
        form=SCHEMA_VERSION,
        written=utc_text(datetime.now(UTC)),
        currency=currency,
        zone=zone,
        actions=actions,
        seal=last_seal(store),
    )
    yield "== Part 1: what was done =="
    for done, number in enumerate(action_numbers(store)):
        if done % PROGRESS_EVERY == 0:
            progress("writing what was done", done, actions)
        yield from _action(store, number, ZoneInfo(zone), currency)
    yield "\n== Part 2: what is on the shelf =="
    for lot in shelf(store):
        place = f", {lot.place}" if lot.place else ""
        use_by = f", use by {lot.use_by}" if lot.use_by else ""
        value = show_money(lot.balance.value, currency)
        yield one_line(f"{lot.code}  {lot.material.name}: {lot.amount_words}, {value}{place}{use_by}")
    yield "\n== Part 3: every row of every table =="
    for table, columns in tables(store).items():
        yield f"# {table}: {', '.join(columns)}"
        for row in rows_of(store, table, columns):
            yield json.dumps(row, ensure_ascii=False, separators=(",", ":"))
    yield "\n== Part 4: the seals =="
    for done, (number, seal, text) in enumerate(sealed_actions(store)):
        if done % PROGRESS_EVERY == 0:
            progress("writing the seals", done, actions)
        yield f"{number} {seal} {text}"


def _action(store: Store, number: int, zone: ZoneInfo, currency: str) -> Iterator[str]:
    done = action_by_number(store, number)
    told = tell(store, done, zone)
    yield one_line(f"{told.code}  {told.when}  {done.initials}  {told.words}" + ("" if told.in_effect else " [undone]"))
    for entry in ledger.entries_of_action(store, number):
        lot = lot_by_id(store, entry.lot)
        sign = "-" if entry.quantity < 0 else "+"
        amount = show(Quantity(lot.material.dimension, abs(entry.quantity)))
        value = show_money(entry.value, currency)
        yield one_line(f"    {lot.code}  {lot.material.name}  {sign}{amount}  {value}  {_end(store, entry)}")


def _end(store: Store, entry: Entry) -> str:
    way = "to" if entry.quantity < 0 else "from"
    if entry.other_lot is not None:
        return f"{way} {lot_by_id(store, entry.other_lot).code}"
    if entry.job_id is not None:
        job = job_by_id(store, entry.job_id)
        return f"{way} job {job.code} {job.title}"
    return f"{way} {_ENDS[entry.other_end]}" + (f" ({entry.reason})" if entry.reason else "")


def one_line(text: str) -> str:
    """Keep typed text on its line, and from doing anything to a terminal that shows it."""
    return "".join(char if char.isprintable() else " " for char in text)
