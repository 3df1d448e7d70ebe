"""A recipe as it is typed in the fields of a form, each named as in a recipe file: to its file, and back."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from stockroom.domain.recipe_checks import check_values
from stockroom.domain.recipe_lines import Values, write_lines, write_steps
from stockroom.domain.recipes import Recipe
from stockroom.domain.toml_tables import write_table
from stockroom.science.quantities import show

FLAGS = ("over_solid", "ingredients_limit")
TEXTS = (
    "key",
    "name",
    "kind",
    "makes",
    "batch",
    "life",
    "life_opened",
    "ready_after",
    "check_every",
    "strength",
    "strength_line",
    "media_test",
    "evaporation",
    "leftover",
    "storage",
    "note",
    "source",
)
CHECK = "check_"
"""How the fields of the table [check] begin."""
CHECK_TEXTS = ("method", "low", "high", "unit", "error", "source")
_PROBLEM = re.compile(r"[^,]*, (?:\[\[(line|step)\]\] ([0-9]+)|\[(check|recipe)\]|[^,]*), (\w+): (.*)", re.DOTALL)


def typed_from(recipe: Recipe) -> dict[str, str]:
    """Return what stands in the fields for a recipe, so that writing it gives the same recipe."""
    version = recipe.version
    values = {name: getattr(version, name, None) for name in TEXTS}
    values |= {"key": recipe.key, "name": recipe.name, "kind": recipe.kind, "makes": recipe.makes}
    values["batch"] = show(version.batch) if version.batch else None
    values["strength_line"] = next(
        (line.material for line in version.lines if line.position == version.strength_line), None
    )
    values["fills"] = str(version.fills) if version.fills != 1 else None
    values |= {name: "yes" if getattr(version, name) else None for name in FLAGS}
    values |= {"lines": write_lines(version), "steps": write_steps(version)}
    if version.check:
        check = check_values(version.check)
        values |= {CHECK + name: check.get(name) for name in CHECK_TEXTS}
        values |= {"check_spoilt": ", ".join(version.check.spoilt), "check_extends": None}
        values["check_extends"] = None if version.check.extends else "no"
    return {name: str(value) for name, value in values.items() if value}


def write_typed(typed: Mapping[str, str], lines: Iterable[Values], steps: Iterable[Values]) -> str:
    """Write the file of a recipe from its fields, and from its lines and steps as they were read."""
    fills = typed.get("fills")
    head: Values = {name: typed.get(name) for name in TEXTS}
    head["fills"] = int(fills) if fills and fills.isascii() and fills.isdecimal() else fills
    head |= {name: True for name in FLAGS if typed.get(name) == "yes"}
    check: Values = {name: typed[CHECK + name] for name in CHECK_TEXTS if CHECK + name in typed}
    if "check_spoilt" in typed:
        check["spoilt"] = [word.strip() for word in typed["check_spoilt"].split(",") if word.strip()]
    if typed.get("check_extends") == "no":
        check["extends"] = False
    tables = [("[recipe]", head), *([("[check]", check)] if check else [])]
    tables += [("[[line]]", line) for line in lines] + [("[[step]]", step) for step in steps]
    return "\n".join(write_table(title, values) for title, values in tables)


def by_field(problems: Sequence[str], lines: Sequence[Values]) -> dict[str, str]:
    """Sort the problems of a recipe's file by the fields they stand beside; a line is named by what it begins with."""
    found: dict[str, list[str]] = {}
    for problem in problems:
        match = _PROBLEM.fullmatch(problem)
        if match is None:
            found.setdefault("lines", []).append(problem)
            continue
        listed, number, table, name, message = match.groups()
        if listed == "line":
            line = lines[int(number) - 1]
            found.setdefault("lines", []).append(f"{line.get('material') or line.get('recipe')}: {message}")
        elif listed == "step":
            found.setdefault("steps", []).append(f"step {number}: {message}")
        elif table is None:
            found.setdefault("lines", []).append("write at least one line.")
        else:
            found.setdefault(CHECK + name if table == "check" else name, []).append(message)
    return {field: "\n".join(messages) for field, messages in found.items()}
