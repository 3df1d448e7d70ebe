"""`stockroom use`: draw a treatment's materials for a job."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from stockroom.cli.choices import choice_options
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options
from stockroom.errors import BadInput, Refused

if TYPE_CHECKING:
    from stockroom.actions.again import LastTreatment
    from stockroom.actions.drawing import Choices


@click.command()
@click.argument("recipe", required=False)
@click.option("--again", is_flag=True, help="The job's last treatment once more; what is said beside it differs.")
@click.option("--job", required=True, metavar="JOB", help="The job, by code or title.")
@click.option("--qty", metavar="AMOUNT", help="One fill of the bath.")
@click.option("--tray", metavar="NAME", help="One fill is what this tray of yours takes; with --depth.")
@click.option("--depth", metavar="LENGTH", help="How deep the liquid stands in the tray, '8 mm'.")
@click.option("--most", is_flag=True, help="Say how large a fill can be made from what is here; books nothing.")
@click.option("--fills", type=int, metavar="N", help="How often the bath is filled.")
@click.option("--object", "objects", multiple=True, metavar="OBJECT", help="Which of the job's objects.")
@click.option("--booking", metavar="CODE", help="The booking this fulfils.")
@click.option("--tested", metavar="INITIALS", help="Who tested media, inks and colours before it gets wet.")
@click.option("--not-tested", metavar="REASON", help="Why nobody did; the reason stays in the job's record.")
@click.option(
    "--keep-offcut",
    "offcuts",
    multiple=True,
    metavar="[CODE=]SIZE",
    help="What goes back to the shelf of the sheets that are cut, '20 x 76 cm'; each becomes a lot.",
)
@choice_options
@booking_options
@json_option
@click.pass_obj
def use(
    session: Session,
    recipe: str | None,
    again: bool,
    job: str,
    qty: str | None,
    tray: str | None,
    depth: str | None,
    most: bool,
    fills: int | None,
    objects: tuple[str, ...],
    booking: str | None,
    tested: str | None,
    not_tested: str | None,
    offcuts: tuple[str, ...],
    choices: Choices,
    day: str | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Draw all that a bath or treatment takes for a job, oldest date first; or say exactly what is short.

    Example: stockroom use deacidify-and-size --job J001R --qty '500 mL' --fills 2. One fill may be said by a tray of
    your own, --tray '30 x 40 cm tray' --depth '8 mm'; --most finds the largest that can be made. The last treatment
    of a job is repeated by stockroom use --again --job J001R: same recipe, fill, fills and objects, from what is here.
    """
    from stockroom.actions.filling import fill_of_tray, greatest_fill
    from stockroom.actions.using import use as draw_for
    from stockroom.cli.told import drawing_document, offcuts_document, say_drawing, say_not_booked, say_offcuts
    from stockroom.science.quantities import amount_and_unit, show

    occasion = session.occasion(day, why)
    in_tray = fill_of_tray(session.store, tray, depth)
    last = _last(session, recipe, again, job)
    if last:
        recipe, fills, objects = last.recipe, fills or last.fills, objects or last.objects
        qty = qty if qty or in_tray or most or booking else last.fill
    elif recipe is None:
        raise BadInput("Which treatment? Say its recipe, or --again for the job's last one.")
    greatest = None
    if most:
        if qty or in_tray or booking:
            raise BadInput("--most finds how large a fill can be: leave --qty, --tray and --booking out.")
        greatest = greatest_fill(session.store, occasion, recipe, job, fills=fills, objects=objects, choices=choices)
        qty, dry_run = show(greatest.fill), True
    if tested is None and not_tested is None and not dry_run and _at_a_terminal(session):
        tested, not_tested = _ask_for_test(session, recipe)
    used = draw_for(
        session.store,
        occasion,
        recipe,
        job,
        fill=qty,
        in_tray=in_tray,
        fills=fills,
        objects=objects,
        choices=choices,
        booking=booking,
        tested=tested,
        not_tested=not_tested,
        keep_offcuts=offcuts,
        dry_run=dry_run,
    )
    session.document(
        {
            **drawing_document(used, session.currency, why),
            "code": None,
            "job": used.job,
            "objects": list(used.objects),
            **amount_and_unit(used.fill, "fill"),
            "fills": used.fills,
            "tray": in_tray.words if in_tray else None,
            "again": {"action": last.action, "day": last.day} if last else None,
            "most": {"limited_by": list(greatest.limited_by)} if greatest else None,
            "booking": used.booking,
            "offcuts": offcuts_document(used.offcuts, session.currency),
            "media_test": {
                "asked": used.media.asked,
                "bath": used.media.bath,
                "by": used.media.by,
                "not_tested": used.media.not_tested,
            },
        }
    )
    fill = f", {used.fills} x {show(used.fill)}" if used.fill else ""
    session.say(f"{used.recipe_name} for {used.job} {used.job_title}{fill}")
    if greatest:
        session.say(f"  That is the most that can be made from what is here: {', '.join(greatest.limited_by)} ends it.")
    if used.media.words:
        session.say(f"  {'' if used.media.by else '! '}{used.media.words[0].upper()}{used.media.words[1:]}.")
    say_drawing(session, used)
    say_offcuts(session, used.offcuts)
    if used.strength:
        session.say(f"Strength: {used.strength}.")
    if used.action is None:
        say_not_booked(session, used.waits_for)
    else:
        session.say(f"Action {used.action}. 'stockroom undo {used.action} --why …' takes it back.")


def _last(session: Session, recipe: str | None, again: bool, job: str) -> LastTreatment | None:
    """Return the treatment that is to be repeated, and say which it is."""
    if not again:
        return None
    if recipe is not None:
        raise BadInput("--again repeats the job's last treatment: leave the recipe out.")
    from stockroom.actions.again import last_treatment_of

    last = last_treatment_of(session.store, job)
    session.say(f"As {last.action} on {last.day}:")
    if last.changed:
        session.warn(f"{last.changed}: 'stockroom recipe show {last.recipe}' tells how it is now.")
    return last


def _at_a_terminal(session: Session) -> bool:
    return not session.json and sys.stdin.isatty() and sys.stderr.isatty()


def _ask_for_test(session: Session, recipe: str) -> tuple[str | None, str | None]:
    """Ask a person who tested the media, where the recipe wants to know: initials, or `no` and why."""
    from stockroom.actions.media import read_media_answer
    from stockroom.actions.recipe_book import load_book
    from stockroom.planning.media import media_question
    from stockroom.store.recipes import find_recipe

    found = find_recipe(session.store, recipe)
    media = media_question(found, load_book(session.store, found))
    if media.asked == "not asked":
        return None, None
    question = f"{media.question} Initials, or why not"
    answer = read_media_answer(session.store, click.prompt(question, default="", show_default=False, err=True))
    if answer == (None, None):
        raise Refused("Without an answer nothing is drawn. Say --tested INITIALS or --not-tested REASON.")
    return answer
