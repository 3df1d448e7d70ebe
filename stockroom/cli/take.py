"""`stockroom take`, `bring-back` and `return`: a little of one lot, in and out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options, day_option, dry_run_option, why_option

if TYPE_CHECKING:
    from stockroom.actions.taking import Taking


@click.command()
@click.argument("code")
@click.argument("quantity")
@click.option("--job", metavar="JOB", help="The job it is for.")
@click.option("--object", "objects", multiple=True, metavar="OBJECT", help="Which of the job's objects.")
@click.option(
    "--why", metavar="REASON", help="spilled, broken, lent, given, test or cleaning; with --job, why an unfit lot."
)
@click.option("--to", "to_whom", metavar="WHO", help="Whom it is lent to.")
@click.option("--back", metavar="DATE", help="When a loan is to be back.")
@click.option("--count-first", is_flag=True, help="Book what the books do not hold as found, then take it.")
@click.option(
    "--keep-offcut",
    "offcuts",
    multiple=True,
    metavar="SIZE",
    help="What goes back to the shelf of the sheet a piece is cut from, '20 x 76 cm'; each becomes a lot.",
)
@day_option
@dry_run_option
@json_option
@click.pass_obj
def take(
    session: Session,
    code: str,
    quantity: str,
    job: str | None,
    objects: tuple[str, ...],
    why: str | None,
    to_whom: str | None,
    back: str | None,
    count_first: bool,
    offcuts: tuple[str, ...],
    day: str | None,
    dry_run: bool,
) -> None:
    """Take a little of one lot, for a job or for a reason.

    Example: stockroom take L001W '20 mL' --why cleaning; of a sheet, stockroom take L002U '50 x 70 cm' --job J001R
    --keep-offcut '50 x 70 cm'
    """
    from stockroom.actions.taking import take as take_some
    from stockroom.cli.told_hazards import cautions_document, say_cautions

    taken = take_some(
        session.store,
        session.occasion(day, why),
        code,
        quantity,
        job=job,
        objects=objects,
        reason=None if job else why,
        to_whom=to_whom,
        back_on=back,
        count_first=count_first,
        keep_offcuts=offcuts,
        dry_run=dry_run,
    )
    say_cautions(session, taken.cautions)
    tell(session, taken, "Taken", {"why": why, "cautions": cautions_document(taken.cautions)})


@click.command("return")
@click.argument("code")
@click.argument("quantity")
@click.option("--credit", required=True, metavar="MONEY", help="What the supplier gives back; 0 for nothing.")
@why_option
@day_option
@dry_run_option
@json_option
@click.pass_obj
def return_lot(
    session: Session, code: str, quantity: str, credit: str, why: str | None, day: str | None, dry_run: bool
) -> None:
    """Send some of a bought lot back to its supplier.

    Example: stockroom return L001W '1 L' --credit 12.00 --why 'leaking cap'
    """
    from stockroom.actions.taking import return_lot as send_back
    from stockroom.science.money import money_text, read_money

    minor = read_money(credit, session.currency)
    gone = send_back(session.store, session.occasion(day, why), code, quantity, minor, dry_run=dry_run)
    tell(session, gone, "Sent back", {"credit": money_text(minor, session.currency)})


@click.command("bring-back")
@click.argument("named", metavar="ACTION|CODE")
@click.argument("quantity")
@click.option("--job", metavar="JOB", help="Which job brings it back.")
@click.option("--used", is_flag=True, help="A bath that was used: kept only to be discarded.")
@booking_options
@json_option
@click.pass_obj
def bring_back(
    session: Session,
    named: str,
    quantity: str,
    job: str | None,
    used: bool,
    day: str | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Bring back part of what was taken; for the action of a use, keep what is left of its bath.

    Example: stockroom bring-back L001W '5 mL' --job J001R
    """
    from stockroom.actions.bringing_back import bring_back as put_back
    from stockroom.cli.told import say_not_booked
    from stockroom.science.money import money_text, show_money
    from stockroom.science.quantities import amount_and_unit, show

    back = put_back(
        session.store, session.occasion(day, why), named, quantity, job=job, used_bath=used, dry_run=dry_run
    )
    session.document(
        {
            "action": back.action,
            "code": back.code,
            "kind": back.kind,
            **amount_and_unit(back.quantity),
            "value": money_text(back.value, session.currency),
            "currency": session.currency,
            "job": back.job,
        }
    )
    what = {"bring-back": "Back", "remainder": "Kept, unused", "used bath": "Kept to be discarded"}[back.kind]
    value = show_money(back.value, session.currency)
    session.say(f"{what}: {show(back.quantity)} of {back.name} ({back.code or 'a new jar'}), {value}.")
    if back.action is None:
        say_not_booked(session)


def tell(session: Session, taken: Taking, word: str, more: dict[str, Any]) -> None:
    """Say what was taken, sent back or thrown away, what it cost and whether the lot has ended."""
    from stockroom.actions.taking import told
    from stockroom.cli.told import drawn_document, offcuts_document, say_kept_counts, say_offcuts
    from stockroom.science.money import money_text, show_money
    from stockroom.science.quantities import amount_text

    currency = session.currency
    left, unit = amount_text(taken.left)
    session.document(
        {
            "action": taken.action,
            "code": taken.code,
            "drawn": drawn_document(taken.drawn, currency),
            "cost": money_text(taken.cost, currency),
            "currency": currency,
            "left": left,
            "unit": unit,
            "job": taken.job,
            "ended": taken.ended,
            "offcuts": offcuts_document(taken.offcuts, currency),
            **more,
        }
    )
    session.say(f"{word if taken.action else 'Would be ' + word.lower()}: {told(taken)}.")
    cost = f", {show_money(taken.cost, currency)}" if taken.drawn else ""
    session.say(
        f"Action {taken.action or 'not booked'}{cost}."
        + (" The lot has ended: take its label off." if taken.ended else "")
    )
    say_offcuts(session, taken.offcuts)
    say_kept_counts(session, taken.reworked)
