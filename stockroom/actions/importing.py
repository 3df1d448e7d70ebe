"""Take tables in from files: every problem of a file is told at once, and all of it is taken in or nothing."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from difflib import get_close_matches
from pathlib import Path

from stockroom.actions.exchange_rows import local_minute
from stockroom.actions.importing_counts import take_count
from stockroom.actions.importing_lots import take_lot
from stockroom.actions.importing_nouns import take_material, take_offer, take_person, take_place, take_supplier
from stockroom.actions.taken_in import TakenIn, row_digest
from stockroom.domain.occasion import Occasion, utc_text
from stockroom.errors import AlreadyExists, BadInput, DatabaseUnusable, StockroomError
from stockroom.exchange.cells import Cells
from stockroom.exchange.files import read_sheet
from stockroom.exchange.layouts import COUNTS, LAYOUTS, LEFT_OUT, LOTS, Layout, layout_fitting, layout_named
from stockroom.exchange.sheet import Problem, Sheet, SheetRow
from stockroom.science.numerals import counted
from stockroom.store.edits import keep_edits
from stockroom.store.exchange import imported_before, imported_lots
from stockroom.store.open import Store

Taker = Callable[[Store, Occasion, Cells, datetime], TakenIn | None]
"""Takes one row in, inside `write()`; None where something in it is wrong. What it did for a row that was here already
or wrong is taken back."""

_TAKERS: dict[str, Taker] = {
    "materials": take_material,
    "suppliers": take_supplier,
    "places": take_place,
    "people": take_person,
    "offers": take_offer,
    "lots": take_lot,
    "counts": take_count,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Imported:
    """What a file brought."""

    what: str
    name: str
    """Of the file."""
    rows: int
    """Rows that were to be taken in."""
    left_out: int
    """Rows that say not to be taken in, such as the examples of a template."""
    here: int
    """Rows that were here already, word for word."""
    taken: tuple[TakenIn, ...]
    booked: bool


class _NotKept(Exception):
    """Takes back a dry run, or a row that is wrong or was here; never leaves this file."""


def import_file(
    store: Store,
    occasion: Occasion,
    path: Path,
    *,
    what: str | None = None,
    encoding: str | None = None,
    sheet: str | None = None,
    again: bool = False,
    dry_run: bool = False,
) -> Imported:
    """Take a file in, in one transaction; each row goes through the action that a person would use.

    Raises BadInput with every problem in `details["problems"]`, AlreadyExists for a file of that content taken in
    before; nothing is changed then.
    """
    known = {name for layout in LAYOUTS.values() for name in layout.names}
    asked = layout_named(what) if what else None
    read = read_sheet(path, known=known, table=what, encoding=encoding, sheet=sheet)
    named = layout_named(read.name) if read.name in LAYOUTS else None
    layout = asked or named or layout_fitting(read.columns)
    problems = [*read.problems, *_wrong_columns(read, layout)]
    rows = [row for row in read.rows if not _is_left_out(row, layout)]
    left_out = len(read.rows) - len(rows)
    if not rows and not problems:
        left = f" {left_out} are left out, since they say so in their column # or were not counted." if left_out else ""
        raise BadInput(f"{path.name} holds no row to take in.{left} Nothing was changed.")
    taken: list[TakenIn] = []
    try:
        with store.write_together() as booked_at:
            digest = _digest(layout, rows)
            if not again:
                _refuse_same_again(store, occasion, path, digest)
            if all(name in read.columns for name in layout.needed):
                unread = {one.row for one in read.problems}
                whole = [row for row in rows if row.number not in unread]
                taken = _take(store, occasion, layout, whole, problems, again=again)
            if problems:
                raise _refusal(path, layout, problems)
            if dry_run:
                raise _NotKept
            new = [one for one in taken if not one.here]
            if new:
                said = f"{path.name}, {len(new)} of {len(rows)} rows"
                keep_edits(
                    store,
                    "import",
                    digest,
                    {layout.name: (None, said)},
                    occasion.by,
                    utc_text(booked_at),
                    occasion.reason,
                )
    except _NotKept:
        taken = [replace(one, codes=(), action=None) for one in taken]
    return Imported(
        what=layout.name,
        name=path.name,
        rows=len(rows),
        left_out=left_out,
        here=sum(one.here for one in taken),
        taken=tuple(one for one in taken if not one.here),
        booked=not dry_run,
    )


def _is_left_out(row: SheetRow, layout: Layout) -> bool:
    """Say whether a row is for people only, or of a count sheet and not counted: that is not the same as nothing."""
    return LEFT_OUT in row.cells or (layout is COUNTS and "amount" not in row.cells)


def _wrong_columns(sheet: Sheet, layout: Layout) -> list[Problem]:
    known = (*layout.names, LEFT_OUT)
    problems: list[Problem] = []
    names = f" There are: {', '.join(layout.names)}."
    for name in sheet.columns:
        if name not in known:
            near = get_close_matches(name, layout.names, 1, cutoff=0.7)
            hint = f" Is it {near[0]}?" if near else names
            names = names if near else ""
            problems.append(Problem(row=1, column=name, words=f"{layout.name} have no such column.{hint}"))
    if missing := [name for name in layout.needed if name not in sheet.columns]:
        words = f"{layout.name} need the column{'s' if len(missing) > 1 else ''} {', '.join(missing)}."
        problems.append(Problem(row=1, column=None, words=words))
    return problems


def _take(
    store: Store, occasion: Occasion, layout: Layout, rows: list[SheetRow], problems: list[Problem], *, again: bool
) -> list[TakenIn]:
    """Take every row in, one after the other; what goes wrong is noted, and the next row is tried all the same."""
    taken: list[TakenIn] = []
    first: dict[str, int] = {}
    before = imported_lots(store) if layout is LOTS and not again else {}
    for row in rows:
        cells = Cells(row, problems)
        for name in layout.needed:
            if name not in row.cells:
                cells.refuse(name, "this is empty, and is needed.")
        same = first.setdefault(row_digest(row), row.number)
        if same != row.number:
            cells.refuse(None, f"this says the same as row {same}. Say it once; of packs alike write 3 x 1 L.")
        if "code" not in row.cells and (codes := before.get(row_digest(row))):
            cells.refuse(None, f"this was imported already, as {' '.join(codes)}. Leave it out, or say --again.")
        try:
            with store.write() as booked_at:
                one = _TAKERS[layout.name](store, occasion, cells, booked_at)
                if one is not None:
                    taken.append(replace(one, row=row.number))
                if one is None or one.here:
                    raise _NotKept
        except _NotKept:
            continue
        except DatabaseUnusable:
            raise
        except StockroomError as error:
            cells.refuse(None, error.message)
    return taken


def _refusal(path: Path, layout: Layout, problems: list[Problem]) -> BadInput:
    ordered = sorted(problems, key=lambda one: one.row or 0)
    many = counted(len(ordered), "problem")
    listed = [{"row": one.row, "column": one.column, "problem": one.words} for one in ordered]
    document = {"what": layout.name, "file": path.name, "problems": listed, "action": None, "actions": []}
    lines = [f"{path.name}: {many}. Nothing was imported.", *(f"  {one}" for one in ordered)]
    return BadInput("\n".join(lines), problems=listed, document=document)


def _digest(layout: Layout, rows: list[SheetRow]) -> str:
    """Return what tells one content from another, whatever form of file it came in."""
    return hashlib.sha256("\n".join((layout.name, *map(row_digest, rows))).encode()).hexdigest()


def _refuse_same_again(store: Store, occasion: Occasion, path: Path, digest: str) -> None:
    before = imported_before(store, digest)
    if before is not None:
        raise AlreadyExists(
            f"What {path.name} says was imported already, by {before['initials']} on "
            f"{local_minute(before['booked_at'], occasion.zone)[:10]} ({before['name']}). Nothing was imported. "
            "Where it came a second time, say --again."
        )
