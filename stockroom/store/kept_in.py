"""In what jars each stock is kept, as stored."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptIn:
    """The jar a stock is kept in, in quanta of what it makes."""

    jar: int
    left_behind: int
    """How much in each jar cannot be drawn."""


def kept_in(store: Store) -> dict[int, KeptIn]:
    """Return the jars that were told, by id of the recipe."""
    rows = store.rows("SELECT recipe_id, jar_quanta, left_behind FROM kept_in")
    return {row["recipe_id"]: KeptIn(jar=row["jar_quanta"], left_behind=row["left_behind"]) for row in rows}


def set_kept_in(store: Store, recipe_id: int, told: KeptIn | None) -> None:
    """Put what jar a stock is kept in, or take it away; inside `write()`."""
    store.run("DELETE FROM kept_in WHERE recipe_id = :recipe", recipe=recipe_id)
    if told is not None:
        store.insert("kept_in", recipe_id=recipe_id, jar_quanta=told.jar, left_behind=told.left_behind)
