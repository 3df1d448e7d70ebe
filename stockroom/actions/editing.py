"""What editing any noun has in common: what changed is told, and who, when and the old value are kept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING, TypeVar

from stockroom.domain.edits import Change
from stockroom.domain.occasion import Occasion, utc_text
from stockroom.errors import Refused
from stockroom.store.edits import keep_edits
from stockroom.store.open import Store

if TYPE_CHECKING:
    from stockroom.domain.labels import LabelStock
    from stockroom.domain.materials import Material
    from stockroom.domain.recipes import Recipe
    from stockroom.domain.studio import Measure, Person, Place, Supplier

Noun = TypeVar("Noun", "LabelStock", "Material", "Measure", "Person", "Place", "Recipe", "Supplier")


def changes(before: Mapping[str, str | None], after: Mapping[str, str | None]) -> tuple[Change, ...]:
    """Return the fields that differ, in the order of `after`."""
    return tuple(
        Change(field=field, was=before.get(field), became=became)
        for field, became in after.items()
        if before.get(field) != became
    )


def keep_changes(
    store: Store, noun: str, named: str, made: tuple[Change, ...], occasion: Occasion, booked_at: datetime
) -> None:
    """Keep what an edit changed; inside `write()`."""
    fields = {change.field: (change.was, change.became) for change in made}
    keep_edits(store, noun, named, fields, occasion.by, utc_text(booked_at), occasion.reason)


def retired(before: Noun, occasion: Occasion, name: str, *, undo: bool) -> tuple[Noun, tuple[Change, ...]]:
    """Return something as it is once retired, or taken back into use, and that change.

    Raises Refused where it is so already.
    """
    if undo and before.retired_on is None:
        raise Refused(f"{name} is in use; there is no retiring to undo.")
    if not undo and before.retired_on is not None:
        raise Refused(f"{name} was retired on {before.retired_on} already.")
    day = None if undo else occasion.day.isoformat()
    return replace(before, retired_on=day), changes({"retired_on": before.retired_on}, {"retired_on": day})
