"""`stockroom use`: draw a treatment's materials for a job."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli.choices import choice_options
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, day_option, dry_run_option, why_option

if TYPE_CHECKING:
    from stockroom.actions.drawing import Choices


@click.command()
@click.argument("recipe")
@click.option("--job", required=True, metavar="JOB", help="The job, by code or title.")
@click.option("--qty", metavar="AMOUNT", help="One fill of the bath.")
@click.option("--fills", type=int, metavar="N", help="How often the bath is filled.")
@click.option("--object", "objects", multiple=True, metavar="OBJECT", help="Which of the job's objects.")
@click.option("--booking", metavar="CODE", help="The booking this fulfils.")
@choice_options
@day_option
@why_option
@dry_run_option
@json_option
@click.pass_obj
def use(
    session: Session,
    recipe: str,
    job: str,
    qty: str | None,
    fills: int | None,
    objects: tuple[str, ...],
    booking: str | None,
    choices: Choices,
    day: str | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Draw all that a bath or treatment takes for a job, oldest date first; or say exactly what is short.

    Example: stockroom use deacidify-and-size --job J001R --qty '500 mL' --fills 2
    """
    from stockroom.actions.using import use as draw_for
    from stockroom.cli.told import drawing_document, say_drawing, say_not_booked
    from stockroom.science.quantities import amount_text, show

    used = draw_for(
        session.store,
        session.occasion(day, why),
        recipe,
        job,
        fill=qty,
        fills=fills,
        objects=objects,
        choices=choices,
        booking=booking,
        dry_run=dry_run,
    )
    session.document(
        {
            **drawing_document(used, session.currency, why),
            "code": None,
            "job": used.job,
            "objects": list(used.objects),
            "fill": amount_text(used.fill)[0] if used.fill else None,
            "unit": amount_text(used.fill)[1] if used.fill else None,
            "fills": used.fills,
            "booking": used.booking,
        }
    )
    fill = f", {used.fills} x {show(used.fill)}" if used.fill else ""
    session.say(f"{used.recipe_name} for {used.job} {used.job_title}{fill}")
    say_drawing(session, used)
    if used.strength:
        session.say(f"Strength: {used.strength}.")
    if used.action is None:
        say_not_booked(session, used.waits_for)
    else:
        session.say(f"Action {used.action}. 'stockroom undo {used.action} --why …' takes it back.")
