"""`recipe export` and `recipe import`: recipes as files, for other studios and from them."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, dry_run_option, why_option
from stockroom.cli.told_recipes import differences_document, read_file, recipe_document, say_differences
from stockroom.errors import BadInput
from stockroom.store.recipes import find_recipe, recipe_key_taken


@click.command()
@click.argument("recipe", metavar="RECIPE")
@click.option("--version", "number", type=click.IntRange(min=1), metavar="N", help="An earlier version.")
@click.option("--out", type=click.Path(path_type=Path), metavar="FILE.toml", help="Write it there; else it is printed.")
@click.option("--replace", is_flag=True, help="With --out: put it in the place of a file of that name.")
@json_option
@click.pass_obj
def export(session: Session, recipe: str, number: int | None, out: Path | None, replace: bool) -> None:
    """Write a recipe as the file that 'recipe import', 'new' and 'edit' read: nothing of it is lost.

    Example: stockroom recipe export wash --out wash.toml
    """
    from stockroom.domain.recipe_files import write_recipe

    text = write_recipe(find_recipe(session.store, recipe, number))
    if out is None:
        session.document({"toml": text, "files": []})
        session.say(text.rstrip("\n"))
        return
    from stockroom.files import write_file

    path = out.expanduser()
    if path.suffix.lower() != ".toml":
        raise BadInput(f"{path}: a recipe is written as FILE.toml, in a folder that is there.")
    write_file(path, text.encode(), replace=replace)
    session.document({"toml": text, "files": [str(path)]})
    session.say(f"Written: {path}")


@click.command("import")
@click.argument("file", metavar="FILE.toml")
@click.option("--yes", is_flag=True, help="Keep it without asking.")
@why_option
@dry_run_option
@json_option
@click.pass_obj
def import_recipe(session: Session, file: str, yes: bool, why: str | None, dry_run: bool) -> None:
    """Take a recipe from a file, '-' from the standard input: a new one, or the next version of the one of its key.

    What differs from the present version is shown first (- taken out, + put in), then it asks; where nobody can
    answer it keeps nothing without --yes. Earlier versions stay as they are.

    Example: stockroom recipe import wash.toml
    """
    from stockroom.actions.recipe_exchange import take_in

    text, occasion = read_file(file), session.occasion(why=why)
    plan = take_in(session.store, occasion, text, file, dry_run=True)
    key = plan.recipe.key
    known = recipe_key_taken(session.store, key)
    if known:
        session.say(f"{key}, against version {find_recipe(session.store, key).version.number} here:")
    else:
        session.say(f"{key} is new here:")
    say_differences(session, plan.differences)
    for warning in plan.warnings:
        session.warn(warning)
    keep = bool(plan.differences) and not dry_run and (yes or _agreed(session, key))
    kept = take_in(session.store, occasion, text, file, confirmed=plan) if keep else plan
    session.document(
        {
            **recipe_document(kept.recipe),
            "version": kept.recipe.version.number if keep else None,
            "differences": differences_document(kept.differences),
            "warnings": list(kept.warnings),
            "kept": keep,
        }
    )
    if not plan.differences:
        session.say("The file says nothing new.")
    elif keep:
        session.say(f"{key} is now at version {kept.recipe.version.number}." if known else f"Added: {key}.")
    else:
        session.say("Nothing was changed." if dry_run else "Nothing was changed; --yes keeps it.")


def _agreed(session: Session, key: str) -> bool:
    """Ask a person at a terminal; nobody else agrees."""
    if session.json or not (sys.stdin.isatty() and sys.stderr.isatty()):
        return False
    return click.confirm(f"Keep it as {key}?", default=False, err=True)
