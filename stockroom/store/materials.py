"""Materials, as stored."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any

from stockroom.domain.materials import Material
from stockroom.errors import AlreadyExists
from stockroom.science.quantities import Dimension
from stockroom.store.finding import find_row
from stockroom.store.fold import fold, holds, words_to_find
from stockroom.store.open import Row, Store

COLUMNS = (
    "id", "key", "name", "kind", "dimension", "metered", "vented", "grade", "density", "purity", "molar_mass",
    "pack_word", "pack_quanta", "sheet_length_um", "sheet_width_um", "grain", "life_closed", "life_opened",
    "low_quanta", "storage", "signal_word", "hazards", "precautions", "pictograms", "hazard_ground", "source",
    "identity", "safety_sheet", "safety_sheet_date", "register", "retired_on",
)  # fmt: skip


def material_of(row: Row, prefix: str = "") -> Material:
    """Build a material from its row; `prefix` stands before the column names of a join."""
    values: dict[str, Any] = {name: row[prefix + name] for name in COLUMNS}
    values["dimension"] = Dimension(values["dimension"])
    values["metered"] = values["metered"] == "metered"
    values["vented"] = values["vented"] == "vented"
    values["register"] = values["register"] == "under a register"
    for name in ("density", "molar_mass"):
        values[name] = None if values[name] is None else Decimal(values[name])
    for name in ("hazards", "precautions", "pictograms"):
        values[name] = () if values[name] == "[]" else tuple(json.loads(values[name]))
    return Material(**values)


def stored_form(material: Material) -> dict[str, Any]:
    """Return a material's columns as they are stored."""
    values: dict[str, Any] = {name: getattr(material, name) for name in COLUMNS if name != "id"}
    values["dimension"] = material.dimension.value
    values["metered"] = "metered" if material.metered else "not metered"
    values["vented"] = "vented" if material.vented else "closed"
    values["register"] = "under a register" if material.register else "no register"
    for name in ("density", "molar_mass"):
        values[name] = None if values[name] is None else str(values[name])
    for name in ("hazards", "precautions", "pictograms"):
        values[name] = json.dumps(list(values[name]), ensure_ascii=False)
    values["folded"] = fold(f"{material.key} {material.name} {material.kind} {material.grade or ''}")
    return values


def add_material(store: Store, material: Material) -> int:
    """Insert a material; inside `write()`. Raises AlreadyExists when its key is taken."""
    if material_key_taken(store, material.key):
        raise AlreadyExists(f"There is a material '{material.key}' already. Choose another name.")
    return store.insert("material", **stored_form(material))


def change_material(store: Store, material: Material) -> None:
    """Store an edited material; its key and dimension stay. Whoever edits keeps the old values (store/edits.py)."""
    columns = stored_form(material)
    del columns["key"], columns["dimension"]
    store.update("material", material.id, **columns)


def all_materials(store: Store, words: str = "", *, retired: bool = False) -> list[Material]:
    """Return the materials that hold every word, by name; retired ones only when asked for."""
    rows = store.rows("SELECT * FROM material ORDER BY name, key")
    wanted = words_to_find(words)
    return [material_of(row) for row in rows if (retired or row["retired_on"] is None) and holds(row["folded"], wanted)]


def materials_named(store: Store, keys: set[str]) -> dict[str, Material]:
    """Return the materials of some keys, retired ones too."""
    rows = store.rows("SELECT * FROM material")
    return {row["key"]: material_of(row) for row in rows if row["key"] in keys}


def material_key_taken(store: Store, key: str) -> bool:
    return store.row("SELECT id FROM material WHERE key = :key", key=key) is not None


def find_material(store: Store, words: str) -> Material:
    """Find one material by key, full name or an unambiguous part of either.

    Raises NotFound when none or several match, naming the nearest.
    """
    return material_of(find_row(store, "material", words))


def materials_with_a_least(store: Store) -> list[Material]:
    """Return the materials for which a least amount was set by hand."""
    rows = store.rows("SELECT * FROM material WHERE low_quanta IS NOT NULL AND retired_on IS NULL ORDER BY name")
    return [material_of(row) for row in rows]
