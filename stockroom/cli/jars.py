"""`jars`: in what jars each stock is kept, so that full ones are planned."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, why_option
from stockroom.errors import BadInput
from stockroom.science.quantities import amount_and_unit, amount_text, show

if TYPE_CHECKING:
    from stockroom.actions.jar_sizes import JarSize


@click.command()
@click.argument("recipe", metavar="[RECIPE]", required=False)
@click.option("--size", metavar="QTY", help="What one jar holds.")
@click.option("--stays", metavar="QTY", help="What cannot be drawn from each: above the solid, at the bottom.")
@click.option("--any", "anything", is_flag=True, help="No jar of its own: usual batches are planned.")
@why_option
@json_option
@click.pass_obj
def jars(
    session: Session, recipe: str | None, size: str | None, stays: str | None, anything: bool, why: str | None
) -> None:
    """In what jars each stock is kept: stockroom jars calcium-hydroxide-saturated --size "1 L" --stays "50 mL".

    Makings are then planned in full jars, and what stays behind is not counted on. Without a recipe it lists them.
    """
    from stockroom.actions.jar_sizes import jar_sizes, set_jar_size

    if recipe is None:
        if size or stays or anything:
            raise BadInput("Which stock is it? Name its recipe first.")
        found = jar_sizes(session.store)
        session.document({"jars": [_document(one) for one in found]})
        for one in found:
            session.say(_words(one))
        if not found:
            session.say("No jars are kept: usual batches are planned. Say one with 'stockroom jars RECIPE --size QTY'.")
        return
    if (size is None) == (not anything):
        raise BadInput("Give --size QTY for its jar, or --any for none of its own.")
    kept = set_jar_size(session.store, session.occasion(why=why), recipe, size, stays)
    session.document(_document(kept) if kept else {"recipe": recipe})
    session.say(_words(kept) if kept else f"{recipe}: usual batches are planned again.")


def _document(one: JarSize) -> dict[str, Any]:
    left = amount_text(one.left_behind)[0]
    return {"recipe": one.recipe.key, **amount_and_unit(one.jar, "size"), "stays": left}


def _words(one: JarSize) -> str:
    stays = f", of which {show(one.left_behind)} stays behind" if one.left_behind.quanta else ""
    return f"{one.recipe.key}: jars of {show(one.jar)}{stays}"
