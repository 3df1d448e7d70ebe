"""The answer to whether media, inks and colours were tested, as a person gives it in one line."""

from __future__ import annotations

from stockroom.store.open import Store
from stockroom.store.studio import all_people


def read_media_answer(store: Store, typed: str | None) -> tuple[str | None, str | None]:
    """Return whose initials were given, or why nobody tested: whatever is not the initials of someone here."""
    answer = " ".join((typed or "").split())
    if answer.upper() in {person.initials.upper() for person in all_people(store)}:
        return answer, None
    return None, answer or None
