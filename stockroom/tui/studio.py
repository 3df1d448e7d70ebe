"""What the screens know of the stockroom before they open: its zone, its currency and who may book."""

from __future__ import annotations

from dataclasses import dataclass
from zoneinfo import ZoneInfo

from stockroom.domain.studio import Person
from stockroom.errors import BadInput
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting
from stockroom.store.studio import all_people, find_person


@dataclass(frozen=True, slots=True, kw_only=True)
class Studio:
    """What stays the same while the screens are open."""

    zone: ZoneInfo
    currency: str
    by: str | None
    """Initials that book; None where several people might, and nobody said who."""


def read_studio(store: Store, initials: str | None) -> Studio:
    """Read the stockroom's settings and settle who books. Raises NotFound, BadInput for a person who retired."""
    return Studio(
        zone=ZoneInfo(setting(store, "time_zone")),
        currency=setting(store, "currency"),
        by=_who_books(store, initials),
    )


def working_people(store: Store) -> list[Person]:
    """Return who may book. Raises BadInput where nobody may."""
    working = [person for person in all_people(store) if person.retired_on is None]
    if not working:
        raise BadInput("Nobody here books any more. Add someone with 'stockroom person new INITIALS NAME'.")
    return working


def _who_books(store: Store, initials: str | None) -> str | None:
    if not initials:
        working = working_people(store)
        return working[0].initials if len(working) == 1 else None
    person = find_person(store, initials)
    if person.retired_on:
        raise BadInput(f"{person.initials} ({person.name}) retired on {person.retired_on} and books nothing more.")
    return person.initials
