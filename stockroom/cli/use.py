"""`stockroom use`: draw a treatment's materials for a job."""

from __future__ import annotations

import click

from stockroom.cli.make import choice_options
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, day_option, dry_run_option, why_option


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
    lots: tuple[str, ...],
    took: tuple[str, ...],
    count_first: bool,
    added: str | None,
    reached: str | None,
    day: str | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Draw all that a bath or treatment takes for a job, oldest date first; or say exactly what is short.

    Example: stockroom use deacidify-and-size --job J001R --qty '500 mL' --fills 2
    """
    from stockroom.actions.drawing import Choices
    from stockroom.actions.using import use as draw_for
    from stockroom.cli.told import (
        drawn_document,
        say_cost,
        say_drawn,
        say_kept_counts,
        say_not_booked,
        say_opened,
        say_steps,
        steps_document,
    )
    from stockroom.cli.told_hazards import cautions_document, say_cautions
    from stockroom.science.money import money_text
    from stockroom.science.quantities import amount_text, show

    used = draw_for(
        session.store,
        session.occasion(day, why),
        recipe,
        job,
        fill=qty,
        fills=fills,
        objects=objects,
        choices=Choices(lots=lots, took=took, count_first=count_first, added=added, reached=reached),
        booking=booking,
        dry_run=dry_run,
    )
    currency = session.currency
    session.document(
        {
            "action": used.action,
            "code": None,
            "recipe": used.recipe,
            "version": used.version,
            "job": used.job,
            "objects": list(used.objects),
            "fill": amount_text(used.fill)[0] if used.fill else None,
            "unit": amount_text(used.fill)[1] if used.fill else None,
            "fills": used.fills,
            "drawn": drawn_document(used.drawn, currency),
            "short": [],
            "strength": used.strength,
            "cost": money_text(used.cost, currency),
            "currency": currency,
            "cost_incomplete": not used.cost_complete,
            "opened": list(used.opened),
            "booking": used.booking,
            "waits_for": used.waits_for,
            "why": why,
            "steps": steps_document(used.steps),
            "cautions": cautions_document(used.cautions),
        }
    )
    fill = f", {used.fills} x {show(used.fill)}" if used.fill else ""
    session.say(f"{used.recipe_name} for {used.job} {used.job_title}{fill}")
    say_cautions(session, used.cautions, used.steps)
    say_steps(session, used.steps)
    say_drawn(session, used.drawn, used.action is None)
    say_cost(session, used.cost, used.cost_complete)
    say_opened(session, used.opened)
    say_kept_counts(session, used.reworked)
    if used.strength:
        session.say(f"Strength: {used.strength}.")
    if used.action is None:
        say_not_booked(session, used.waits_for)
    else:
        session.say(f"Action {used.action}. 'stockroom undo {used.action} --why …' takes it back.")
