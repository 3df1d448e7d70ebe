"""The studio's people, places, measures and settings, as stored."""

from __future__ import annotations

from stockroom.domain.studio import Measure, Person, Place
from stockroom.errors import AlreadyExists, BadInput, NotFound
from stockroom.store.fold import fold
from stockroom.store.open import Row, Store


def setting(store: Store, name: str) -> str:
    """Return one of the stockroom's own settings: currency, time_zone, costs."""
    row = store.row("SELECT value FROM setting WHERE name = :name", name=name)
    if row is None:
        raise LookupError(name)
    return str(row["value"])


def set_setting(store: Store, name: str, value: str) -> None:
    store.run(
        "INSERT INTO setting (name, value) VALUES (:name, :value) ON CONFLICT (name) DO UPDATE SET value = excluded.value",
        name=name,
        value=value,
    )


def add_person(store: Store, initials: str, name: str) -> None:
    """Insert a person. Raises AlreadyExists: initials belong to one person for ever."""
    taken = store.row("SELECT name, retired_on FROM person WHERE initials = :initials", initials=initials)
    if taken is not None:
        raise AlreadyExists(
            f"{initials} belongs to {taken['name']} for good, so that every label can be answered for. Choose others."
        )
    store.run("INSERT INTO person (initials, name) VALUES (:initials, :name)", initials=initials, name=name)


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


def retire_person(store: Store, person: Person, day: str) -> None:
    store.run("UPDATE person SET retired_on = :day WHERE id = :id", day=day, id=person.id)


def add_place(store: Store, name: str, note: str | None) -> int:
    """Insert a place. Raises AlreadyExists when the name is taken."""
    if any(fold(place.name) == fold(name) for place in all_places(store, retired=True)):
        raise AlreadyExists(f"There is a place '{name}' already.")
    return store.run("INSERT INTO place (name, note) VALUES (:name, :note)", name=name, note=note)


def all_places(store: Store, *, retired: bool = False) -> list[Place]:
    rows = store.rows("SELECT * FROM place ORDER BY name")
    return [
        Place(id=row["id"], name=row["name"], note=row["note"], retired_on=row["retired_on"])
        for row in rows
        if retired or row["retired_on"] is None
    ]


def find_place(store: Store, words: str) -> Place:
    """Find a place by name or an unambiguous part. Raises NotFound listing what there is."""
    wanted, places = fold(words), all_places(store)
    exact = [place for place in places if fold(place.name) == wanted]
    matches = exact or [place for place in places if wanted and wanted in fold(place.name)]
    if len(matches) == 1:
        return matches[0]
    names = "; ".join(place.name for place in places) or "none yet"
    trouble = "fits several places" if matches else "is not a place here"
    raise NotFound(f"'{words}' {trouble}. Places: {names}. Add one with 'stockroom place new NAME'.")


def change_place(store: Store, place: Place, name: str, note: str | None, retired_on: str | None) -> None:
    store.run(
        "UPDATE place SET name = :name, note = :note, retired_on = :day WHERE id = :id",
        name=name,
        note=note,
        day=retired_on,
        id=place.id,
    )


def _measure_of(row: Row) -> Measure:
    return Measure(**{name: row[name] for name in Measure.__dataclass_fields__})


def add_measure(store: Store, measure: Measure) -> None:
    """Insert a spoon, beaker, cylinder, pipette, tray or balance. Raises AlreadyExists, BadInput."""
    if any(fold(known.name) == fold(measure.name) for known in all_measures(store, retired=True)):
        raise AlreadyExists(f"There is a measure '{measure.name}' already.")
    needed = {"tray": measure.length_um, "balance": measure.resolution_ug}.get(measure.kind, measure.capacity_ul)
    if needed is None:
        asked = {"tray": "--size '40 x 30 cm'", "balance": "--resolution '0.01 g'"}.get(
            measure.kind, "--capacity '100 mL'"
        )
        raise BadInput(f"A {measure.kind} needs {asked}.")
    store.run(
        "INSERT INTO measure (name, kind, capacity_ul, graduation_ul, length_um, width_um, resolution_ug) "
        "VALUES (:name, :kind, :capacity, :graduation, :length, :width, :resolution)",
        name=measure.name,
        kind=measure.kind,
        capacity=measure.capacity_ul,
        graduation=measure.graduation_ul,
        length=measure.length_um,
        width=measure.width_um,
        resolution=measure.resolution_ug,
    )


def all_measures(store: Store, *, retired: bool = False) -> list[Measure]:
    rows = store.rows("SELECT * FROM measure ORDER BY kind, name")
    return [_measure_of(row) for row in rows if retired or row["retired_on"] is None]


def find_measure(store: Store, words: str) -> Measure:
    """Find a measure by name. Raises NotFound listing what there is."""
    wanted, measures = fold(words), all_measures(store)
    matches = [measure for measure in measures if fold(measure.name) == wanted] or [
        measure for measure in measures if wanted and wanted in fold(measure.name)
    ]
    if len(matches) == 1:
        return matches[0]
    names = "; ".join(measure.name for measure in measures) or "none yet"
    raise NotFound(f"'{words}' is not one measure here. Measures: {names}.")


def retire_measure(store: Store, measure: Measure, day: str) -> None:
    store.run("UPDATE measure SET retired_on = :day WHERE id = :id", day=day, id=measure.id)
