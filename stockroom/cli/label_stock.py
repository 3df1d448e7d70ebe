"""`label-stock`: the studio's own sheets and rolls of labels."""

from __future__ import annotations

from typing import Any

import click

from stockroom.cli.nouns import (
    Retired,
    edits_document,
    new_name_option,
    retired_option,
    retired_words,
    retires,
    say_edits,
    tell_edited,
    without_nothing,
)
from stockroom.cli.output import Command, json_option
from stockroom.cli.session import Session, why_option
from stockroom.domain.labels import LabelStock
from stockroom.domain.occasion import Occasion
from stockroom.store.edits import edits_of
from stockroom.store.labels import all_label_stocks, find_label_stock


@click.group("label-stock")
def label_stock() -> None:
    """Sheets and rolls of labels: their size, and how they stand on the page."""


def _measures(command: Command) -> Command:
    for option in (
        click.option("--label", metavar="SIZE", help="Width and height of one label: '70 x 37 mm'."),
        click.option("--page", metavar="SIZE", help="Of a sheet: '210 x 297 mm'. Without it, a roll."),
        click.option("--columns", type=click.IntRange(1, 100), help="Labels side by side."),
        click.option("--rows", type=click.IntRange(1, 100), help="Labels below each other."),
        click.option("--left", metavar="MM", help="From the page's left edge to the first label: '5 mm'."),
        click.option("--top", metavar="MM", help="From the page's upper edge to the first label."),
        click.option("--across", metavar="MM", help="The gap between labels side by side."),
        click.option("--down", metavar="MM", help="The gap between labels below each other."),
    ):
        command = option(command)
    return command


@label_stock.command()
@click.argument("name")
@_measures
@json_option
@click.pass_obj
def new(session: Session, /, name: str, **typed: Any) -> None:
    """Add one.

    Example: stockroom label-stock new "jar sheet" --label '70 x 37 mm' --page '210 x 297 mm' --columns 3 --rows 8
    """
    from stockroom.actions.label_stocks import new_label_stock

    added = new_label_stock(session.store, name, **typed)
    session.document(_document(added))
    session.say(f"Added {_words(added)}.")


@label_stock.command("list")
@retired_option
@json_option
@click.pass_obj
def list_label_stocks(session: Session, retired: bool) -> None:
    """List them."""
    found = all_label_stocks(session.store, retired=retired)
    nothing = "No label stocks yet: stockroom label-stock new NAME --label '70 x 37 mm' …"
    session.listing("label_stocks", found, _document, _words, nothing)


@label_stock.command()
@click.argument("name")
@json_option
@click.pass_obj
def show(session: Session, name: str) -> None:
    """Show one and its edits."""
    found = find_label_stock(session.store, name, retired=True)
    edits = edits_of(session.store, "label stock", str(found.id))
    session.document({**_document(found), "edits": edits_document(edits)})
    session.say(_words(found))
    say_edits(session, edits)


@label_stock.command()
@click.argument("name")
@new_name_option
@_measures
@why_option
@json_option
@click.pass_obj
def edit(session: Session, /, name: str, new_name: str | None, why: str | None, **typed: Any) -> None:
    """Rename one or change its measures."""
    from stockroom.actions.label_stocks import edit_label_stock

    changed, made = edit_label_stock(session.store, session.occasion(why=why), name, name=new_name, **typed)
    tell_edited(session, _document(changed), changed.name, made)


@retires(label_stock, "NAME")
def retire(session: Session, occasion: Occasion, name: str, undo: bool) -> Retired:
    """Offer one no more."""
    from stockroom.actions.label_stocks import retire_label_stock

    changed = retire_label_stock(session.store, occasion, name, undo=undo)
    return _document(changed), changed.name, []


def _document(stock: LabelStock) -> dict[str, Any]:
    from stockroom.actions.label_stocks import described

    values = without_nothing({**described(stock), "retired_on": stock.retired_on})
    return {**values, "columns": stock.columns, "rows": stock.rows}


def _words(stock: LabelStock) -> str:
    from stockroom.actions.label_stocks import described

    said = described(stock)
    retired = retired_words(stock.retired_on)
    if said["page"] == said["label"]:
        return f"{stock.name}: single labels of {said['label']}{retired}"
    return (
        f"{stock.name}: {stock.columns} x {stock.rows} labels of {said['label']} on {said['page']}, "
        f"margins {said['left']} and {said['top']}, gaps {said['across']} and {said['down']}{retired}"
    )
