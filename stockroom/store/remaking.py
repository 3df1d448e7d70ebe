"""By which recipe a lot or a material is made again: keys alone, for a list that tells it of many things."""

from __future__ import annotations

from stockroom.errors import NotFound
from stockroom.store.open import Row, Store

_KEYS = (
    "SELECT material.key AS material, recipe.key AS recipe FROM material "
    "LEFT JOIN recipe ON recipe.makes_id = material.id AND recipe.retired_on IS NULL"
)


def recipe_of_material(store: Store, key: str) -> str | None:
    """Return the key of the stock recipe that makes a material, None without one. Raises NotFound for its key."""
    return _first(store.rows(f"{_KEYS} WHERE material.key = :key ORDER BY recipe.id LIMIT 1", key=key), key)[1]


def remade_by(store: Store, code: str) -> tuple[str, str | None]:
    """Return the key of a lot's material, and of the stock recipe that makes it. Raises NotFound for its code."""
    sql = f"{_KEYS} JOIN lot ON lot.material_id = material.id WHERE lot.code = :code ORDER BY recipe.id LIMIT 1"
    return _first(store.rows(sql, code=code), code)


def _first(rows: list[Row], asked: str) -> tuple[str, str | None]:
    if not rows:
        raise NotFound(f"There is no '{asked}' here any more.")
    return rows[0]["material"], rows[0]["recipe"]
