"""`stockroom cut`: pieces that are used again and again."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options


@click.command()
@click.argument("code")
@click.argument("size")
@click.option("--uses", type=int, metavar="N", help="How many uses a piece is good for; kept for the next ones.")
@click.option("--pieces", type=int, default=1, show_default=True, metavar="N", help="How many pieces are cut.")
@click.option(
    "--keep-offcut",
    "offcuts",
    multiple=True,
    metavar="SIZE",
    help="What goes back to the shelf of the sheet, '20 x 76 cm'; each becomes a lot.",
)
@booking_options
@json_option
@click.pass_obj
def cut(
    session: Session,
    code: str,
    size: str,
    uses: int | None,
    pieces: int,
    offcuts: tuple[str, ...],
    day: str | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Cut pieces to be used again from a lot of sheets: each becomes a lot that holds its uses.

    Example: stockroom cut L001W '40 x 50 cm' --uses 10. Then 'stockroom take CODE "1 use" --job J' for each use; worn
    out before, 'stockroom discard CODE --why "worn out"'.
    """
    from stockroom.actions.cutting import cut_pieces
    from stockroom.cli.told import drawn_document, offcuts_document, say_offcuts
    from stockroom.science.money import money_text, show_money

    done = cut_pieces(
        session.store,
        session.occasion(day, why),
        code,
        size,
        uses=uses,
        pieces=pieces,
        keep_offcuts=offcuts,
        dry_run=dry_run,
    )
    session.document(
        {
            "action": done.action,
            "code": done.codes[0],
            "codes": list(done.codes),
            "material": done.material,
            "size": done.size,
            "uses": done.uses,
            "drawn": drawn_document(done.drawn, session.currency),
            "cost": money_text(done.cost, session.currency),
            "currency": session.currency,
            "offcuts": offcuts_document(done.offcuts, session.currency),
        }
    )
    each = "" if len(done.codes) == 1 else ", each"
    names = ", ".join(one or "a new lot" for one in done.codes)
    cost = show_money(done.cost, session.currency)
    session.say(f"{names}  {done.name}, {done.size}{each} for {done.uses} uses; {cost} in all.")
    say_offcuts(session, done.offcuts)
    session.say(f"Action {done.action or 'not booked'}.")
