"""Materials of the studio's own: adding, editing and retiring them.

What is typed is read by the rules of material files, so that a form, the command line and a file mean the same.
Lots keep what they were received with, and actions the numbers they used: an edit never changes a past answer.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from stockroom.actions.editing import changes, keep_changes, retired
from stockroom.actions.material_hazards import refuse_without_reason
from stockroom.actions.naming import check_key, free_key
from stockroom.domain.edits import Change
from stockroom.domain.material_files import read_material
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.sizes import show_size
from stockroom.errors import AlreadyExists, BadInput
from stockroom.science.quantities import show
from stockroom.store.fold import fold
from stockroom.store.lots import lots_of_materials
from stockroom.store.materials import add_material, all_materials, change_material, find_material, material_key_taken
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes

Typed = Mapping[str, object]
"""Values named and written as in a material file; None where nothing was typed."""


def new_material(store: Store, typed: Typed) -> Material:
    """Add a material; without a key of its own it takes one made from its name.

    Raises BadInput with every problem, AlreadyExists when the key is taken or one of this name and grade is there.
    """
    values = {name: value for name, value in typed.items() if value is not None}
    with store.write():

        def taken(key: str) -> bool:
            return material_key_taken(store, key)

        key, name = values.get("key"), str(values.get("name", ""))
        values["key"] = free_key(name, taken, "material") if key is None else check_key(str(key), taken)
        material = read_material({"kind": "other", **values}, "What was typed")
        if key is None:
            _refuse_same_name(store, material)
        add_material(store, material)
    return find_material(store, material.key)


def _refuse_same_name(store: Store, material: Material) -> None:
    for other in all_materials(store, retired=True):
        alike = fold(other.name) == fold(material.name) and fold(other.grade or "") == fold(material.grade or "")
        if alike and other.id != material.id:
            retired = f" (retired on {other.retired_on})" if other.retired_on else ""
            raise AlreadyExists(
                f"There is a material '{other.name}' already{retired}: {other.key}. Give this one another name or "
                "--grade, or a --key of its own.",
                key=other.key,
            )


def edit_material(store: Store, occasion: Occasion, words: str, typed: Typed) -> tuple[Material, tuple[Change, ...]]:
    """Change what a material says of itself. What is None stays; what is empty is taken away.

    Its key and what it is measured by never change: lots and entries stand on them.
    """
    given = {name: value for name, value in typed.items() if value is not None}
    if not given:
        raise BadInput("Nothing to change: say what, such as --density '1.3' or --low '250 g'.")
    with store.write() as booked_at:
        before = find_material(store, words)
        values = {name: value for name, value in {**written(before), **given}.items() if not _is_empty(value)}
        read = read_material(values, "What was typed")
        after = replace(read, id=before.id, retired_on=before.retired_on)
        if (after.name, after.grade) != (before.name, before.grade):
            _refuse_same_name(store, after)
        made = changes(_shown(written(before)), _shown(written(after)))
        refuse_without_reason(made, occasion.reason)
        change_material(store, after)
        keep_changes(store, "material", before.key, made, occasion, booked_at)
    return after, made


@dataclass(frozen=True, slots=True, kw_only=True)
class RetiredMaterial:
    """A material that is offered no more, and what still speaks of it."""

    material: Material
    lots: tuple[str, ...]
    """Codes of the lots that have not ended; they stay usable."""
    recipes: tuple[str, ...]
    """Keys of the recipes that name it."""


def retire_material(store: Store, occasion: Occasion, words: str, *, undo: bool = False) -> RetiredMaterial:
    """Offer a material no more, or take it back into use."""
    with store.write() as booked_at:
        before = find_material(store, words)
        after, made = retired(before, occasion, before.name, undo=undo)
        change_material(store, after)
        keep_changes(store, "material", before.key, made, occasion, booked_at)
    return RetiredMaterial(
        material=after,
        lots=tuple(lot.code for lot in lots_of_materials(store, [after.id])),
        recipes=tuple(recipes_naming(store, after.key)),
    )


def recipes_naming(store: Store, key: str) -> list[str]:
    """Return the keys of the recipes whose newest version makes or names a material."""
    return [
        recipe.key
        for recipe in all_recipes(store)
        if recipe.makes == key or any(key in (line.material, *line.stand_ins) for line in recipe.version.lines)
    ]


def written(material: Material) -> dict[str, object]:
    """Write a material as a file does: the same names and values that read back as the same."""

    def amount(quanta: int | None) -> str | None:
        return None if quanta is None else show(material.quantity(quanta))

    return {
        "key": material.key,
        "name": material.name,
        "measured_by": material.dimension.value,
        "kind": material.kind,
        "grade": material.grade,
        "metered": material.metered,
        "vented": material.vented,
        "density": None if material.density is None else str(material.density),
        "purity": material.purity,
        "molar_mass": None if material.molar_mass is None else str(material.molar_mass),
        "pack_word": material.pack_word,
        "pack": amount(material.pack_quanta),
        "sheet": show_size(material.sheet_length_um, material.sheet_width_um),
        "grain": material.grain,
        "life_closed": material.life_closed,
        "life_opened": material.life_opened,
        "low": amount(material.low_quanta),
        "storage": material.storage,
        "signal_word": material.signal_word,
        "hazards": list(material.hazards),
        "precautions": list(material.precautions),
        "pictograms": list(material.pictograms),
        "hazard_ground": material.hazard_ground,
        "source": material.source,
        "identity": material.identity,
        "safety_sheet": material.safety_sheet,
        "safety_sheet_date": material.safety_sheet_date,
        "register": material.register,
    }


def _is_empty(value: object) -> bool:
    return value is None or value == [] or value == [""] or (isinstance(value, str) and not value.strip())


def _shown(values: Typed) -> dict[str, str | None]:
    def text(value: object) -> str | None:
        match value:
            case bool():
                return "yes" if value else "no"
            case list():
                return "; ".join(value) or None
            case None:
                return None
        return str(value)

    return {name: text(value) for name, value in values.items()}
