"""Materials as a person writes them in a TOML file.

[[material]]
key = "calcium-hydroxide"
name = "Calcium hydroxide"
kind = "reagent"
measured_by = "mass"
purity = "95 % w/w"
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import partial

from stockroom.domain.materials import Material
from stockroom.domain.toml_tables import Problems, Table, read_tables
from stockroom.errors import Unreadable
from stockroom.science.lives import read_life
from stockroom.science.numerals import quoted, read_decimal
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.reading import read_quantity, read_size
from stockroom.science.strengths import Strength, read_strength

GRAINS = ("along", "across", "none")
SIGNAL_WORDS = ("Danger", "Warning")
_HAZARD = re.compile(r"(?:H[0-9]{3}|EUH[0-9]{3})\S* \S.*")
_PICTOGRAM = re.compile(r"GHS0[1-9]")
_PACK_WORD = re.compile(r"[^\W\d_]+")


def read_materials(text: str, where: str) -> list[Material]:
    """Read every `[[material]]` of a file. Raises BadInput with every problem; `where` names the file."""
    file = read_tables(text, where)
    tables = file.tables("material")
    if not tables:
        file.problems.add("the file", "there is no material here; each begins with [[material]].")
    materials = [read_material_table(table) for table in tables]
    file.finish()
    for number, material in enumerate(materials):
        if material.key in [earlier.key for earlier in materials[:number]]:
            tables[number].refuse("key", f"{quoted(material.key)} stands above already; give each key once.")
    file.problems.raise_if_any()
    return materials


def read_material(values: dict[str, object], where: str) -> Material:
    """Read one material from its values, named and written as in a file. Raises BadInput with every problem."""
    table = Table(values, "the material", Problems(where))
    material = read_material_table(table)
    table.problems.raise_if_any()
    return material


def read_material_table(table: Table) -> Material:
    """Read one table, noting in it what is wrong; where something needed is missing, what comes back is never used."""
    key = table.key("key", needed=True) or ""
    table.place += f" ({key})" if key else ""
    measured_by = table.choice("measured_by", tuple(Dimension), needed=True)
    dimension = Dimension(measured_by or Dimension.MASS)
    sides = table.read("sheet", read_size) or (None, None)
    material = Material(
        key=key,
        name=table.line("name", needed=True) or "",
        kind=table.line("kind", needed=True) or "",
        dimension=dimension,
        metered=table.flag("metered", True),
        vented=table.flag("vented", False),
        grade=table.line("grade"),
        density=table.read("density", partial(_read_number, most=25, unit="g/mL", example="2.211")),
        purity=table.checked("purity", _read_purity),
        molar_mass=table.read("molar_mass", partial(_read_number, most=10_000, unit="g/mol", example="74.093")),
        sheet_length_um=sides[0],
        sheet_width_um=sides[1],
        grain=table.choice("grain", GRAINS),
        life_closed=table.checked("life_closed", read_life),
        life_opened=table.checked("life_opened", read_life),
        storage=table.text("storage"),
        signal_word=table.choice("signal_word", SIGNAL_WORDS),
        hazards=table.texts("hazards", _HAZARD, "a code and its words, such as H318 Causes serious eye damage"),
        precautions=table.texts("precautions"),
        pictograms=table.texts("pictograms", _PICTOGRAM, "GHS01 to GHS09"),
        hazard_ground=table.text("hazard_ground"),
        source=table.text("source"),
        identity=table.line("identity"),
        safety_sheet=table.line("safety_sheet"),
        safety_sheet_date=table.checked("safety_sheet_date", _read_sheet_day),
        register=table.flag("register", False),
    )
    if material.density and dimension not in (Dimension.MASS, Dimension.VOLUME):
        table.refuse("density", f"what is measured by {dimension} has none; leave it out.")
    if sides[0] and dimension not in (Dimension.AREA, Dimension.PIECES, Dimension.USES):
        table.refuse("sheet", f"what is measured by {dimension} has no sheet; leave it out.")
    read = partial(_read_amount, dimension=dimension, packs=material.packs)
    pack_word, pack = table.checked("pack_word", _read_pack_word), table.read("pack", read)
    if table.has("pack") != table.has("pack_word"):
        table.refuse("pack", "pack_word and pack belong together, such as “ream” and “500 sheets”.")
    material = replace(material, pack_word=pack_word, pack_quanta=pack.quanta if pack else None)
    low = table.read("low", partial(read, packs=material.packs))
    table.finish()
    return replace(material, low_quanta=low.quanta if low else None)


def _read_amount(text: str, *, dimension: Dimension, packs: Mapping[str, Quantity]) -> Quantity:
    read = read_quantity(text, expect=dimension, packs=packs)
    if read.about:
        raise Unreadable(f"{quoted(text)} is not exact; write the amount itself.", read=text)
    return read.quantity


def _read_sheet_day(text: str) -> str:
    """Take the day that stands on a safety sheet, as `2026-11-25` alone. Raises Unreadable."""
    with suppress(ValueError):
        if date.fromisoformat(text).isoformat() == text:
            return text
    raise Unreadable(f"read {quoted(text)}; accepted is the day on the sheet, such as 2026-11-25.", read=text)


def _read_pack_word(text: str) -> str:
    if not _PACK_WORD.fullmatch(text):
        raise Unreadable(f"read {quoted(text)}; accepted is one word, such as roll or ream.", read=text)
    return text


def _read_purity(text: str) -> Strength:
    purity = read_strength(text)
    if not purity.unit.startswith("%") or purity.number > 100:
        raise Unreadable(f"read {quoted(text)}; accepted is a percentage, such as 95 % w/w.", read=text)
    return purity


def _read_number(text: str, *, most: int, unit: str, example: str) -> Decimal:
    number = read_decimal(re.sub(rf"\s*{unit}$", "", text.strip(), flags=re.IGNORECASE))
    if not 0 < number <= most:
        raise Unreadable(
            f"read {quoted(text)}; accepted is a number above 0, up to {most}, in {unit}, such as {example}.", read=text
        )
    return number
