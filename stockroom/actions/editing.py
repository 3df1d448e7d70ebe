"""What editing any noun has in common: what changed is told, and who, when and the old value are kept."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from stockroom.domain.edits import Change
from stockroom.domain.occasion import Occasion, utc_text
from stockroom.errors import Refused
from stockroom.store.edits import keep_edits
from stockroom.store.open import Store


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


def retired_day(retired_on: str | None, occasion: Occasion, name: str, *, undo: bool) -> str | None:
    """Return the new day of retiring, or None to take something back into use. Raises Refused for no change."""
    if undo and retired_on is None:
        raise Refused(f"{name} is in use; there is no retiring to undo.")
    if not undo and retired_on is not None:
        raise Refused(f"{name} was retired on {retired_on} already.")
    return None if undo else occasion.day.isoformat()
