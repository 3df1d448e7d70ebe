"""A recipe on the command line: its document, what differs from the version before, and the file it is read from."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from stockroom.cli.nouns import without_nothing
from stockroom.cli.output import Output
from stockroom.cli.session import Session
from stockroom.domain.recipe_words import Difference
from stockroom.domain.recipes import Line, Recipe, RecipeCheck
from stockroom.errors import BadInput
from stockroom.science.amounts import show_amount
from stockroom.science.quantities import amount_text

if TYPE_CHECKING:
    from stockroom.actions.recipes import RecipeKept

MOST_BYTES = 1_000_000


def read_file(file: str) -> str:
    """Read a recipe file. Raises BadInput where it is not there, too large or not text."""
    try:
        if file == "-":
            content = sys.stdin.buffer.read(MOST_BYTES + 1)
        else:
            with Path(file).expanduser().open("rb") as opened:
                content = opened.read(MOST_BYTES + 1)
        if len(content) > MOST_BYTES:
            raise BadInput(f"{file} is too large to be a recipe: at most {MOST_BYTES // 1000} kB are read.")
        return content.decode("utf-8-sig")
    except OSError as error:
        raise BadInput(f"The recipe {file} cannot be read: {error.strerror}.") from error
    except UnicodeDecodeError as error:
        raise BadInput(f"The recipe {file} is not text in UTF-8 (byte {error.start}). Save it as UTF-8.") from error


def tell_kept(session: Session, kept: RecipeKept, dry_run: bool) -> None:
    """Print the document of a recipe that was kept, or would be, and its warnings."""
    document = recipe_document(kept.recipe)
    document["version"] = None if dry_run else kept.recipe.version.number
    session.document(
        {**document, "differences": differences_document(kept.differences), "warnings": list(kept.warnings)}
    )
    for warning in kept.warnings:
        session.warn(warning)


def say_differences(output: Output, found: tuple[Difference, ...]) -> None:
    """Say what was taken out (-) and what was put in (+), line by line."""
    for difference in found:
        for sign, line in (("-", difference.was), ("+", difference.became)):
            if line is not None:
                output.say(f"{sign} {line}")


def differences_document(found: tuple[Difference, ...]) -> list[dict[str, str | None]]:
    return [{"was": difference.was, "became": difference.became} for difference in found]


def head_document(recipe: Recipe) -> dict[str, Any]:
    batch = amount_text(recipe.version.batch) if recipe.version.batch else (None, None)
    return without_nothing(
        {
            "key": recipe.key,
            "name": recipe.name,
            "kind": recipe.kind,
            "makes": recipe.makes,
            "version": recipe.version.number,
            "batch": batch[0],
            "unit": batch[1],
            "retired_on": recipe.retired_on,
        }
    )


def recipe_document(recipe: Recipe) -> dict[str, Any]:
    version = recipe.version
    texts = ("life", "life_opened", "ready_after", "check_every", "strength", "leftover", "storage", "note", "source")
    return {
        **head_document(recipe),
        "fills": version.fills,
        **without_nothing({name: getattr(version, name) for name in (*texts, "media_test", "evaporation")}),
        "strength_line": version.strength_line,
        "over_solid": version.over_solid,
        "ingredients_limit": version.ingredients_limit,
        "check": _check(version.check) if version.check else None,
        "lines": [_line(line) for line in version.lines],
        "steps": [{"words": step.words, "wait": step.wait, "caution": step.caution} for step in version.steps],
    }


def _check(check: RecipeCheck) -> dict[str, Any]:
    figures = {name: getattr(check, name) for name in ("low", "high", "error")}
    return without_nothing(
        {
            "method": check.method,
            **{name: None if value is None else float(value) for name, value in figures.items()},
            "unit": check.unit,
            "spoilt": list(check.spoilt),
            "extends": check.extends,
            "source": check.source,
        }
    )


def _line(line: Line) -> dict[str, Any]:
    return without_nothing(
        {
            "material": line.material,
            "recipe": line.recipe,
            "amount": show_amount(line.amount) if line.amount else None,
            "first_dose": line.first_dose,
            "stand_ins": list(line.stand_ins) or None,
            "note": line.note,
        }
    )
