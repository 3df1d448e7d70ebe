"""`studio`: what the studio chooses for its saturated jars, and for when to order."""

from __future__ import annotations

import click

from stockroom.cli.nouns import changes_document, edits_document, say_changes, say_edits
from stockroom.cli.output import json_option
from stockroom.cli.session import Session, why_option


@click.group()
def studio() -> None:
    """What the studio chooses: limit of saturation, refills over the same solid, humidity, how long stock must last."""


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
@why_option
@json_option
@click.pass_obj
def edit(
    session: Session,
    limit: str | None,
    refills: str | None,
    humidity: str | None,
    running_out: str | None,
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
    )
    session.document({"changes": changes_document(made)})
    say_changes(session, "The studio's choices", made)
