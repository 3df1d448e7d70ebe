"""`stockroom held`: what is here, with hazards and safety sheets, to hang at the door."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option, lot_names
from stockroom.cli.papers import Into, hand_out, paper_options
from stockroom.cli.session import Session
from stockroom.science.money import money_text
from stockroom.science.quantities import amount_and_unit

if TYPE_CHECKING:
    from stockroom.domain.held import Container, Held


@click.command()
@click.option("--on", "day", metavar="DATE", help="At the end of that day; else now.")
@click.option("--place", metavar="P", help="Only what is there.")
@click.option("--hazard", metavar="H", help="Only what carries it: H225, GHS02, flammable.")
@click.option(
    "--sheet-years", type=click.IntRange(1, 50), default=3, metavar="N", help="From this age a safety sheet is old (3)."
)
@paper_options()
@json_option
@click.pass_obj
def held(
    session: Session,
    day: str | None,
    place: str | None,
    hazard: str | None,
    sheet_years: int,
    into: Into,
) -> None:
    """What is held: containers, amounts, warnings, solutions and waste included; totals by hazard and place.

    It names the safety sheets that are missing or old ('stockroom material edit MATERIAL --safety-sheet FILE
    --safety-sheet-date DATE'), and what it would cost to have all of it again.
    Example: stockroom held --place 'solvent cupboard' --out door.pdf
    """
    from stockroom.actions.held import held as what_is_held
    from stockroom.actions.held_paper import held_paper
    from stockroom.errors import BadInput
    from stockroom.science.days import read_day

    today = session.local.date()
    on = read_day(day, today=today) if day else today
    if on > today:
        raise BadInput(f"{on} is still to come: what is held is known up to today.")
    found = what_is_held(session.store, on, place=place, hazard=hazard, sheet_years=sheet_years)
    hand_out(session, held_paper(found, session.currency), into, _document(found, session.currency))


def _document(found: Held, currency: str) -> dict[str, Any]:
    return {
        "on": found.on,
        "place": found.place,
        "hazard": found.hazard,
        "signal_word": found.signal_word,
        "pictograms": list(found.pictograms),
        "containers": [_container(one, currency) for one in found.containers],
        "totals": [
            {
                "code": one.code,
                "statement": one.statement,
                "place": one.place,
                "containers": one.containers,
                "amounts": [amount_and_unit(amount) for amount in one.amounts],
            }
            for one in found.totals
        ],
        "safety_sheets": [
            {"material": one.key, "name": one.name, "file": one.file, "dated": one.dated, "trouble": one.trouble}
            for one in found.sheets
        ],
        "value": money_text(found.value, currency),
        "replacement": money_text(found.replacement, currency),
        "without_offer": money_text(found.without_offer, currency),
        "cost_incomplete": not found.cost_known,
        "currency": currency,
    }


def _container(one: Container, currency: str) -> dict[str, Any]:
    material = one.lot.material
    return {
        **lot_names(one.lot),
        "kind": one.lot.kind,
        **amount_and_unit(one.amount),
        "solid_only": one.solid_only,
        "strength": one.strength,
        "place": one.place,
        "signal_word": material.signal_word,
        "hazards": list(material.hazards),
        "pictograms": list(material.pictograms),
        "safety_sheet": material.safety_sheet,
        "safety_sheet_date": material.safety_sheet_date,
        "value": money_text(one.value, currency),
        "replacement": None if one.replacement is None else money_text(one.replacement, currency),
    }
