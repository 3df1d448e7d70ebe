"""A recipe's steps in order, with the amounts a person measures written into them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stockroom.domain.recipes import Recipe

if TYPE_CHECKING:
    from stockroom.science.cautions import Caution

_PROTECTED = "Eye protection and gloves on"


@dataclass(frozen=True, slots=True, kw_only=True)
class StepToDo:
    """One thing to do."""

    words: str
    wait: str | None = None
    caution: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What a step says for one material: `125 mL of Calcium hydroxide solution (L001W)`."""

    key: str
    words: str
    fills_up: bool = False
    """Whether it is the liquid made up to volume: a step that names the total says so already."""


def written_out(recipes: Sequence[tuple[Recipe, str]], measured: Sequence[Measured]) -> tuple[StepToDo, ...]:
    """Write the steps of some recipes out, inner ones first, each with its total.

    Cautions come first and once. A material that no step names gets a step of its own before the others, but for
    the liquid that fills up to the total where a step says so.
    """
    by_key = {one.key: one.words for one in measured}
    texts = [(step, total) for recipe, total in recipes for step in recipe.version.steps]
    named = {one.key for one in measured if any("{" + one.key + "}" in step.words for step, _ in texts)}
    if any("{total}" in step.words for step, _ in texts):
        named |= {one.key for one in measured if one.fills_up}
    cautions: dict[str, StepToDo] = {}
    steps: list[StepToDo] = [StepToDo(words=f"Measure {one.words}.") for one in measured if one.key not in named]
    for step, total in texts:
        words = _filled(step.words, {**by_key, "total": total})
        if step.caution:
            cautions.setdefault(words, StepToDo(words=words, caution=True))
        else:
            steps.append(StepToDo(words=words, wait=step.wait))
    return (*cautions.values(), *steps)


def unsaid(cautions: Sequence[Caution], steps: Sequence[StepToDo]) -> list[Caution]:
    """Return the cautions that the recipe's own steps do not say already, in their words or its own."""
    said = {step.words for step in steps}
    protected = any(step.caution and step.words.startswith(_PROTECTED) for step in steps)
    return [
        caution
        for caution in cautions
        if caution.words not in said and not (protected and caution.words.startswith(_PROTECTED))
    ]


def _filled(words: str, values: Mapping[str, str]) -> str:
    """Replace each {name} that is known; all else is text and stays as it is."""
    parts = words.split("{")
    filled = parts[0]
    for part in parts[1:]:
        name, brace, rest = part.partition("}")
        filled += values[name] + rest if brace and name in values else "{" + part
    return filled
