"""A recipe said line by line, and how two of them differ."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import SequenceMatcher
from itertools import zip_longest

from stockroom.domain.recipe_checks import says_check
from stockroom.domain.recipes import Line, Recipe, Step
from stockroom.science.amounts import show_amount
from stockroom.science.numerals import show_number
from stockroom.science.quantities import show


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One line of a recipe that was put in another's place, added (`was` is None) or taken out."""

    was: str | None
    became: str | None


def differences(before: Recipe, after: Recipe) -> tuple[Difference, ...]:
    """Compare two recipes line by line."""
    was, became = _head(before), _head(after)
    fields = [
        Difference(was=was.get(field), became=became.get(field))
        for field in dict.fromkeys((*was, *became))
        if was.get(field) != became.get(field)
    ]
    return (*fields, *_compared(_lines(before), _lines(after)), *_compared(_steps(before), _steps(after)))


def _compared(was: list[str], became: list[str]) -> list[Difference]:
    """Pair what was put in another's place, in order; what is left over was taken out or added."""
    found: list[Difference] = []
    for what, from_was, to_was, from_became, to_became in SequenceMatcher(None, was, became, False).get_opcodes():
        if what != "equal":
            pairs = zip_longest(was[from_was:to_was], became[from_became:to_became])
            found += [Difference(was=out, became=put) for out, put in pairs]
    return found


def says(recipe: Recipe) -> list[str]:
    """Say all of a recipe in lines, each of which can be read by itself; the name comes first."""
    return [*_head(recipe).values(), *_lines(recipe), *_steps(recipe)]


def _head(recipe: Recipe) -> dict[str, str]:
    version = recipe.version
    fields = {
        "name": recipe.name,
        "batch": version.batch and show(version.batch),
        "fills": str(version.fills),
        "life": version.life,
        "life once opened": version.life_opened,
        "ready after": version.ready_after,
        "check every": version.check_every,
        "strength": version.strength,
        "strength from line": version.strength_line and str(version.strength_line),
        "kept over solid": "yes" if version.over_solid else None,
        "ingredients' dates count": "yes" if version.ingredients_limit else None,
        "media tested before use": version.media_test,
        "strength where it evaporated": version.evaporation and f"by {version.evaporation}",
        "left over": version.leftover,
        "storage": version.storage,
        "note": version.note,
        "source": version.source,
        **says_check(version.check),
    }
    return {field: f"{field}: {value}" for field, value in fields.items() if value}


def _lines(recipe: Recipe) -> list[str]:
    return [f"line: {_line(line)}" for line in recipe.version.lines]


def _steps(recipe: Recipe) -> list[str]:
    return [f"step: {say_step(step)}" for step in recipe.version.steps]


def _line(line: Line) -> str:
    """Say a line in one: its material or recipe, its amount, and what else it has."""
    parts = [line.material or line.recipe or "", show_amount(line.amount) if line.amount else "the whole fill"]
    if line.first_dose:
        parts.append(f"first {line.first_dose}")
    if line.stand_ins:
        parts.append(f"or instead {', '.join(line.stand_ins)}")
    if line.tolerance:
        parts.append(f"within {show_number(line.tolerance * 100)} %")
    if line.note:
        parts.append(line.note)
    return ", ".join(parts)


def say_step(step: Step) -> str:
    """Say a step in one."""
    return ("caution: " if step.caution else "") + step.words + (f" (wait {step.wait})" if step.wait else "")
