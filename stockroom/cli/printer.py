"""`printer`: by how much the label printers are off, and which print survives."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.domain.labels import Printer


@click.group()
def printer() -> None:
    """Calibrate a label printer: print the calibration page, measure it, say what you measured."""


@printer.command()
@click.option("--out", type=click.Path(path_type=Path), metavar="FILE", required=True, help="A .pdf file.")
@click.option("--stock", metavar="NAME", help="The sheet or roll of labels to print it on.")
@click.option("--page", metavar="SIZE", default="210 x 297 mm", help="Else the page's size.")
@json_option
@click.pass_obj
def page(session: Session, out: Path, stock: str | None, page: str) -> None:
    """Write the calibration page: rulers and a frame. Print it without fitting to the page.

    Example: stockroom printer page --out ruler.pdf
    """
    from stockroom.errors import BadInput
    from stockroom.files import write_whole
    from stockroom.labels.ruler import draw_ruler_page, ruler_lengths
    from stockroom.science.reading import read_size
    from stockroom.store.labels import find_label_stock

    if out.suffix.lower() != ".pdf":
        raise BadInput(f"{out.name}: the calibration page is a .pdf; end the name with it.")
    size = read_size(page)
    if stock:
        found = find_label_stock(session.store, stock)
        size = (found.page_width_um, found.page_height_um)
    page_mm = (size[0] / 1000, size[1] / 1000)
    across, down = ruler_lengths(page_mm)
    write_whole(out, draw_ruler_page(page_mm))
    ruler = f"{across} x {down} mm"
    session.document({"files": [str(out)], "ruler": ruler})
    session.say(f"Written: {out}")
    session.say("Print it at its own size, measure both rulers and the frame's distance from the edges, and say:")
    session.say(f"  stockroom printer calibrate NAME --ruler '{ruler}' --measured 'ACROSS x DOWN mm'")
    session.say("      --from-left '5 mm' --from-top '5 mm'")


@printer.command()
@click.argument("name")
@click.option("--measured", required=True, metavar="SIZE", help="What the rulers measure: '149.2 x 150.6 mm'.")
@click.option("--ruler", default="150 x 150 mm", metavar="SIZE", help="What they should measure.")
@click.option("--from-left", default="5 mm", metavar="MM", help="From the paper's left edge to the frame.")
@click.option("--from-top", default="5 mm", metavar="MM", help="From the paper's upper edge to the frame.")
@json_option
@click.pass_obj
def calibrate(session: Session, /, name: str, **measured: str) -> None:
    """Keep what was measured of a printer, named as the system names it; labels printed there are put right.

    Example: stockroom printer calibrate office --measured '149.2 x 150.6 mm' --from-left '5.8 mm'
    """
    from stockroom.actions.printers import calibrate as keep

    kept = keep(session.store, session.now, name, **measured)
    session.document(_document(kept))
    session.say(_words(kept))


@printer.command("list")
@json_option
@click.pass_obj
def list_printers(session: Session) -> None:
    """List the printers that were measured, and which print survives at the bench."""
    from stockroom.labels.printing import WHICH_PRINT_SURVIVES
    from stockroom.store.labels import all_printers

    printers = all_printers(session.store)
    session.document({"printers": [_document(each) for each in printers], "advice": list(WHICH_PRINT_SURVIVES)})
    for each in printers:
        session.say(_words(each))
    if not printers:
        session.say("No printer measured yet: stockroom printer page --out ruler.pdf")
    for words in WHICH_PRINT_SURVIVES:
        session.say(f"  {words}")


@printer.command()
@click.argument("name")
@json_option
@click.pass_obj
def forget(session: Session, name: str) -> None:
    """Forget what was measured of a printer: labels are drawn there as on a true one."""
    from stockroom.actions.printers import forget_printer

    forget_printer(session.store, name)
    session.document({"name": name})
    session.say(f"{name}: forgotten.")


def _document(kept: Printer) -> dict[str, Any]:
    from stockroom.actions.printers import say_off
    from stockroom.domain.sizes import show_size

    return {
        "name": kept.name,
        "ruler": show_size(kept.ruler_across_um, kept.ruler_down_um),
        "measured": show_size(kept.measured_across_um, kept.measured_down_um),
        "off": say_off(kept),
        "measured_at": kept.measured_at,
    }


def _words(kept: Printer) -> str:
    from stockroom.actions.printers import say_off

    return f"{kept.name}: {say_off(kept)}; labels printed there are put right."
