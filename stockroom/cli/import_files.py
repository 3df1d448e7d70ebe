"""`stockroom import`: take tables in from spreadsheets."""

from __future__ import annotations

from pathlib import Path

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options
from stockroom.errors import BadInput
from stockroom.exchange.layouts import LAYOUTS
from stockroom.science.numerals import counted

FILE = click.Path(path_type=Path)


@click.command("import")
@click.argument("file", type=FILE, required=False)
@click.option("--as", "what", type=click.Choice(list(LAYOUTS)), help="What is in it, where its headings do not tell.")
@click.option("--encoding", metavar="NAME", help="Of CSV that is neither UTF-8 nor UTF-16: cp1252, latin-1 …")
@click.option("--sheet", metavar="NAME", help="Of XLSX: which sheet; else the first.")
@click.option("--again", is_flag=True, help="Take it in though the same was taken in before.")
@click.option("--template", type=click.Choice(list(LAYOUTS)), help="Write an empty table with an example instead.")
@click.option("--out", type=FILE, metavar="FILE", help="With --template: where (.csv, .xlsx).")
@click.option("--replace", is_flag=True, help="With --template: put it in the place of a file of that name.")
@booking_options
@json_option
@click.pass_obj
def import_files(
    session: Session,
    file: Path | None,
    what: str | None,
    encoding: str | None,
    sheet: str | None,
    again: bool,
    template: str | None,
    out: Path | None,
    replace: bool,
    day: str | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Take a table in from CSV, XLSX or JSON: all of it, or nothing with every problem by row and column.

    \b
    Examples: stockroom import --template lots --out lots.xlsx
              stockroom import lots.xlsx --dry-run
              stockroom import lots.csv --as lots

    A file adds what is not here yet; what is here and says the same is passed over. Rows that say anything in a
    column '#' are left out. Take in materials, suppliers and places before the lots that name them. --day is for
    rows that say no day of their own.
    """
    if template is not None:
        _write_template(session, template, out, replace=replace, file=file)
        return
    if file is None or out is not None or replace:
        raise BadInput("Which file? 'stockroom import FILE' takes one in, --template WHAT --out FILE writes one.")
    from stockroom.actions.importing import import_file
    from stockroom.cli.told import say_not_booked

    brought = import_file(
        session.store,
        session.occasion(day, why),
        file,
        what=what,
        encoding=encoding,
        sheet=sheet,
        again=again,
        dry_run=dry_run,
    )
    actions = [one.action for one in brought.taken if one.action]
    session.document(
        {
            "what": brought.what,
            "file": brought.name,
            "rows": brought.rows,
            "taken": len(brought.taken),
            "here": brought.here,
            "left_out": brought.left_out,
            "problems": [],
            "codes": [code for one in brought.taken for code in one.codes],
            "action": actions[0] if actions else None,
            "actions": actions,
        }
    )
    for day in sorted({one.day for one in brought.taken if one.day}):
        session.warn_where_closed(day)
    for one in brought.taken:
        code = f"{' '.join(one.codes)}  " if one.codes else ""
        session.say(f"row {one.row:>4}  {code}{one.words}")
    many = f"{len(brought.taken)} of {counted(brought.rows, 'row')}"
    session.say(f"{brought.what}: {many} {'taken in' if brought.booked else 'would be taken in'}.")
    new = [code for one in brought.taken for code in one.codes]
    if brought.booked and brought.what == "lots" and new:
        session.say(f"Labels: stockroom label {' '.join(new) if len(new) <= 12 else 'CODE…'} --out labels.pdf")
    if brought.here:
        session.say(f"{brought.here} are here already and say the same.")
    if brought.left_out:
        session.say(f"{brought.left_out} left out: their column # says so, or they were not counted.")
    if not brought.booked:
        say_not_booked(session, None)


def _write_template(session: Session, what: str, out: Path | None, *, replace: bool, file: Path | None) -> None:
    if out is None or file is not None:
        raise BadInput("Where to? Say --template WHAT --out FILE, such as --out lots.xlsx.")
    from stockroom.actions.exporting import write_table
    from stockroom.exchange.layouts import LAYOUTS, template

    write_table(template(LAYOUTS[what]), out, replacing=replace, explained=True)
    session.document({"what": what, "file": str(out)})
    session.say(f"Written: {out}. Its two rows of words are left out when it is taken in.")
