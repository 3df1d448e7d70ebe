"""Recipes, their versions, lines and steps, as stored. A version is never changed: editing adds the next one."""

from __future__ import annotations

import json
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.recipes import Line, Recipe, RecipeVersion, Step
from stockroom.errors import AlreadyExists, BadInput, NotFound
from stockroom.science.quantities import Dimension, Quantity
from stockroom.store.finding import find_row
from stockroom.store.fold import fold, holds, words_to_find
from stockroom.store.open import Row, Store
from stockroom.store.recipe_amounts import read_stored_amount, stored_amount
from stockroom.store.recipe_checks import insert_recipe_check, recipe_check


def add_recipe(store: Store, recipe: Recipe, initials: str, booked_at: str) -> int:
    """Insert a recipe with its first version; inside `write()`.

    Raises AlreadyExists when the key is taken, NotFound when a line names what there is not, BadInput for a loop.
    """
    if recipe_key_taken(store, recipe.key):
        raise AlreadyExists(f"There is a recipe '{recipe.key}' already. Choose another name, or edit that one.")
    makes = None if recipe.makes is None else _material_id(store, recipe.makes)
    recipe_id = store.insert(
        "recipe",
        key=recipe.key,
        name=recipe.name,
        folded=fold(f"{recipe.key} {recipe.name}"),
        kind=recipe.kind,
        makes_id=makes,
    )
    add_version(store, recipe_id, recipe.version, initials, booked_at)
    return recipe_id


def add_version(store: Store, recipe_id: int, version: RecipeVersion, initials: str, booked_at: str) -> int:
    """Insert the next version of a recipe; inside `write()`."""
    row = store.row("SELECT max(number) AS last FROM recipe_version WHERE recipe_id = :id", id=recipe_id)
    version_id = store.insert(
        "recipe_version",
        recipe_id=recipe_id,
        number=(row["last"] or 0) + 1 if row else 1,
        batch_quanta=version.batch.quanta if version.batch else None,
        fills=version.fills,
        life=version.life,
        life_opened=version.life_opened,
        ready_after=version.ready_after,
        check_every=version.check_every,
        strength=version.strength,
        strength_line=version.strength_line,
        over_solid="over solid" if version.over_solid else "no solid",
        dates_from="ingredients too" if version.ingredients_limit else "own life",
        leftover=version.leftover,
        storage=version.storage,
        note=version.note,
        source=version.source,
        made_by=initials,
        made_at=booked_at,
    )
    if version.media_test or version.evaporation:
        store.insert(
            "version_care", version_id=version_id, media_test=version.media_test, evaporation=version.evaporation
        )
    for position, line in enumerate(version.lines, 1):
        kind, amount = stored_amount(line.amount)
        store.insert(
            "recipe_line",
            version_id=version_id,
            position=position,
            material_id=None if line.material is None else _material_id(store, line.material),
            recipe_id=None if line.recipe is None else _recipe_id(store, line.recipe),
            kind=kind,
            amount=amount,
            first_dose=line.first_dose,
            stand_ins=json.dumps([_material_key(store, key) for key in line.stand_ins]),
            note=line.note,
        )
        if line.tolerance is not None:
            store.insert(
                "line_tolerance", version_id=version_id, position=position, millionths=int(line.tolerance * 1_000_000)
            )
    for position, step in enumerate(version.steps, 1):
        store.insert(
            "recipe_step",
            version_id=version_id,
            position=position,
            words=step.words,
            wait=step.wait,
            caution="caution" if step.caution else "step",
        )
    if version.check is not None:
        insert_recipe_check(store, version_id, version.check)
    refuse_ring(store, recipe_id)
    return version_id


def change_recipe(store: Store, recipe: Recipe) -> None:
    """Store a recipe's name and day of retiring; inside `write()`."""
    folded = fold(f"{recipe.key} {recipe.name}")
    store.update("recipe", recipe.id, name=recipe.name, folded=folded, retired_on=recipe.retired_on)


def _material_id(store: Store, key: str) -> int:
    row = store.row("SELECT id FROM material WHERE key = :key", key=key)
    if row is None:
        raise NotFound(f"The recipe names the material '{key}', which this stockroom does not have. Add it first.")
    return int(row["id"])


def _material_key(store: Store, key: str) -> str:
    _material_id(store, key)
    return key


def _recipe_id(store: Store, key: str) -> int:
    row = store.row("SELECT id FROM recipe WHERE key = :key", key=key)
    if row is None:
        raise NotFound(f"The recipe names the recipe '{key}', which this stockroom does not have. Add it first.")
    return int(row["id"])


def refuse_ring(store: Store, recipe_id: int) -> None:
    """Raise BadInput, naming the ring, where a recipe needs itself: by its lines, or by what makes their materials."""
    paths: list[tuple[int, ...]] = [(recipe_id,)]
    seen: set[int] = set()
    while paths:
        path = paths.pop()
        for needed in _needed_by(store, path[-1]):
            if needed == recipe_id:
                keys = [store.rows("SELECT key FROM recipe WHERE id = :id", id=each)[0]["key"] for each in path]
                raise BadInput("These recipes would go round in a ring: " + " → ".join([*keys, keys[0]]) + ".")
            if needed not in seen:
                seen.add(needed)
                paths.append((*path, needed))


def _needed_by(store: Store, recipe_id: int) -> list[int]:
    """Return the recipes that the newest version of one needs."""
    sql = (
        "SELECT DISTINCT recipe.id AS id FROM recipe_line JOIN recipe ON recipe.id = recipe_line.recipe_id "
        "OR (recipe.makes_id = recipe_line.material_id AND recipe.retired_on IS NULL) WHERE version_id = "
        "(SELECT id FROM recipe_version WHERE recipe_id = :id ORDER BY number DESC LIMIT 1) ORDER BY recipe.id"
    )
    return [row["id"] for row in store.rows(sql, id=recipe_id)]


def recipe_of(store: Store, row: Row, number: int | None = None) -> Recipe:
    """Build a recipe with its newest version, or the one of that number."""
    version = store.row(
        "SELECT * FROM recipe_version WHERE recipe_id = :id AND (:number IS NULL OR number = :number) "
        "ORDER BY number DESC LIMIT 1",
        id=row["id"],
        number=number,
    )
    if version is None:
        raise NotFound(f"The recipe {row['key']} has no version {number}.")
    care = store.row("SELECT media_test, evaporation FROM version_care WHERE version_id = :id", id=version["id"])
    makes = store.row("SELECT key, dimension FROM material WHERE id = :id", id=row["makes_id"])
    dimension = Dimension(makes["dimension"]) if makes else Dimension.VOLUME
    batch = version["batch_quanta"]
    return Recipe(
        id=row["id"],
        key=row["key"],
        name=row["name"],
        kind=row["kind"],
        makes=makes["key"] if makes else None,
        retired_on=row["retired_on"],
        version=RecipeVersion(
            id=version["id"],
            number=version["number"],
            batch=None if batch is None else Quantity(dimension, batch),
            fills=version["fills"],
            life=version["life"],
            life_opened=version["life_opened"],
            ready_after=version["ready_after"],
            check_every=version["check_every"],
            strength=version["strength"],
            strength_line=version["strength_line"],
            over_solid=version["over_solid"] == "over solid",
            ingredients_limit=version["dates_from"] == "ingredients too",
            media_test=care["media_test"] if care else None,
            evaporation=care["evaporation"] if care else None,
            leftover=version["leftover"],
            storage=version["storage"],
            note=version["note"],
            source=version["source"],
            check=recipe_check(store, version["id"]),
            lines=_lines(store, version["id"]),
            steps=tuple(
                Step(words=step["words"], wait=step["wait"], caution=step["caution"] == "caution")
                for step in store.rows(
                    "SELECT * FROM recipe_step WHERE version_id = :id ORDER BY position", id=version["id"]
                )
            ),
        ),
    )


def _lines(store: Store, version_id: int) -> tuple[Line, ...]:
    rows = store.rows(
        "SELECT recipe_line.*, material.key AS material, recipe.key AS recipe, millionths FROM recipe_line "
        "LEFT JOIN line_tolerance USING (version_id, position) "
        "LEFT JOIN material ON material.id = recipe_line.material_id "
        "LEFT JOIN recipe ON recipe.id = recipe_line.recipe_id WHERE version_id = :id ORDER BY position",
        id=version_id,
    )
    return tuple(
        Line(
            position=row["position"],
            material=row["material"],
            recipe=row["recipe"],
            amount=read_stored_amount(row["kind"], row["amount"]),
            first_dose=row["first_dose"],
            stand_ins=tuple(json.loads(row["stand_ins"])),
            tolerance=None if row["millionths"] is None else Fraction(row["millionths"], 1_000_000),
            note=row["note"],
        )
        for row in rows
    )


def strength_line_of(store: Store, version_id: int) -> Line | None:
    """Return the line that decides the strength of what a version makes, or None where none does."""
    row = store.row("SELECT strength_line FROM recipe_version WHERE id = :id", id=version_id)
    lines = _lines(store, version_id) if row is not None else ()
    return next((line for line in lines if line.position == row["strength_line"]), None) if row else None


def all_recipes(store: Store, words: str = "", *, retired: bool = False) -> list[Recipe]:
    """Return the recipes that hold every word, by kind and name; retired ones only when asked for."""
    rows = store.rows("SELECT * FROM recipe ORDER BY kind, name")
    wanted = words_to_find(words)
    return [
        recipe_of(store, row) for row in rows if (retired or row["retired_on"] is None) and holds(row["folded"], wanted)
    ]


def recipe_key_taken(store: Store, key: str) -> bool:
    return store.row("SELECT id FROM recipe WHERE key = :key", key=key) is not None


def find_recipe(store: Store, words: str, number: int | None = None) -> Recipe:
    """Find one recipe by key, full name or an unambiguous part. Raises NotFound naming the nearest."""
    return recipe_of(store, find_row(store, "recipe", words), number)


def recipe_making(store: Store, material_key: str) -> Recipe | None:
    """Return the stock recipe that makes a material, if there is one."""
    row = store.row(
        "SELECT recipe.* FROM recipe JOIN material ON material.id = recipe.makes_id "
        "WHERE material.key = :key AND recipe.retired_on IS NULL ORDER BY recipe.id LIMIT 1",
        key=material_key,
    )
    return recipe_of(store, row) if row else None


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionMade:
    """When a version of a recipe was made, and by whom."""

    number: int
    made_by: str
    made_at: str


def versions_of(store: Store, recipe_id: int) -> list[VersionMade]:
    """Return every version of a recipe, oldest first."""
    sql = "SELECT number, made_by, made_at FROM recipe_version WHERE recipe_id = :id ORDER BY number"
    return [VersionMade(**dict(row)) for row in store.rows(sql, id=recipe_id)]
