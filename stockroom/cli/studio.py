"""`studio`: what the studio chooses for its saturated jars, for when to order, and for its screens."""

from __future__ import annotations

import click

from stockroom.cli.nouns import changes_document, edits_document, say_changes, say_edits
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, why_option

_DATES = {"year-first": "year first, as 2026-11-25,", "day-first": "day first, as 25.11.2026,"}


@click.group()
def studio() -> None:
    """What the studio chooses: limit of saturation, refills over the same solid, humidity, how long stock must last,
    dates and numbers on the screens."""


@studio.command()
@json_option
@click.pass_obj
def show(session: Session) -> None:
    """Show what the studio has chosen, and every change there was."""
    from stockroom.actions.studio_choices import studio_choices

    found = studio_choices(session.store)
    allowed = "any number" if found.refills_allowed is None else str(found.refills_allowed)
    session.document(
        {
            "limit_percent": found.limit_percent,
            "limit_source": found.limit_source,
            "refills_allowed": found.refills_allowed,
            "refills_source": found.refills_source,
            "humidity_tolerance": found.humidity_tolerance,
            "humidity_source": found.humidity_source,
            "running_out_percent": found.running_out_percent,
            "running_out_source": found.running_out_source,
            "dates": found.dates,
            "dates_source": found.dates_source,
            "decimal_sign": found.decimal_sign,
            "decimal_sign_source": found.decimal_sign_source,
            "edits": edits_document(found.edits),
        }
    )
    session.say(f"limit     {found.limit_percent:g} % of saturation, below which a jar is weak ({found.limit_source})")
    session.say(f"refills   {allowed} over the same solid ({found.refills_source})")
    session.say(f"humidity  may be off by {found.humidity_tolerance:g} % RH over a salt ({found.humidity_source})")
    session.say(
        f"stock     may run out before a delivery in {found.running_out_percent:g} % of orders "
        f"({found.running_out_source})"
    )
    session.say(f"dates     {_DATES.get(found.dates, found.dates)} on the screens ({found.dates_source})")
    session.say(f"numbers   with a {found.decimal_sign} on the screens ({found.decimal_sign_source})")
    say_edits(session, found.edits)


@studio.command()
@click.option("--limit", metavar="PERCENT", help="Of saturation, below which a saturated jar is weak (90 %).")
@click.option(
    "--refills",
    metavar="never|NUMBER|any",
    help="How often the solid in a jar may be watered again before it is suspect. One pharmacopoeia says never.",
)
@click.option("--humidity", metavar="PERCENT", help="What the humidity over a saturated salt may be off by (5 % RH).")
@click.option(
    "--running-out", metavar="PERCENT", help="How likely stock may run out before a delivery, for each order (5 %)."
)
@click.option(
    "--dates",
    metavar="year-first|day-first",
    help="How dates stand on the screens: 2026-11-25, as until chosen, or 25.11.2026.",
)
@click.option(
    "--decimal-sign", metavar="point|comma", help="Of numbers on the screens: 1.5 mL, as until chosen, or 1,5 mL."
)
@why_option
@json_option
@click.pass_obj
def edit(
    session: Session,
    limit: str | None,
    refills: str | None,
    humidity: str | None,
    running_out: str | None,
    dates: str | None,
    decimal_sign: str | None,
    why: str | None,
) -> None:
    """Choose anew; who, when and the old value are kept.

    Example: stockroom studio edit --limit "85 %" --refills 2 --why "weak baths suffice"
    """
    from stockroom.actions.studio_choices import edit_choices

    made = edit_choices(
        session.store,
        session.occasion(why=why),
        limit=limit,
        refills=refills,
        humidity=humidity,
        running_out=running_out,
        dates=dates,
        decimal_sign=decimal_sign,
    )
    session.document({"changes": changes_document(made)})
    say_changes(session, "The studio's choices", made)
