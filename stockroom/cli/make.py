"""`stockroom make`: make up a solution."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli.choices import choice_options
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options
from stockroom.errors import BadInput

if TYPE_CHECKING:
    from stockroom.actions.drawing import Choices


@click.command()
@click.argument("recipe", required=False)
@click.argument("quantity", required=False)
@click.option("--card", metavar="CODE", help="A bench card's code, in place of recipe and quantity.")
@click.option("--into", metavar="'2 x 1 L'", help="The jars; else one for all.")
@click.option("--yield", "yielded", metavar="AMOUNT", help="What came out, where it is not what was planned.")
@click.option("--place", metavar="PLACE", help="Where the jars are kept.")
@click.option("--temperature", metavar="'22 °C'", help="At which it is shaken and settles; strength follows it.")
@click.option("--tare", "tares", metavar="MASS", multiple=True, help="What the empty jar weighs; once, or for each.")
@choice_options
@booking_options
@json_option
@click.pass_obj
def make(
    session: Session,
    recipe: str | None,
    quantity: str | None,
    card: str | None,
    into: str | None,
    yielded: str | None,
    place: str | None,
    temperature: str | None,
    tares: tuple[str, ...],
    choices: Choices,
    day: str | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Make up a stock: draw its ingredients and give each jar its code, dates and cost.

    Example: stockroom make calcium-hydroxide-saturated '2 L' --into '2 x 1 L' --dry-run
    """
    recipe, quantity = _what(session, recipe, quantity, card)
    from stockroom.actions.making import make as make_up
    from stockroom.cli.told import drawing_document, say_drawing, say_not_booked
    from stockroom.planning.fitness import spoken
    from stockroom.science.quantities import amount_and_unit, amount_text, show

    made = make_up(
        session.store,
        session.occasion(day, why),
        recipe,
        quantity,
        into=into,
        choices=choices,
        yielded=yielded,
        place=place,
        temperature=temperature,
        tares=tares,
        dry_run=dry_run,
    )
    session.document(
        {
            **drawing_document(made, session.currency, why),
            "code": made.codes[0] if made.codes else None,
            "codes": list(made.codes),
            "material": made.material,
            **amount_and_unit(made.total),
            "jars": [amount_text(jar)[0] for jar in made.jars],
            "use_by": made.use_by,
            "use_by_rule": made.use_by_rule,
            "ready_on": made.ready_on,
            "check_by": made.check_by,
        }
    )
    session.say(f"{made.recipe_name}: {show(made.total)}")
    say_drawing(session, made)
    for code, jar in zip(made.codes, made.jars, strict=True):
        session.say(
            f"{code or 'A jar'}  {made.material_name}: {show(jar)}" + (f", {made.strength}" if made.strength else "")
        )
    if made.use_by:
        session.say(f"Use by {spoken(made.use_by)} ({made.use_by_rule}).")
    if made.check_by:
        session.say(f"Check by {spoken(made.check_by)}.")
    if made.ready_on:
        session.say(f"Ready {spoken(made.ready_on)}; not to be used before.")
    if made.action is None:
        say_not_booked(session, made.waits_for)
    else:
        session.say(f"Action {made.action}. Labels: stockroom label {' '.join(code or '' for code in made.codes)}")


def _what(session: Session, recipe: str | None, quantity: str | None, card: str | None) -> tuple[str, str | None]:
    """Return the recipe and quantity, from a bench card where one is named. Raises BadInput, Unreadable, NotFound."""
    if (recipe is None) == (card is None):
        raise BadInput("Name a recipe, or the code of a bench card with --card; not both.")
    if recipe is not None:
        return recipe, quantity
    from stockroom.actions.cards import card_of
    from stockroom.domain.codes import read_code

    found = card_of(session.store, read_code(card or "").text)
    if found.version != found.version_now:
        session.warn(
            f"The card is of version {found.version}; the recipe is at {found.version_now} and is what is booked."
        )
    return found.recipe_key, found.quantity
