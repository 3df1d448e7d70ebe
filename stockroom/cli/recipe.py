"""`recipe`: how a solution is made, how a bath is mixed, what a treatment uses."""

from __future__ import annotations

import click

from stockroom.cli.nouns import (
    Retired,
    edits_document,
    retired_option,
    retired_words,
    retires,
    say_edits,
    still_lines,
)
from stockroom.cli.output import json_option
from stockroom.cli.recipe_exchange import export, import_recipe
from stockroom.cli.session import Session, dry_run_option, why_option
from stockroom.cli.told_recipes import (
    head_document,
    read_file,
    recipe_document,
    say_differences,
    tell_kept,
)
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipe_words import says
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput
from stockroom.science.quantities import show as show_quantity
from stockroom.store.edits import edits_of
from stockroom.store.materials import all_materials
from stockroom.store.recipes import all_recipes, find_recipe, versions_of


@click.group()
def recipe() -> None:
    """Stocks kept in jars, baths mixed for one use, and treatments."""


_from_option = click.option(
    "--from", "file", metavar="FILE.toml", required=True, help="The recipe as a file; '-' reads the standard input."
)


@recipe.command()
@_from_option
@dry_run_option
@json_option
@click.pass_obj
def new(session: Session, file: str, dry_run: bool) -> None:
    """Add the recipe of a file. 'stockroom recipe export KEY' shows what such a file looks like."""
    from stockroom.actions.recipes import new_recipe

    kept = new_recipe(session.store, session.occasion(), read_file(file), file, dry_run=dry_run)
    tell_kept(session, kept, dry_run)
    session.say(f"{'It can be added' if dry_run else 'Added'}: {kept.recipe.key}, {kept.recipe.name}.")


@recipe.command("list")
@click.argument("words", nargs=-1)
@retired_option
@json_option
@click.pass_obj
def list_recipes(session: Session, words: tuple[str, ...], retired: bool) -> None:
    """List the recipes that hold all these words, or all of them."""
    found = all_recipes(session.store, " ".join(words), retired=retired)
    width = max((len(each.key) for each in found), default=0)
    session.listing(
        "recipes",
        found,
        head_document,
        lambda each: f"{each.kind:9}  {each.key:{width}}  {each.name}{retired_words(each.retired_on)}",
        "No recipe holds these words." if words else "No recipes yet: stockroom recipe new --from FILE.",
    )


@recipe.command()
@click.argument("recipe", metavar="RECIPE")
@click.option("--version", "number", type=click.IntRange(min=1), metavar="N", help="An earlier version.")
@json_option
@click.pass_obj
def show(session: Session, recipe: str, number: int | None) -> None:
    """Show a recipe: its lines, its steps, its versions, and which hazards what it makes may have."""
    from stockroom.actions.measuring import usual_amounts_measured
    from stockroom.actions.precautions import hazards_of
    from stockroom.cli.told_hazards import hazards_document, say_hazards
    from stockroom.cli.told_measures import measures_document, say_measures

    found = find_recipe(session.store, recipe, number)
    versions = versions_of(session.store, found.id)
    edits = edits_of(session.store, "recipe", found.key)
    try:
        hazards, not_known = hazards_of(session.store, found), None
    except BadInput as error:
        hazards, not_known = None, f"Hazards cannot be suggested: {error}"
    measured = usual_amounts_measured(session.store, found)
    session.document(
        {
            **recipe_document(found),
            "versions": [{"number": each.number, "by": each.made_by, "at": each.made_at} for each in versions],
            "edits": edits_document(edits),
            "hazards": hazards_document(hazards) if hazards else None,
            "measure_with": measures_document(measured),
        }
    )
    names = {material.key: material.name for material in all_materials(session.store, retired=True)}
    session.say(
        f"{found.name} ({found.key}), {found.kind}, version {found.version.number}{retired_words(found.retired_on)}"
    )
    if found.makes:
        session.say(f"  makes: {names.get(found.makes, found.makes)}")
    for line in says(found)[1:]:
        session.say(f"  {_filled(line, names, found)}")
    if hazards:
        say_hazards(session, hazards)
    if not_known:
        session.warn(not_known)
    say_measures(session, measured)
    for each in versions:
        session.say(f"  version {each.number}: {each.made_at[:10]}, {each.made_by}")
    say_edits(session, edits)


@recipe.command()
@click.argument("recipe", metavar="RECIPE")
@_from_option
@why_option
@dry_run_option
@json_option
@click.pass_obj
def edit(session: Session, recipe: str, file: str, why: str | None, dry_run: bool) -> None:
    """Make a file the next version of a recipe, saying what differs; earlier versions stay as they are."""
    from stockroom.actions.recipes import edit_recipe

    kept = edit_recipe(session.store, session.occasion(why=why), recipe, read_file(file), file, dry_run=dry_run)
    tell_kept(session, kept, dry_run)
    say_differences(session, kept.differences)
    if not kept.differences:
        session.say(f"{kept.recipe.key}: the file says nothing new.")
    elif dry_run:
        session.say(f"Nothing was changed in {kept.recipe.key}.")
    else:
        session.say(f"{kept.recipe.key} is now at version {kept.recipe.version.number}.")


@recipe.command()
@click.argument("recipe", metavar="RECIPE")
@click.argument("key")
@click.argument("name")
@json_option
@click.pass_obj
def copy(session: Session, recipe: str, key: str, name: str) -> None:
    """Begin a new recipe as a copy: stockroom recipe copy wash wash-long "Long wash"."""
    from stockroom.actions.recipes import copy_recipe

    kept = copy_recipe(session.store, session.occasion(), recipe, key, name)
    tell_kept(session, kept, False)
    session.say(f"Added {kept.recipe.key}, {kept.recipe.name}. To change it: stockroom recipe export {kept.recipe.key}")


@retires(recipe, "RECIPE")
def retire(session: Session, occasion: Occasion, recipe: str, undo: bool) -> Retired:
    """Offer a recipe no more; what was made by it stays."""
    from stockroom.actions.recipes import retire_recipe

    ended = retire_recipe(session.store, occasion, recipe, undo=undo)
    document = {**head_document(ended.recipe), "recipes": list(ended.recipes), "bookings": list(ended.bookings)}
    return document, ended.recipe.name, still_lines(undo, ("named by", ended.recipes), ("booked", ended.bookings))


def _filled(words: str, names: dict[str, str], recipe: Recipe) -> str:
    """Put names into a step's words."""
    batch = recipe.version.batch
    words = words.replace("{total}", show_quantity(batch) if batch else "the whole")
    for line in recipe.version.lines:
        key = line.material or line.recipe or ""
        words = words.replace("{" + key + "}", names.get(key, key))
    return words


for _command in (export, import_recipe):
    recipe.add_command(_command)
