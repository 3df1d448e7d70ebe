"""The page of a recipe: its lines, steps and life, how it is checked, its hazards and cautions, and its versions."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from textual.content import Content

from stockroom.actions.recipe_trial import try_batch
from stockroom.domain.recipe_checks import says_check
from stockroom.domain.recipes import Line, Recipe
from stockroom.errors import StockroomError
from stockroom.planning.steps import unsaid
from stockroom.science.amounts import show_amount
from stockroom.science.numerals import show_number
from stockroom.science.quantities import show
from stockroom.store.materials import materials_named
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes, find_recipe, versions_of
from stockroom.store.stockroom_settings import local_day
from stockroom.tui.bench_book.history import edits_part, listed
from stockroom.tui.forms.recipe_text import ground_text, hazards_text
from stockroom.tui.texts import measured_text, one_line, rows
from stockroom.tui.words import on_screen

Part = tuple[str, Content]


def recipe_parts(store: Store, key: str, currency: str, local: datetime) -> Iterator[Part]:
    """Write a recipe, part by part."""
    recipe = find_recipe(store, key)
    version = recipe.version
    names = _names(store, recipe)
    yield "", rows(_facts(recipe, names))
    yield "Lines", listed(text for line in version.lines for text in _line(line, names))
    yield "First", _signed(step.words for step in version.steps if step.caution)
    yield "Steps", listed(_steps(recipe, names))
    yield "Check", rows(_check(recipe))
    yield from _worked_out(store, recipe)
    yield "Note", Content(one_line(version.note or ""))
    yield "Where it comes from", Content(one_line(version.source or ""))
    yield (
        "Versions",
        listed(
            f"{each.number:>3}  {local_day(store, each.made_at)}  {each.made_by}"
            + ("  in use now" if each.number == version.number else "")
            for each in reversed(versions_of(store, recipe.id))
        ),
    )
    yield edits_part(store, "recipe", recipe.key)


def _names(store: Store, recipe: Recipe) -> dict[str, str]:
    lines = recipe.version.lines
    keys = {key for line in lines for key in (line.material, *line.stand_ins) if key}
    materials = materials_named(store, keys | ({recipe.makes} if recipe.makes else set()))
    names = {key: each.name for key, each in materials.items()}
    inside = {line.recipe for line in lines if line.recipe}
    return names | {each.key: each.name for each in all_recipes(store, retired=True) if each.key in inside}


def _facts(recipe: Recipe, names: dict[str, str]) -> list[tuple[str, str]]:
    version = recipe.version
    strength = next((line for line in version.lines if line.position == version.strength_line), None)
    told = [
        ("kind", recipe.kind),
        ("makes", names.get(recipe.makes or "")),
        ("usual batch" if recipe.kind == "stock" else "one fill", show(version.batch) if version.batch else None),
        ("fills", str(version.fills) if version.fills > 1 else None),
        ("strength", version.strength),
        ("strength", show_amount(strength.amount) if strength and strength.amount else None),
        ("keeps", version.life),
        ("keeps opened", version.life_opened),
        ("oldest part", "rules: no part may be past its date before it is" if version.ingredients_limit else None),
        ("ready after", version.ready_after),
        ("over solid", "kept over solid, and topped up with water" if version.over_solid else None),
        ("media tested", version.media_test),
        ("evaporated", f"its strength is reckoned by {version.evaporation}" if version.evaporation else None),
        ("left over", version.leftover),
        ("storage", version.storage),
    ]
    return [(name, value) for name, value in told if value]


def _line(line: Line, names: dict[str, str]) -> Iterator[str]:
    key = line.material or line.recipe or ""
    amount = show_amount(line.amount) if line.amount else "the whole fill"
    yield f"{names.get(key, key)}: {amount}" + (f", first {line.first_dose}" if line.first_dose else "")
    if line.stand_ins:
        yield f"    or instead {', '.join(names.get(each, each) for each in line.stand_ins)}"
    if line.tolerance:
        yield f"    within {show_number(line.tolerance * 100)} %"
    if line.note:
        yield f"    {line.note}"


def _steps(recipe: Recipe, names: dict[str, str]) -> Iterator[str]:
    """Give the steps by number, names in the place of keys."""
    for number, step in enumerate((one for one in recipe.version.steps if not one.caution), 1):
        words = step.words.replace("{total}", "the whole")
        for key, name in names.items():
            words = words.replace("{" + key + "}", name)
        yield f"{number:>2}. {words}" + (f"  (then wait {step.wait})" if step.wait else "")


def _check(recipe: Recipe) -> list[tuple[str, str]]:
    told = [("every", recipe.version.check_every or ""), *says_check(recipe.version.check).items()]
    return [(name, value) for name, value in told if value]


def _worked_out(store: Store, recipe: Recipe) -> Iterator[Part]:
    """Write the usual batch, with hazards and cautions; what is in the way where it cannot be worked out."""
    try:
        trial = try_batch(store, recipe)
    except StockroomError as error:
        yield "", _signed([f"It cannot be worked out yet: {error.message}"])
        return
    common = unsaid(trial.cautions, trial.steps)
    yield "Cautions", _signed(f"{'STOP: ' if one.stops else ''}{one.words}" for one in common)
    if trial.hazards:
        yield "Hazards suggested for its label", hazards_text(trial.hazards)
        yield "By what ground", ground_text(trial.hazards)
    lines = Content("\n").join(
        Content.assemble((amount, "bold"), f"  {one_line(name)}") for amount, name in trial.lines
    )
    yield f"Worked out for {trial.batch}", lines
    yield "Measure", measured_text(trial.measured)


def _signed(words: Iterator[str] | list[str]) -> Content:
    return Content("\n").join(Content.styled(f"! {one_line(on_screen(each))}", "$text-warning") for each in words)
