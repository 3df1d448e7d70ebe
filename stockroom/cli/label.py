"""`stockroom label`: labels as PDF, PNG, SVG, or in the terminal."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session


@click.command()
@click.argument("codes", nargs=-1, required=True, metavar="CODE…")
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FILE", help="A .pdf, .png or .svg file; else the terminal."
)
@click.option("--size", metavar="'74 x 52 mm'", help="Width and height (else the settings').")
@click.option("--dpi", type=click.IntRange(150, 1200), help="Dots per inch of a PNG (else the settings').")
@click.option("--place", is_flag=True, help="Print the place; a label without it stays true when the jar moves.")
@json_option
@click.pass_obj
def label(
    session: Session, codes: tuple[str, ...], out: Path | None, size: str | None, dpi: int | None, place: bool
) -> None:
    """Print the labels of lots, one file or one page a lot.

    Example: stockroom label L001W --out jar.pdf
    """
    from stockroom.actions.labelling import label_of, warn_of_label_size
    from stockroom.labels.terminal import draw_terminal
    from stockroom.labels.write import write_label
    from stockroom.science.reading import read_size

    contents = [label_of(session.store, code, with_place=place) for code in codes]
    payload = [content.code for content in contents]
    if out is None:
        session.document({"files": [], "payload": payload[0], "payloads": payload, "dropped": [], "warnings": []})
        colour = sys.stdout.isatty()
        for content in contents:
            if not session.json:
                # the drawing holds its own colours, and has made typed text visible already
                click.echo(draw_terminal(content, colour=colour), color=colour)
        return
    width_um, height_um = read_size(size or session.settings.label_size)
    size_mm = (width_um / 1000, height_um / 1000)
    written = write_label(contents, out, size_mm=size_mm, dpi=dpi or session.settings.label_dpi)
    warnings = [words for code in payload for words in warn_of_label_size(session.store, code, size_mm)]
    session.document(
        {
            "files": [str(path) for path in written.files],
            "payload": payload[0],
            "payloads": payload,
            "dropped": list(written.dropped),
            "warnings": warnings,
        }
    )
    for path in written.files:
        session.say(f"Written: {path}")
    for note in written.dropped:
        session.say(f"Not on the label: {note}")
    for words in warnings:
        session.warn(words)
