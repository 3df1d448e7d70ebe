"""`stockroom card`: a recipe on paper for the bench."""

from __future__ import annotations

from pathlib import Path

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session


@click.command()
@click.argument("recipe")
@click.argument("quantity", required=False)
@click.option("--out", type=click.Path(path_type=Path), metavar="FILE", help="A .pdf file; else card.pdf here.")
@json_option
@click.pass_obj
def card(session: Session, recipe: str, quantity: str | None, out: Path | None) -> None:
    """Write a bench card: steps, scaled amounts, and empty boxes to fill in by hand.

    Nothing is booked by it. Scanning its code tells the recipe and the amount again.

    Example: stockroom card calcium-hydroxide-saturated '2 L' --out card.pdf
    """
    from stockroom.actions.cards import make_card

    made = make_card(
        session.store,
        recipe,
        quantity,
        out or Path("card.pdf"),
        by=session.by or session.settings.by,
        now=session.now,
    )
    session.document(
        {
            "code": made.code,
            "files": [str(made.path)],
            "recipe": made.recipe,
            "version": made.version,
            "quantity": made.quantity,
        }
    )
    session.say(f"Written: {made.path}  ({made.code}, {made.quantity} of {made.recipe})")
