"""How what a recipe makes is checked, as stored: at most one row a version, never changed."""

from __future__ import annotations

import json
from decimal import Decimal

from stockroom.domain.recipes import RecipeCheck, figure_text
from stockroom.store.open import Store


def insert_recipe_check(store: Store, version_id: int, check: RecipeCheck) -> None:
    """Keep the check of a version; inside `write()`."""
    store.insert(
        "recipe_check",
        version_id=version_id,
        method=check.method,
        low=figure_text(check.low),
        high=figure_text(check.high),
        unit=check.unit,
        error=figure_text(check.error),
        spoilt=json.dumps(check.spoilt, ensure_ascii=False),
        extends="moves its day" if check.extends else "moves nothing",
        source=check.source,
    )


def recipe_check(store: Store, version_id: int) -> RecipeCheck | None:
    """Return the check of a version, or None where it has none."""
    row = store.row("SELECT * FROM recipe_check WHERE version_id = :id", id=version_id)
    if row is None:
        return None
    low, high, error = (None if row[name] is None else Decimal(row[name]) for name in ("low", "high", "error"))
    return RecipeCheck(
        method=row["method"],
        low=low,
        high=high,
        unit=row["unit"],
        error=error,
        spoilt=tuple(json.loads(row["spoilt"])),
        extends=row["extends"] == "moves its day",
        source=row["source"],
    )
