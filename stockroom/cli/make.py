"""`stockroom make`: make up a solution."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, day_option, dry_run_option, why_option

Command = TypeVar("Command", bound=Callable[..., Any])


def choice_options(command: Command) -> Command:
    """Add what the hand may have done otherwise than planned: --from, --took, --count-first, --added, --reached."""
    for option in (
        click.option("--reached", metavar="READING", help="For a line to a reading: what the meter read, 'pH 8.2'."),
        click.option("--added", metavar="AMOUNT", help="For a line to a reading: what was added, in all."),
        click.option("--count-first", is_flag=True, help="Book what the books do not hold as found, then draw."),
        click.option("--took", multiple=True, metavar="'MATERIAL=AMOUNT'", help="What was really taken."),
        click.option("--from", "lots", multiple=True, metavar="CODE", help="Draw from this lot."),
    ):
        command = option(command)
    return command


@click.command()
@click.argument("recipe")
@click.argument("quantity", required=False)
@click.option("--into", metavar="'2 x 1 L'", help="The jars; else one for all.")
@click.option("--yield", "yielded", metavar="AMOUNT", help="What came out, where it is not what was planned.")
@click.option("--place", metavar="PLACE", help="Where the jars are kept.")
@click.option("--temperature", metavar="'22 °C'", help="At which it is shaken and settles; strength follows it.")
@choice_options
@day_option
@why_option
@dry_run_option
@json_option
@click.pass_obj
def make(
    session: Session,
    recipe: str,
    quantity: str | None,
    into: str | None,
    yielded: str | None,
    place: str | None,
    temperature: str | None,
    lots: tuple[str, ...],
    took: tuple[str, ...],
    count_first: bool,
    added: str | None,
    reached: str | None,
    day: str | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Make up a stock: draw its ingredients and give each jar its code, dates and cost.

    Example: stockroom make calcium-hydroxide-saturated '2 L' --into '2 x 1 L' --dry-run
    """
    from stockroom.actions.drawing import Choices
    from stockroom.actions.making import make as make_up
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
    from stockroom.planning.fitness import spoken
    from stockroom.science.money import money_text
    from stockroom.science.quantities import amount_text, show

    choices = Choices(lots=lots, took=took, count_first=count_first, added=added, reached=reached)
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
        dry_run=dry_run,
    )
    currency = session.currency
    amount, unit = amount_text(made.total)
    session.document(
        {
            "action": made.action,
            "code": made.codes[0] if made.codes else None,
            "codes": list(made.codes),
            "recipe": made.recipe,
            "version": made.version,
            "material": made.material,
            "amount": amount,
            "unit": unit,
            "jars": [amount_text(jar)[0] for jar in made.jars],
            "drawn": drawn_document(made.drawn, currency),
            "short": [],
            "strength": made.strength,
            "use_by": made.use_by,
            "use_by_rule": made.use_by_rule,
            "ready_on": made.ready_on,
            "check_by": made.check_by,
            "cost": money_text(made.cost, currency),
            "currency": currency,
            "cost_incomplete": not made.cost_complete,
            "opened": list(made.opened),
            "waits_for": made.waits_for,
            "why": why,
            "steps": steps_document(made.steps),
            "cautions": cautions_document(made.cautions),
        }
    )
    session.say(f"{made.recipe_name}: {show(made.total)}")
    say_cautions(session, made.cautions, made.steps)
    say_steps(session, made.steps)
    say_drawn(session, made.drawn, made.action is None)
    say_cost(session, made.cost, made.cost_complete)
    say_opened(session, made.opened)
    say_kept_counts(session, made.reworked)
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
