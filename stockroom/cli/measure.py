"""`measure`: what the studio measures with."""

from __future__ import annotations

from typing import Any

import click

from stockroom.cli.nouns import (
    Retired,
    edits_document,
    new_name_option,
    retired_option,
    retired_words,
    retires,
    say_edits,
    tell_edited,
    without_nothing,
)
from stockroom.cli.output import Command, json_option
from stockroom.cli.session import Session, why_option
from stockroom.domain.occasion import Occasion
from stockroom.domain.studio import MEASURE_KINDS, Measure, SpoonWeighing
from stockroom.science.quantities import Dimension, Quantity, amount_text
from stockroom.science.quantities import show as show_quantity
from stockroom.store.edits import edits_of
from stockroom.store.studio import all_measures, find_measure
from stockroom.store.weighings import spoon_weighings


@click.group()
def measure() -> None:
    """Spoons, beakers, cylinders, pipettes, trays and balances."""


def _size_options(command: Command) -> Command:
    for option in (
        click.option("--capacity", metavar="QTY", help="What it holds: '100 mL'."),
        click.option("--graduation", metavar="QTY", help="From one mark to the next: '10 mL'."),
        click.option("--tolerance", metavar="QTY", help="How far off its marks may be, as printed on it: '0.5 mL'."),
        click.option("--size", metavar="SIZE", help="A tray's inner sides: '30 x 40 cm'."),
        click.option("--resolution", metavar="QTY", help="A balance's smallest step: '0.01 g'."),
    ):
        command = option(command)
    return command


@measure.command()
@click.argument("name")
@click.option("--kind", type=click.Choice(MEASURE_KINDS), required=True, help="What kind of measure it is.")
@_size_options
@json_option
@click.pass_obj
def new(session: Session, /, name: str, kind: str, **typed: str | None) -> None:
    """Add a measure: stockroom measure new "blue spoon" --kind spoon --capacity "2.5 mL"."""
    from stockroom.actions.measures import new_measure

    added = new_measure(session.store, name, kind, **typed)
    session.document(_document(added))
    session.say(f"Added {_words(added)}.")


@measure.command("list")
@retired_option
@json_option
@click.pass_obj
def list_measures(session: Session, retired: bool) -> None:
    """List the measures."""
    found = all_measures(session.store, retired=retired)
    nothing = "No measures yet: stockroom measure new NAME --kind spoon --capacity '5 mL'."
    session.listing("measures", found, _document, _words, nothing)


@measure.command()
@click.argument("name")
@json_option
@click.pass_obj
def show(session: Session, name: str) -> None:
    """Show a measure and its edits."""
    found = find_measure(session.store, name, retired=True)
    edits = edits_of(session.store, "measure", str(found.id))
    weighings = [one for one in spoon_weighings(session.store) if one.spoon == found.name]
    weighed = [_weighing_document(one) for one in weighings]
    session.document({**_document(found), "weighed": weighed, "edits": edits_document(edits)})
    session.say(_words(found))
    for one in weighings:
        session.say(f"  {_weighing_words(one)}")
    say_edits(session, edits)


@measure.command()
@click.argument("name")
@new_name_option
@_size_options
@why_option
@json_option
@click.pass_obj
def edit(session: Session, /, name: str, new_name: str | None, why: str | None, **typed: str | None) -> None:
    """Rename a measure or change what it holds."""
    from stockroom.actions.measures import edit_measure

    changed, made = edit_measure(session.store, session.occasion(why=why), name, name=new_name, **typed)
    tell_edited(session, _document(changed), changed.name, made)


@measure.command()
@click.argument("spoon")
@click.argument("material")
@click.argument("masses", metavar="MASS…", nargs=-1, required=True)
@json_option
@click.pass_obj
def weigh(session: Session, spoon: str, material: str, masses: tuple[str, ...]) -> None:
    """Keep what a spoon holds: stockroom measure weigh "5 mL spoon" methyl-cellulose "2.1 g" "2.3 g" "2.2 g".

    Weigh several levelled spoonfuls: their scatter is kept with them. The last weighing of a spoon and a powder counts
    and takes the place of the range by bulk density.
    """
    from stockroom.actions.measures import weigh_spoon

    kept = weigh_spoon(session.store, session.occasion(), spoon, material, masses)
    session.document({"name": kept.spoon, **_weighing_document(kept)})
    session.say(f"{kept.spoon}: {_weighing_words(kept)}")


@retires(measure, "NAME")
def retire(session: Session, occasion: Occasion, name: str, undo: bool) -> Retired:
    """Offer a measure no more."""
    from stockroom.actions.measures import retire_measure

    changed = retire_measure(session.store, occasion, name, undo=undo)
    return _document(changed), changed.name, []


def _document(measure: Measure) -> dict[str, Any]:
    from stockroom.actions.measures import described

    values = described(measure)
    return without_nothing(
        {"name": values.pop("name"), "kind": measure.kind, **values, "retired_on": measure.retired_on}
    )


def _weighing_document(one: SpoonWeighing) -> dict[str, Any]:
    masses = [amount_text(Quantity(Dimension.MASS, mass))[0] for mass in one.masses_ug]
    return {"material": one.material, "masses": masses, "unit": "g", "day": one.day, "by": one.initials}


def _weighing_words(one: SpoonWeighing) -> str:
    masses = ", ".join(show_quantity(Quantity(Dimension.MASS, mass)) for mass in one.masses_ug)
    return f"holds {masses} of {one.material_name}, weighed on {one.day} by {one.initials}"


def _words(measure: Measure) -> str:
    from stockroom.actions.measures import described

    held = ", ".join(f"{field} {value}" for field, value in described(measure).items() if field != "name" and value)
    retired = retired_words(measure.retired_on)
    return f"{measure.name}: {measure.kind}, {held}{retired}"
