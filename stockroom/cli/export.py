"""`stockroom export`: tables and reports to files that spreadsheets and other programs read."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.errors import BadInput, DatabaseUnusable, Refused
from stockroom.exchange.files import FORMS
from stockroom.exchange.layouts import LAYOUTS
from stockroom.science.numerals import counted

if TYPE_CHECKING:
    from stockroom.exchange.sheet import Table

FILE = click.Path(path_type=Path)

REPORTS: dict[str, str | None] = {
    "due": "items", "shelf": "lots", "lot": "history", "plan": "make", "wall": "days", "buy": "lines", "order": None,
    "losses": "reasons", "value": "lots", "cost": "lines", "quote": None, "statement": "treatments", "trace": "lots",
    "held": "containers", "register": None, "job": None, "recipe": None, "material": None, "supplier": None,
    "place": None, "person": None, "measure": None, "waste-can": None, "closed": None, "label-stock": None,
    "jars": None, "sources": None, "verify": "problems", "calc": None, "year-end": "lines",
}  # fmt: skip
"""The commands whose answer can be written as a table, and the list of it that is taken where none is named; else its
first. They are asked, and book nothing."""
USUAL_REPORTS = (
    ("due", None), ("shelf", None), ("plan", "make"), ("plan", "buy"), ("buy", None), ("losses", None),
    ("value", None), ("held", None), ("order list", None), ("quote list", None), ("recipe list", None),
    ("measure list", None), ("waste-can list", None),
)  # fmt: skip
"""What --everything asks beside the tables, and which list of the answer it takes."""


@click.command(context_settings={"ignore_unknown_options": True, "allow_interspersed_args": True})
@click.argument("what", nargs=-1, type=click.UNPROCESSED, metavar="TABLE|REPORT…")
@click.option("--out", type=FILE, metavar="FILE", help="Where: its ending says the form (.csv, .xlsx, .json).")
@click.option("--everything", type=FILE, metavar="FOLDER", help="Every table, and the usual reports, a file each.")
@click.option("--form", type=click.Choice([form[1:] for form in FORMS]), help="With --everything (csv else).")
@click.option("--part", metavar="NAME", help="Of a report with several lists: which one.")
@click.option("--mark", is_flag=True, help="Of CSV: begin with the mark by which some spreadsheets know UTF-8.")
@click.option("--replace", is_flag=True, help="Put it in the place of files of that name.")
@json_option
@click.pass_obj
def export(
    session: Session,
    what: tuple[str, ...],
    out: Path | None,
    everything: Path | None,
    form: str | None,
    part: str | None,
    mark: bool,
    replace: bool,
) -> None:
    """Write a table, or what any report answers, to a file. Nothing is booked.

    \b
    Examples: stockroom export lots --out lots.xlsx
              stockroom export cost J001R --by material --out cost.csv
              stockroom export plan --within 60 --part buy --out buy.csv
              stockroom export --everything copies --form xlsx

    Tables that 'stockroom import' takes in again: materials, suppliers, places, people, offers, lots, counts. To fill
    in and take in: count-sheet. Tables of the books: entries, actions, checks, every-count, edits, jobs, job-costs,
    bookings. Else the name of a command with its options. Text that a spreadsheet would run as a formula gets a quote
    before it in CSV, which import takes away again; in XLSX it is typed as text.
    """
    if everything is not None:
        if what or out is not None or part is not None:
            raise BadInput("--everything writes all there is: leave the table, --out and --part away.")
        _write_everything(session, everything, f".{form or 'csv'}", mark=mark, replace=replace)
        return
    if not what or out is None or form is not None:
        raise BadInput("What, and where to? Write it like: stockroom export lots --out lots.csv.")
    from stockroom.actions.exporting import write_table
    from stockroom.exchange.files import form_of
    from stockroom.files import refuse_taken

    form_of(out)
    refuse_taken(out, replace=replace)
    table, others = _table(session, what, part)
    write_table(table, out, replacing=replace, mark=mark)
    session.document({"file": str(out), "table": table.name, "rows": len(table.rows)})
    _say_written(session, table, out)
    if what == ("lots",):
        from stockroom.actions.exporting import lots_left_out

        if left_out := lots_left_out(session.store):
            session.warn(
                f"Not in it, since no table can bring them anew: {', '.join(left_out)} (remainders and used baths, "
                "waste cans, jars with solid only). 'stockroom export shelf' has them."
            )
    if others:
        session.warn(f"Not in it: {', '.join(others)}. Say --part NAME for one of these.")


def _say_written(session: Session, table: Table, path: Path) -> None:
    session.say(f"Written: {path}, {counted(len(table.rows), 'row')}.")


def _table(session: Session, what: Sequence[str], part: str | None) -> tuple[Table, list[str]]:
    """Return the table that was asked for, and the names of the answer's other parts."""
    from stockroom.actions.exporting import exported
    from stockroom.actions.ledger_tables import LEDGER_TABLES, ledger_table
    from stockroom.exchange.answers import parts_of, table_of

    name = what[0]
    if name in LAYOUTS and len(what) == 1:
        return exported(session.store, name), []
    if name in LEDGER_TABLES and len(what) == 1:
        return ledger_table(session.store, name), []
    if name not in REPORTS:
        raise BadInput(
            f"'{name}' is neither a table ({', '.join((*LAYOUTS, *LEDGER_TABLES))}) nor a report "
            f"({', '.join(REPORTS)})."
        )
    answer = _asked(session, what)
    parts = parts_of(answer)
    part = part or (REPORTS[name] if REPORTS[name] in parts else next(iter(parts), None))
    return table_of(answer, name, part), [one for one in parts if one != part and answer[one]]


class _Asking(Session):
    """Keeps a command's document instead of printing it, and lets it change nothing."""

    def __init__(self) -> None:
        super().__init__()
        self.answer: dict[str, Any] = {}

    def document(self, values: dict[str, Any]) -> None:
        self.answer = values

    def warn(self, text: str) -> None:
        pass


def _asked(session: Session, words: Sequence[str]) -> dict[str, Any]:
    """Ask a command for its document, on a stockroom that takes no writing meanwhile."""
    from stockroom.cli.main import main

    asking = _Asking()
    asking.json = True
    asking.__dict__ |= {"store": session.store, "settings": session.settings}
    before = [
        text
        for name, value in (("--db", session.path), ("--by", session.by), ("--on", session.on))
        if value
        for text in (name, str(value))
    ]
    try:
        with session.store.reading_only():
            main.main(args=[*before, *words], prog_name="stockroom", standalone_mode=False, obj=asking)
    except DatabaseUnusable as error:
        if error.details.get("why") == "read-only":
            raise Refused(f"'{' '.join(words)}' would book something. Nothing was changed: export only asks.") from None
        raise
    return asking.answer


def _write_everything(session: Session, folder: Path, form: str, *, mark: bool, replace: bool) -> None:
    """Write every table and the usual reports; file names are the tables' own, so none leaves the folder."""
    from stockroom.actions.exporting import write_table
    from stockroom.actions.ledger_tables import LEDGER_TABLES
    from stockroom.files import refuse_taken

    asked = [*((name, None) for name in (*LAYOUTS, *LEDGER_TABLES)), *USUAL_REPORTS]
    targets = [
        (words.split(), part, folder / f"{'-'.join((*words.split(), *([part] if part else ())))}{form}")
        for words, part in asked
    ]
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise BadInput(f"{folder} cannot be made a folder ({error.strerror}).") from None
    for _, _, path in targets:
        refuse_taken(path, replace=replace)
    tables = [(_table(session, words, part)[0], path) for words, part, path in targets]
    for table, path in tables:
        write_table(table, path, replacing=replace, mark=mark)
    session.document({"folder": str(folder), "files": [str(path) for _, path in tables]})
    for table, path in tables:
        _say_written(session, table, path)
