"""`stockroom label`: labels as PDF, PNG, SVG, on paper, or in the terminal."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.errors import BadInput, StockroomError

if TYPE_CHECKING:
    from stockroom.actions.label_making import OutOfDate
    from stockroom.labels.content import LabelContent
    from stockroom.labels.write import Form, Written


@click.command()
@click.argument("codes", nargs=-1, metavar="CODE…")
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FILE", help="A .pdf, .png or .svg file; else the terminal."
)
@click.option(
    "--print", "printer", is_flag=False, flag_value="", metavar="[PRINTER]", help="Print it (else the settings')."
)
@click.option("--stock", metavar="NAME", help="The sheet or roll of labels: 'stockroom label-stock list'.")
@click.option("--first", type=int, metavar="N", help="The first free position of the sheet.")
@click.option("--copies", type=int, default=1, metavar="N", help="How many of each.")
@click.option("--size", metavar="'74 x 52 mm'", help="Width and height of a single label (else the settings').")
@click.option("--dpi", type=click.IntRange(150, 1200), help="Dots per inch of PNG and SVG (else the settings').")
@click.option("--place", is_flag=True, help="Print the place; a label without it stays true when the jar moves.")
@click.option("--no-pictograms", is_flag=True, help="For a label too small for them; the statements stay.")
@click.option("--out-of-date", is_flag=True, help="The labels of all that is on the shelf under an outdated one.")
@json_option
@click.pass_obj
def label(
    session: Session,
    /,
    codes: tuple[str, ...],
    out: Path | None,
    printer: str | None,
    place: bool,
    no_pictograms: bool,
    out_of_date: bool,
    **asked: Any,
) -> None:
    """Print the labels of lots, one file or one page a lot, or on sheets of labels.

    Example: stockroom label L001W --out jar.pdf
    """
    from stockroom.actions.label_making import CODE_AND_WORDS, find_out_of_date, form_of, lots_out_of_date
    from stockroom.actions.labelling import label_of

    codes, printer = _sort_out(codes, printer)
    codes = (*codes, *(code for code in lots_out_of_date(session.store) if code not in codes)) if out_of_date else codes
    if not codes and not out_of_date:
        raise BadInput("Which lots? Name their codes, for example: stockroom label L001W --out jar.pdf")
    in_symbol = session.settings.label_symbol == CODE_AND_WORDS
    contents = [
        label_of(session.store, code, with_place=place, with_pictograms=not no_pictograms, words_in_symbol=in_symbol)
        for code in codes
    ]
    replaced = [found for content in contents if (found := find_out_of_date(session.store, content))]
    if not contents or (out is None and printer is None):
        _show(session, contents, replaced)
        return
    if printer is not None:
        printer = printer or session.settings.label_printer or ""
    form = form_of(session.store, session.settings, printer=printer, **asked)
    written, answer = _carry_out(session, contents, form, out, printer)
    _tell(session, contents, written, form, replaced, answer)


def _sort_out(codes: tuple[str, ...], printer: str | None) -> tuple[tuple[str, ...], str | None]:
    """Take what follows --print for a code where it reads as one: the printer need not be named."""
    if printer:
        from stockroom.domain.codes import read_code

        try:
            if read_code(printer).prefix == "L":
                return (printer, *codes), ""
        except StockroomError:
            pass
    return codes, printer


def _show(session: Session, contents: Sequence[LabelContent], replaced: Sequence[OutOfDate]) -> None:
    from stockroom.labels.terminal import draw_terminal

    session.document(_document(contents, replaced, files=[], dropped=[], warnings=[]))
    colour = sys.stdout.isatty()
    for content in contents:
        if not session.json:
            # the drawing holds its own colours, and has made typed text visible already
            click.echo(draw_terminal(content, colour=colour), color=colour)
    if not contents:
        session.say("No label on the shelf is out of date.")
    for one in replaced:
        session.warn(f"{one.words[0].upper()}{one.words[1:]}: print it anew.")


def _carry_out(
    session: Session, contents: Sequence[LabelContent], form: Form, out: Path | None, printer: str | None
) -> tuple[Written, str | None]:
    """Print, write a file, or both; where the system cannot print, write the file. Each label counts once."""
    from dataclasses import replace

    from stockroom.actions.label_making import print_labels, write_labels
    from stockroom.labels.printing import can_print
    from stockroom.labels.write import write_label

    by, now = session.by or session.settings.by, session.now
    if printer is not None and can_print():
        written, answer = print_labels(session.store, contents, form, printer=printer or None, by=by, now=now)
        return (replace(written, files=write_label(contents, out, form).files) if out else written), answer
    if printer is not None:
        session.warn("This system has no lp command to print with: print the file.")
    path = out or Path(f"label-{contents[0].code}.pdf")
    return write_labels(session.store, contents, path, form, by=by, now=now), None


def _tell(
    session: Session,
    contents: Sequence[LabelContent],
    written: Written,
    form: Form,
    replaced: Sequence[OutOfDate],
    answer: str | None,
) -> None:
    from stockroom.actions.labelling import warn_of_label_size

    warnings = [
        words
        for content, layout in zip(contents, written.labels, strict=True)
        for words in warn_of_label_size(
            session.store, content.code, form.size_mm, min((round(p.side_mm, 1) for p in layout.pictures), default=None)
        )
    ]
    files = [str(path) for path in written.files]
    document = _document(contents, replaced, files=files, dropped=list(written.dropped), warnings=warnings)
    session.document(document | ({"printed": answer} if answer else {}))
    for path in files:
        session.say(f"Written: {path}")
    if answer:
        session.say(f"Printed: {answer}")
    for layout in written.labels:
        if layout.dropped:
            session.say(f"Not on the label of {layout.symbol.code}: {', '.join(layout.dropped)}")
    for one in replaced:
        session.say(f"Take the old one off: {one.words}.")
    for words in warnings:
        session.warn(words)


def _document(contents: Sequence[LabelContent], replaced: Sequence[OutOfDate], **values: list[str]) -> dict[str, Any]:
    payloads = [f"{content.code} {content.in_symbol}" if content.in_symbol else content.code for content in contents]
    return {
        **values,
        "payload": payloads[0] if payloads else None,
        "payloads": payloads,
        "replaces": [{"code": one.code, "made_on": one.made_on, "why": one.words} for one in replaced],
    }


def say_old_label(session: Session, code: str, action: str | None) -> None:
    """After something was booked of a lot, say where its label no longer says what is so."""
    if action is None or session.json:
        return
    from stockroom.actions.label_making import find_out_of_date, made_of
    from stockroom.actions.labelling import label_of

    if made_of(session.store, code) and (found := find_out_of_date(session.store, label_of(session.store, code))):
        session.say(f"  label     {found.words}: stockroom label {code} --print")
