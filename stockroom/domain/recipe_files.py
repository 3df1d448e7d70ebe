"""A recipe as a person writes it in a TOML file, one recipe a file.

    [recipe]
    key = "calcium-hydroxide-1-in-4"
    name = "Calcium hydroxide bath, 1 in 4"
    kind = "bath"
    batch = "1 L"

    [[line]]
    material = "calcium-hydroxide-solution"
    amount = "1 in 4"

    [[line]]
    material = "deionised-water"
    amount = "make up"

    [[step]]
    words = "Measure {calcium-hydroxide-solution} and make up to {total} with deionised water."

A line may say how far off its amount may be: `tolerance = "10 %"`. In a step's words `{key}` stands for the amount and
name of that line, `{total}` for the finished amount.
How what it makes is checked is a table [check], see `recipe_checks.py`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from stockroom.domain.media import MEDIA_TESTS
from stockroom.domain.recipe_checks import check_values, read_check
from stockroom.domain.recipes import Line, Recipe, RecipeCheck, RecipeVersion, Step
from stockroom.domain.toml_tables import Table, read_tables, write_table
from stockroom.errors import Unreadable
from stockroom.science.amounts import Amount, MakeUp, OfStrength, Share, ToReading, read_amount, show_amount
from stockroom.science.lives import read_life
from stockroom.science.numerals import quoted, read_numeral, show_number, tidy
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.ratios import show_parts
from stockroom.science.reading import read_quantity

KINDS = ("stock", "bath", "treatment")
EVAPORATION = ("mass balance",)
MOST_FILLS = 50
MOST_TOLERANCE = Fraction(1, 2)
_PLACEHOLDER = re.compile(r"\{([^{}]*)\}")
_MINUTES = re.compile(r"[1-9][0-9]{0,2} min")


def read_recipe(text: str, where: str) -> Recipe:
    """Read one recipe file. Raises BadInput with every problem; `where` names the file."""
    file = read_tables(text, where)
    head, line_tables, step_tables = file.table("recipe"), file.tables("line"), file.tables("step")
    check = read_check(file.table("check")) if file.has("check") else None
    file.finish()
    lines = tuple(_read_line(table, position) for position, table in enumerate(line_tables, 1))
    steps = tuple(_read_step(table, lines) for table in step_tables)
    recipe = _read_head(head, lines, steps, check)
    if not lines:
        file.refuse("line", "there is none; a recipe needs at least one [[line]].")
    _check_lines(lines, line_tables)
    file.problems.raise_if_any()
    return recipe


def _read_head(head: Table, lines: tuple[Line, ...], steps: tuple[Step, ...], check: RecipeCheck | None) -> Recipe:
    """Read the table [recipe]; where something needed is missing, what comes back is never used."""
    kind = head.choice("kind", KINDS, needed=True) or ""
    makes = head.key("makes")
    if kind and (kind == "stock") != head.has("makes"):
        head.refuse("makes", "a stock names the material it makes; a bath or treatment makes none.")
    batch = head.read("batch", _read_batch)
    if batch and kind in ("bath", "treatment") and batch.dimension is not Dimension.VOLUME:
        head.refuse("batch", f"read {show(batch)}; accepted is one fill of the bath, such as 500 mL.")
    fills = head.whole("fills", 1, MOST_FILLS)
    if fills > 1 and kind == "stock":
        head.refuse("fills", "a stock is made, not filled; only a bath or treatment has fills.")
    version = RecipeVersion(
        batch=batch,
        fills=fills,
        life=head.checked("life", read_life),
        life_opened=head.checked("life_opened", read_life),
        ready_after=head.checked("ready_after", read_life),
        check_every=head.checked("check_every", read_life),
        strength=head.line("strength"),
        strength_line=_read_strength_line(head, lines),
        over_solid=head.flag("over_solid", False),
        ingredients_limit=head.flag("ingredients_limit", False),
        media_test=head.choice("media_test", MEDIA_TESTS),
        evaporation=head.choice("evaporation", EVAPORATION),
        leftover=head.text("leftover"),
        storage=head.text("storage"),
        note=head.text("note"),
        source=head.text("source"),
        check=check,
        lines=lines,
        steps=steps,
    )
    recipe = Recipe(
        key=head.key("key", needed=True) or "",
        name=head.line("name", needed=True) or "",
        kind=kind,
        makes=makes,
        version=version,
    )
    if check and kind == "treatment":
        head.refuse("kind", "a treatment is not kept, so it has no [check].")
    if recipe.key and recipe.key in [line.recipe for line in lines]:
        head.refuse("key", f"{quoted(recipe.key)} is named by its own line; a recipe cannot hold itself.")
    head.finish()
    return recipe


def _read_batch(text: str) -> Quantity:
    read = read_quantity(text)
    if read.about:
        raise Unreadable(f"{quoted(text)} is not exact; write the amount itself, such as 1 L.", read=text)
    return read.quantity


def _read_strength_line(head: Table, lines: tuple[Line, ...]) -> int | None:
    key = head.key("strength_line")
    if key is None:
        return None
    if head.has("strength"):
        head.refuse("strength_line", "strength says it already; keep one of the two.")
    for line in lines:
        if line.material == key and isinstance(line.amount, OfStrength):
            return line.position
    head.refuse("strength_line", f"read {quoted(key)}; accepted is a line whose amount is a strength, such as 5 % w/v.")
    return None


def _read_line(table: Table, position: int) -> Line:
    material, recipe = table.key("material"), table.key("recipe")
    amount = table.read("amount", read_amount)
    dose = table.checked("first_dose", _read_dose)
    line = Line(
        position=position,
        material=material,
        recipe=recipe,
        amount=amount,
        first_dose=dose,
        stand_ins=table.keys("stand_ins"),
        tolerance=table.read("tolerance", _read_tolerance),
        note=table.text("note"),
    )
    if table.has("material") == table.has("recipe"):
        table.refuse("material", "a line names either a material or a recipe.")
    elif table.has("recipe") and (table.has("amount") or table.has("stand_ins") or table.has("tolerance")):
        table.refuse("recipe", "a bath takes the whole fill: leave amount, stand_ins and tolerance out.")
    elif table.has("material") and not table.has("amount"):
        table.refuse("amount", "this is missing; write it as the trade does, such as 1 in 4, 5 % w/v or make up.")
    if dose and amount and not isinstance(amount, ToReading):
        table.refuse("first_dose", "only a line measured to a reading, such as to pH 8.0-8.5, has a first dose.")
    if len({material, *line.stand_ins}) <= len(line.stand_ins):
        table.refuse("stand_ins", "each stand-in once, and never the material itself.")
    table.finish()
    return line


def _read_tolerance(text: str) -> Fraction:
    """Read how far off an amount may be. Raises Unreadable."""
    number, sign, rest = tidy(text).partition("%")
    share = read_numeral(number) / 100 if sign and not rest else Fraction(0)
    if not 0 < share <= MOST_TOLERANCE or (share * 1_000_000).denominator != 1:
        raise Unreadable(
            f"read {quoted(text)}; accepted is a share of the amount, such as 5 %, up to 50 %.",
            read=text,
        )
    return share


def _read_dose(text: str) -> Quantity:
    return read_quantity(text).quantity


def _read_step(table: Table, lines: tuple[Line, ...]) -> Step:
    step = Step(
        words=table.text("words", needed=True) or "",
        wait=table.checked("wait", read_wait),
        caution=table.flag("caution", False),
    )
    named = {"total", *(line.material or line.recipe for line in lines)}
    for key in _PLACEHOLDER.findall(step.words):
        if key not in named:
            table.refuse(
                "words", f"{quoted('{' + key + '}')} names no line; accepted are the keys of lines, and total."
            )
    if set("{}") & set(_PLACEHOLDER.sub("", step.words)):
        table.refuse("words", "a brace is left over; braces only hold the key of a line, such as {total}.")
    table.finish()
    return step


def read_wait(text: str) -> str:
    """Take a wait: minutes such as `20 min`, or a time that `read_life` reads. Raises Unreadable."""
    if not _MINUTES.fullmatch(text):
        try:
            read_life(text)
        except Unreadable:
            message = f"read {quoted(text)}; accepted are minutes, hours or days, such as 20 min, 24 h or 2 days."
            raise Unreadable(message, read=text) from None
    return text


def _check_lines(lines: tuple[Line, ...], tables: list[Table]) -> None:
    """Refuse what no one could measure: a thing twice, two liquids that make up, more than the whole."""
    seen: set[str] = set()
    filling, shares = 0, Fraction(0)
    for line, table in zip(lines, tables, strict=True):
        named = line.material or line.recipe
        if named in seen:
            table.refuse("material", f"{quoted(named or '')} stands on an earlier line already; put them together.")
        seen |= {named} if named else set()
        if isinstance(line.amount, MakeUp):
            filling += 1
            if filling > 1:
                table.refuse("amount", "an earlier line makes up to volume already; only one liquid can.")
        if isinstance(line.amount, Share):
            shares += line.amount.parts
            if shares > 1:
                table.refuse("amount", f"with the lines above this is {show_parts(shares)}, more than the whole.")


def write_recipe(recipe: Recipe) -> str:
    """Write a recipe so that `read_recipe` reads the same recipe and version."""
    version = recipe.version
    strength_of = next((line.material for line in version.lines if line.position == version.strength_line), None)
    head: dict[str, object] = {
        "key": recipe.key,
        "name": recipe.name,
        "kind": recipe.kind,
        "makes": recipe.makes,
        "batch": show(version.batch) if version.batch else None,
        "fills": version.fills if version.fills != 1 else None,
        "life": version.life,
        "life_opened": version.life_opened,
        "ready_after": version.ready_after,
        "check_every": version.check_every,
        "strength": version.strength,
        "strength_line": strength_of,
        "over_solid": version.over_solid or None,
        "ingredients_limit": version.ingredients_limit or None,
        "media_test": version.media_test,
        "evaporation": version.evaporation,
        "leftover": version.leftover,
        "storage": version.storage,
        "note": version.note,
        "source": version.source,
    }
    tables: list[tuple[str, Mapping[str, object]]] = [("[recipe]", head)]
    tables += [("[check]", check_values(version.check))] if version.check else []
    tables += [("[[line]]", _line_values(line)) for line in version.lines]
    tables += [
        ("[[step]]", {"words": step.words, "wait": step.wait, "caution": step.caution or None})
        for step in version.steps
    ]
    return "\n".join(write_table(title, values) for title, values in tables)


def _line_values(line: Line) -> dict[str, object]:
    return {
        "material": line.material,
        "recipe": line.recipe,
        "amount": _shown(line.amount),
        "first_dose": line.first_dose,
        "stand_ins": line.stand_ins or None,
        "tolerance": f"{show_number(line.tolerance * 100)} %" if line.tolerance else None,
        "note": line.note,
    }


def _shown(amount: Amount | None) -> str | None:
    return None if amount is None else show_amount(amount)
