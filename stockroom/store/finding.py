"""Find one thing by its key, its full name or an unambiguous part of either; names that are taken."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Any, TypeVar

from stockroom.errors import AlreadyExists, NotFound
from stockroom.store.fold import fold
from stockroom.store.open import Row, Store

if TYPE_CHECKING:
    from stockroom.domain.labels import LabelStock
    from stockroom.domain.studio import Measure, Place, Supplier

Named = TypeVar("Named", "LabelStock", "Measure", "Place", "Supplier")


def find_row(store: Store, noun: str, words: str) -> Row:
    """Return the one row of `material` or `recipe` that the words mean; one in use goes before a retired one.

    Raises NotFound where none or several fit, naming the nearest.
    """
    wanted = fold(words)
    rows = store.rows(f"SELECT * FROM {noun} ORDER BY key")
    for matches in (
        [row for row in rows if row["key"] == words.strip()],
        [row for row in rows if fold(row["name"]) == wanted or fold(row["key"]) == wanted],
        [row for row in rows if wanted and all(part in row["folded"] for part in wanted.split())],
    ):
        kept = [row for row in matches if row["retired_on"] is None] or matches
        if len(kept) == 1:
            return kept[0]
        if len(kept) > 1:
            names = ", ".join(row["key"] for row in kept[:8])
            raise NotFound(f"'{words}' fits several {noun}s: {names}. Say which.", fits=[row["key"] for row in kept])
    raise NotFound(f"There is no {noun} '{words}'. 'stockroom {noun} list' shows those there are.")


def names_of(thing: Named) -> tuple[str, ...]:
    """Return a thing's name as it is searched, and the key that a renamed one keeps."""
    key: str | None = getattr(thing, "key", None)
    return (fold(thing.name), *([key] if key else []))


def find_named(words: str, things: Sequence[Named], noun: str, add: str, *, begins: bool = False) -> Named:
    """Find one of some things by name or an unambiguous part; with `begins` how a name begins goes before a part.

    Raises NotFound listing what there is; `add` is the command that adds one.
    """
    wanted = fold(words)
    ways: tuple[Callable[[Named], bool], ...] = (
        lambda each: wanted in names_of(each),
        lambda each: begins and fold(each.name).startswith(wanted),
        lambda each: wanted in fold(each.name),
    )
    matches = next((found for way in ways if wanted and (found := [each for each in things if way(each)])), [])
    if len(matches) == 1:
        return matches[0]
    names = "; ".join(each.name for each in things) or "none yet"
    trouble = f"fits several {noun}s" if matches else f"is not a {noun} here"
    raise NotFound(f"'{words}' {trouble}. There are: {names}. Add one with '{add}'.")


def refuse_taken_name(name: str, own_id: int | None, others: Iterable[Named], noun: str) -> None:
    """Raise AlreadyExists where another thing, retired or not, has a name already."""
    for other in others:
        if fold(name) in names_of(other) and other.id != own_id:
            retired = f" (retired on {other.retired_on})" if other.retired_on else ""
            raise AlreadyExists(f"There is a {noun} '{other.name}' already{retired}.")


def columns_of(thing: Named) -> dict[str, Any]:
    """Return what is stored of a thing, by column."""
    values = asdict(thing)
    del values["id"]
    return values
