"""`material`: the kinds of thing that can be held."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.nouns import (
    Retired,
    changes_document,
    edits_document,
    retired_option,
    retired_words,
    retires,
    say_changes,
    say_edits,
    still_lines,
    without_nothing,
)
from stockroom.cli.output import Command, json_option
from stockroom.cli.session import Session, why_option
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.science.quantities import Dimension, amount_and_unit, amount_text
from stockroom.science.quantities import show as show_quantity
from stockroom.store.edits import edits_of
from stockroom.store.lots import lots_of_materials
from stockroom.store.materials import all_materials, find_material
from stockroom.store.recipes import recipe_making

if TYPE_CHECKING:
    from stockroom.planning.demand import OrderWhenBelow

_ONE = (
    ("--density", "NUMBER", "Grams per millilitre: of the liquid, or of the solid itself."),
    ("--purity", "PERCENT", "What part of it is the substance: '95 % w/w'."),
    ("--molar-mass", "NUMBER", "Grams per mole as it is weighed, water of crystallisation included."),
    ("--kind", "WORD", "reagent, solvent, sheet, solution … in your own words."),
    ("--grade", "TEXT", "Viscosity, weight, quality: part of what it is."),
    ("--pack-word", "WORD", "What a pack is called: roll, ream; with --pack."),
    ("--pack", "QTY", "How much such a pack holds: '50 m2'."),
    ("--sheet", "SIZE", "One sheet's sides: '760 x 560 mm'."),
    ("--grain", "along|across|none", "Which way the grain lies against the first side."),
    ("--life-closed", "TIME", "How long it keeps unopened: '24 months'."),
    ("--life-opened", "TIME", "How long it keeps once opened: '6 months'."),
    ("--low", "QTY", "Below this it is due to be bought or made."),
    ("--storage", "TEXT", "How to keep it."),
    ("--signal-word", "Danger|Warning", "The signal word of its label."),
    ("--hazard-ground", "TEXT", "Where its classification comes from."),
    ("--source", "TEXT", "Where these numbers come from."),
    ("--identity", "TEXT", "What it is whatever it is sold as; it stands in materials statements."),
    ("--safety-sheet", "FILE", "Where the maker's safety sheet is kept."),
    ("--safety-sheet-date", "DATE", "The day that stands on it: 2026-11-25."),
)
_SEVERAL = (
    ("--hazard", "hazards", "TEXT", "A statement: 'H318 Causes serious eye damage'. May be repeated."),
    ("--precaution", "precautions", "TEXT", "A precaution: 'P280 Wear eye protection'. May be repeated."),
    ("--pictogram", "pictograms", "CODE", "GHS01 to GHS09. May be repeated."),
)


def _describing_options(command: Command) -> Command:
    """Add the options that describe a material, named as in a material file."""
    for name, parameter, metavar, words in reversed(_SEVERAL):
        command = click.option(name, parameter, metavar=metavar, multiple=True, help=words)(command)
    command = click.option(
        "--register/--no-register", default=None, help="The studio keeps a register of it, by local rules."
    )(command)
    command = click.option("--vented/--closed", default=None, help="Gives off gas: never kept tight.")(command)
    command = click.option(
        "--metered/--not-metered", default=None, help="Not metered: in steps, never in balances; tap water."
    )(command)
    for name, metavar, words in reversed(_ONE):
        aliases = (name, "--sheet-size") if name == "--sheet" else (name,)
        command = click.option(*aliases, name[2:].replace("-", "_"), metavar=metavar, help=words)(command)
    return command


@click.group()
def material() -> None:
    """Reagents, solvents, sheets, solutions and whatever else is held."""


@material.command()
@click.argument("name")
@click.option(
    "--measured-by", type=click.Choice([each.value for each in Dimension]), required=True, help="Fixed afterwards."
)
@click.option("--key", metavar="KEY", help="A short name to type; else it is made from the name.")
@_describing_options
@json_option
@click.pass_obj
def new(session: Session, /, **typed: Any) -> None:
    """Add a material: stockroom material new "Agar" --measured-by mass --life-closed "3 years"."""
    from stockroom.actions.materials import new_material

    added = new_material(session.store, _given(session, typed))
    session.document(_document(added))
    session.say(f"Added {added.name}: {added.key}, measured by {added.dimension.value}.")


@material.command("list")
@click.argument("words", nargs=-1)
@retired_option
@json_option
@click.pass_obj
def list_materials(session: Session, words: tuple[str, ...], retired: bool) -> None:
    """List the materials that hold all these words, or all of them."""
    found = all_materials(session.store, " ".join(words), retired=retired)
    width = max((len(each.key) for each in found), default=0)

    def told(each: Material) -> str:
        grade = f", {each.grade}" if each.grade else ""
        return f"{each.key:{width}}  {each.name}{grade}; {each.dimension.value}{retired_words(each.retired_on)}"

    nothing = "No material holds these words." if words else "No materials yet: stockroom material new NAME."
    session.listing("materials", found, _document, told, nothing)


@material.command()
@click.argument("material", metavar="MATERIAL")
@json_option
@click.pass_obj
def show(session: Session, material: str) -> None:
    """Show a material: what it says of itself, its lots, the recipes that name it, its edits."""
    from stockroom.actions.material_hazards import material_hazards
    from stockroom.actions.materials import recipes_naming
    from stockroom.cli.told_hazards import beside_document, say_beside

    found = find_material(session.store, material)
    lots = lots_of_materials(session.store, [found.id])
    recipes = recipes_naming(session.store, found.key)
    edits = edits_of(session.store, "material", found.key)
    hazards = material_hazards(session.store, found)
    point = _order_point(session, found) if found.metered else None
    session.document(
        {
            **_document(found),
            "use": point and _point_document(point),
            "lots": [{"code": lot.code, **amount_and_unit(lot.amount), "place": lot.place} for lot in lots],
            "recipes": recipes,
            **beside_document(hazards),
            "edits": edits_document(edits),
        }
    )
    session.say(found.name + retired_words(found.retired_on))
    for name, value in _document(found).items():
        if name not in ("name", "retired_on") and value is not False:
            said = "; ".join(value) if isinstance(value, list) else "yes" if value is True else value
            session.say(f"  {name.replace('_', ' ')}: {said}")
    say_beside(session, hazards)
    for lot in lots:
        session.say(f"  lot {lot.code}: {show_quantity(lot.amount)}" + (f", {lot.place}" if lot.place else ""))
    if recipes:
        session.say(f"  in recipes: {', '.join(recipes)}")
    if point and point.uses:
        made_here = recipe_making(session.store, found.key) is not None
        for sentence in point.why[:1] if made_here else point.why:
            session.say(f"  {sentence}")
    say_edits(session, edits)


def _order_point(session: Session, found: Material) -> OrderWhenBelow:
    """Say what its use tells of when to order it; the delivery time is the longest of those who offer it."""
    from stockroom.actions.order_points import choices_by_material, longest_days
    from stockroom.actions.reorder_points import order_point_of

    days = longest_days(choices_by_material(session.store).get(found.id, []))
    return order_point_of(session.store, found, session.local.date(), days)


def _point_document(point: OrderWhenBelow) -> dict[str, Any]:
    """Return what programs get of use that was not booked ahead."""
    below = point.below and amount_text(point.below)
    limits = point.per_year
    return {
        "rule": point.rule,
        "uses": point.uses,
        "per_year": {"low": limits.low, "best": limits.best, "high": limits.high, "unit": "uses a year"},
        "delivery_days": point.delivery_days,
        "chance": point.chance,
        "order_when_below": below[0] if below else None,
        "unit": below[1] if below else None,
        "fading": point.fading,
        "why": list(point.why),
    }


@material.command()
@click.argument("material", metavar="MATERIAL")
@click.option("--name", metavar="NAME", help="What it is called from now on; the key stays.")
@_describing_options
@why_option
@json_option
@click.pass_obj
def edit(session: Session, /, material: str, why: str | None, **typed: Any) -> None:
    """Change what a material says of itself; '' takes something away.

    Hazards are changed with a reason (--why), which is shown beside what the program suggests.
    The old value, who changed it and when are kept. What was booked before keeps the numbers it was booked with.
    """
    from stockroom.actions.material_hazards import HAZARD_FIELDS, material_hazards
    from stockroom.actions.materials import edit_material
    from stockroom.cli.told_hazards import beside_document, say_beside

    changed, made = edit_material(session.store, session.occasion(why=why), material, _given(session, typed))
    hazards = material_hazards(session.store, changed)
    session.document({**_document(changed), "changes": changes_document(made), **beside_document(hazards)})
    say_changes(session, changed.key, made)
    if any(change.field in HAZARD_FIELDS for change in made):
        say_beside(session, hazards)


@retires(material, "MATERIAL")
def retire(session: Session, occasion: Occasion, material: str, undo: bool) -> Retired:
    """Offer a material no more; its lots stay usable."""
    from stockroom.actions.materials import retire_material

    ended = retire_material(session.store, occasion, material, undo=undo)
    document = {**_document(ended.material), "lots": list(ended.lots), "recipes": list(ended.recipes)}
    still = still_lines(undo, ("on the shelf", ended.lots), ("in recipes", ended.recipes))
    return document, ended.material.name, still


def _given(session: Session, typed: dict[str, Any]) -> dict[str, object]:
    """Leave out what was not typed; what may be repeated is a list, a day is read as any day that is typed."""
    if typed.get("safety_sheet_date"):
        from stockroom.science.days import read_day

        typed["safety_sheet_date"] = read_day(typed["safety_sheet_date"], today=session.local.date()).isoformat()
    return {
        name: list(value) if isinstance(value, tuple) else value
        for name, value in typed.items()
        if value is not None and value != ()
    }


def _document(material: Material) -> dict[str, Any]:
    from stockroom.actions.materials import written

    return without_nothing({**written(material), "retired_on": material.retired_on})
