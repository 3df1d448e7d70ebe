"""The lines and steps of a recipe as they are typed where there is no file: one a line.

    ethanol = 50 % v/v
      stand_ins = denatured-alcohol
      note = Let a drop dry on glass first.
    deionised-water = make up
    recipe = calcium-hydroxide-1-in-4

A line is written as `use --took` takes it, MATERIAL=AMOUNT; what else the recipe's file says of it stands beneath it
under the file's own names. A bath that is mixed in place is `recipe = KEY`.
Steps are written as `recipe show` says them:

    caution: Eye protection on.
    Measure {ethanol} and make up to {total}. (wait 20 min)

What goes on in another line is indented.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from textwrap import dedent

from stockroom.domain.recipe_words import say_step
from stockroom.domain.recipes import Line, RecipeVersion
from stockroom.science.amounts import show_amount
from stockroom.science.numerals import show_number

Values = dict[str, object]
"""One table of a recipe file."""

_BENEATH = ("amount", "first_dose", "stand_ins", "tolerance", "note")
_HEADS = ("material", "recipe")
_PAIR = re.compile(r"\s*([^=]*?)\s*=\s*(.*?)\s*")
_STEP = re.compile(r"(caution:\s*)?(.*?)(?:\s*\(wait ([^()]*)\))?", re.DOTALL)


def read_lines(text: str) -> list[Values]:
    """Turn what was typed into the tables [[line]] of a recipe file; whether they are right is for its reader."""
    tables: list[Values] = []
    last = ""
    for typed in _lines_of(text):
        pair = _PAIR.fullmatch(typed)
        name, value = pair.groups() if pair else (typed.strip(), None)
        if tables and pair and name in _BENEATH:
            tables[-1][name] = _keys(value) if name == "stand_ins" else value
            last = name
        elif tables and last and typed[0].isspace():
            tables[-1][last] = f"{tables[-1][last]}\n{typed.strip()}"
        else:
            head: Values = {name: value} if name in _HEADS else {"material": name}
            tables.append(head if name in _HEADS or value is None else {**head, "amount": value})
            last = ""
    return tables


def read_steps(text: str) -> list[Values]:
    """Turn what was typed into the tables [[step]] of a recipe file."""
    steps: list[str] = []
    for typed in _lines_of(text):
        if steps and typed[0].isspace():
            steps[-1] += f"\n{typed.strip()}"
        else:
            steps.append(typed.strip())
    return [_step(step) for step in steps]


def write_lines(version: RecipeVersion) -> str:
    """Write the lines of a recipe so that `read_lines` reads the same."""
    return "\n".join(_written(line) for line in version.lines)


def write_steps(version: RecipeVersion) -> str:
    """Write the steps of a recipe so that `read_steps` reads the same."""
    return "\n".join(_indented(say_step(step)) for step in version.steps)


def _lines_of(text: str) -> list[str]:
    return [line for line in dedent(text).splitlines() if line.strip()]


def _keys(value: str | None) -> list[str]:
    return [word.strip() for word in (value or "").split(",") if word.strip()]


def _step(typed: str) -> Values:
    match = _STEP.fullmatch(typed)
    caution, words, wait = match.groups() if match else (None, typed, None)
    values: Values = {"words": words}
    if wait:
        values["wait"] = wait.strip()
    return {**values, "caution": True} if caution else values


def _written(line: Line) -> str:
    if line.recipe:
        head = f"recipe = {line.recipe}"
    elif line.material in (*_BENEATH, *_HEADS):  # a key that would be read as a name
        head = f"material = {line.material}\n  amount = {_amount(line)}"
    else:
        head = f"{line.material} = {_amount(line)}"
    beneath: Mapping[str, str | None] = {
        "first_dose": line.first_dose,
        "stand_ins": ", ".join(line.stand_ins),
        "tolerance": f"{show_number(line.tolerance * 100)} %" if line.tolerance else None,
        "note": line.note,
    }
    return "\n".join([head, *(f"  {name} = {_indented(value, 4)}" for name, value in beneath.items() if value)])


def _amount(line: Line) -> str:
    return show_amount(line.amount) if line.amount else ""


def _indented(text: str, by: int = 2) -> str:
    return text.strip().replace("\n", "\n" + " " * by)
