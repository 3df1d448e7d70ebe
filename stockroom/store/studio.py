"""The studio's people, places and measures, as stored."""

from __future__ import annotations

from stockroom.domain.studio import Measure, Person, Place
from stockroom.errors import AlreadyExists, NotFound
from stockroom.store.finding import columns_of, find_named, refuse_taken_name
from stockroom.store.open import Row, Store


def add_person(store: Store, initials: str, name: str) -> None:
    """Insert a person. Raises AlreadyExists: initials belong to one person for ever, in small letters too."""
    for person in all_people(store):
        if person.initials.upper() == initials.upper():
            raise AlreadyExists(
                f"{person.initials} belongs to {person.name} for good, so that every label can be answered for. "
                "Choose others."
            )
    store.insert("person", initials=initials, name=name)


def _person_of(row: Row) -> Person:
    return Person(id=row["id"], initials=row["initials"], name=row["name"], retired_on=row["retired_on"])


def all_people(store: Store) -> list[Person]:
    return [_person_of(row) for row in store.rows("SELECT * FROM person ORDER BY initials")]


def find_person(store: Store, initials: str) -> Person:
    """Find a person by initials, case forgiven. Raises NotFound listing who there is."""
    wanted = initials.strip().upper()
    people = all_people(store)
    for person in people:
        if person.initials.upper() == wanted:
            return person
    known = ", ".join(person.initials for person in people if person.retired_on is None) or "none yet"
    raise NotFound(
        f"'{initials}' are not the initials of anyone here (known: {known}). "
        "Add them with 'stockroom person new INITIALS NAME'."
    )


def change_person(store: Store, person: Person) -> None:
    """Store a person's name and day of retiring; initials never change."""
    store.update("person", person.id, name=person.name, retired_on=person.retired_on)


def add_place(store: Store, name: str, note: str | None) -> int:
    """Insert a place. Raises AlreadyExists when the name is taken."""
    refuse_taken_name(name, None, all_places(store, retired=True), "place")
    return store.insert("place", name=name, note=note)


def all_places(store: Store, *, retired: bool = False) -> list[Place]:
    rows = store.rows("SELECT * FROM place ORDER BY name")
    return [
        Place(id=row["id"], name=row["name"], note=row["note"], retired_on=row["retired_on"])
        for row in rows
        if retired or row["retired_on"] is None
    ]


def find_place(store: Store, words: str, *, retired: bool = False) -> Place:
    """Find a place by name or an unambiguous part. Raises NotFound listing what there is."""
    return find_named(words, all_places(store, retired=retired), "place", "stockroom place new NAME")


def change_place(store: Store, place: Place) -> None:
    """Store a changed place. Raises AlreadyExists when another has its name."""
    refuse_taken_name(place.name, place.id, all_places(store, retired=True), "place")
    store.update("place", place.id, **columns_of(place))


def _measure_of(row: Row) -> Measure:
    return Measure(**{name: row[name] for name in Measure.__dataclass_fields__})


def add_measure(store: Store, measure: Measure) -> None:
    """Insert a spoon, beaker, cylinder, pipette, tray or balance. Raises AlreadyExists when its name is taken."""
    refuse_taken_name(measure.name, measure.id, all_measures(store, retired=True), "measure")
    store.insert("measure", **columns_of(measure))


def all_measures(store: Store, *, retired: bool = False) -> list[Measure]:
    rows = store.rows("SELECT * FROM measure ORDER BY kind, name")
    return [_measure_of(row) for row in rows if retired or row["retired_on"] is None]


def find_measure(store: Store, words: str, *, kind: str | None = None, retired: bool = False) -> Measure:
    """Find a measure, or one of a kind, by name, by how it begins or by a part; raise NotFound listing them."""
    measures = [one for one in all_measures(store, retired=retired) if kind in (None, one.kind)]
    return find_named(words, measures, kind or "measure", "stockroom measure new NAME", begins=True)


def change_measure(store: Store, measure: Measure) -> None:
    """Store a changed measure; its kind stays. Raises AlreadyExists when another has its name."""
    refuse_taken_name(measure.name, measure.id, all_measures(store, retired=True), "measure")
    store.update("measure", measure.id, **columns_of(measure))
