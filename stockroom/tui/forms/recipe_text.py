"""How a recipe that is being written is told: what changes, what to be careful of, and a trial batch."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from stockroom.actions.precautions import RecipeHazards
from stockroom.actions.recipe_trial import Trial
from stockroom.actions.recipe_writing import Written
from stockroom.domain.recipe_words import Difference
from stockroom.labels.pictograms import NAMES
from stockroom.tui.texts import (
    cautions_text,
    common_cautions_text,
    measured_text,
    one_line,
    sections,
    steps_text,
)
from stockroom.tui.words import on_screen


def written_text(plan: Written, currency: str) -> Content:
    """Write a recipe as it would be kept: what it changes first, then what is to be known before it is kept."""
    return sections(
        ("", _version(plan)),
        ("What changes", differences_text(plan.kept.differences)),
        ("", _signed(plan.kept.warnings)),
        ("", _signed([_came_along(plan.came_along)] if plan.came_along else [])),
        *(trial_parts(plan.trial) if plan.trial else ()),
    )


def _version(plan: Written) -> Content:
    recipe = plan.kept.recipe
    if plan.was is None:
        return Content(one_line(f"{recipe.name} ({recipe.key}), a {recipe.kind} of the studio's own."))
    if not plan.kept.differences:
        return Content(f"Nothing is changed yet: version {plan.was} stays.")
    if all((each.became or "").startswith("name: ") for each in plan.kept.differences):
        return Content(one_line(f"{recipe.name}: its name alone is changed; version {plan.was} stays."))
    return Content(
        one_line(f"{recipe.name} becomes version {plan.was + 1}. What was made by version {plan.was} stays as it was.")
    )


def _came_along(names: Sequence[str]) -> str:
    words = ", ".join("how long it keeps" if name == "life" else name for name in names)
    return f"The lines are not those of the recipe it was copied from; still as there: {words}. Read them again."


def differences_text(found: Sequence[Difference]) -> Content:
    """Write what is taken out (-) and put in (+), line by line."""
    lines = [
        Content(f"{sign} {one_line(words)}")
        for each in found
        for sign, words in (("-", each.was), ("+", each.became))
        if words is not None
    ]
    return Content("\n").join(lines)


def trial_parts(trial: Trial) -> list[tuple[str, Content]]:
    """Write a trial batch: amounts first, then how to measure them, hazards, cautions and steps."""
    width = max((len(amount) for amount, _ in trial.lines), default=0)
    amounts = [Content.assemble((f"{amount:>{width}}", "bold"), f"  {one_line(name)}") for amount, name in trial.lines]
    hazards = trial.hazards
    return [
        (f"Trial batch: {trial.batch}", Content("\n").join(amounts)),
        ("Hazards suggested for its label", hazards_text(hazards) if hazards else Content("")),
        ("Cautions", cautions_text(trial.steps, trial.cautions)),
        ("Steps", steps_text(trial.steps)),
        ("Common cautions", common_cautions_text(trial.steps, trial.cautions)),
        ("By what ground these hazards", ground_text(hazards) if hazards else Content("")),
        ("Measure", measured_text(trial.measured)),
    ]


def hazards_text(found: RecipeHazards) -> Content:
    """Write what is suggested for the label, and where the material's own entry says otherwise."""
    one = found.suggested
    lines = [Content(one_line(words)) for words in label_words(one.signal_word, one.hazards, one.pictograms)]
    if found.differs and found.entry:
        own = label_words(found.entry.signal_word, found.entry.hazards, found.entry.pictograms)
        lines += _signed([f"the entry of {found.entry.name} says otherwise, and stays: {'; '.join(own)}"]).split("\n")
    return Content("\n").join(lines)


def ground_text(found: RecipeHazards) -> Content:
    """Write by what rules and figures hazards are suggested, and what comes before them."""
    return Content("\n").join(Content(one_line(words)) for words in (found.suggested.ground, *found.notes))


def label_words(signal_word: str | None, statements: Sequence[str], pictograms: Sequence[str]) -> list[str]:
    """Say what a label warns of, a line each: signal word and pictograms in words, then the statements."""
    shown = ", ".join(f"{NAMES[code]} ({code})" for code in pictograms)
    head = ": ".join(part for part in (signal_word, shown) if part)
    return [*([head] if head else []), *statements] or ["none"]


def _signed(words: Sequence[str]) -> Content:
    return Content("\n").join(Content.styled(f"! {one_line(on_screen(one))}", "$text-warning") for one in words)
