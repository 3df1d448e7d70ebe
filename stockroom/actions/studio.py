"""The studio's people, places and measures: adding, editing and retiring them.

Edits and retirements keep who, when and what it said before. Nothing here is an entry of the ledger.
"""

from __future__ import annotations

from dataclasses import replace

from stockroom.actions.editing import changes, keep_changes, retired
from stockroom.actions.naming import check_initials, check_text
from stockroom.domain.edits import Change, LeftOpen
from stockroom.domain.occasion import Occasion
from stockroom.domain.studio import Person, Place
from stockroom.errors import BadInput, Refused
from stockroom.store import studio
from stockroom.store.left_open import left_open
from stockroom.store.lots import lots_at
from stockroom.store.open import Store


def new_person(store: Store, initials: str, name: str) -> Person:
    """Add a person. Raises AlreadyExists: initials belong to one person for ever."""
    with store.write():
        studio.add_person(store, check_initials(initials), check_text(name, "name"))
    return studio.find_person(store, initials)


def edit_person(store: Store, occasion: Occasion, initials: str, name: str) -> tuple[Person, tuple[Change, ...]]:
    """Change a person's name; the initials stay."""
    with store.write() as booked_at:
        before = studio.find_person(store, initials)
        after = replace(before, name=check_text(name, "name"))
        made = changes({"name": before.name}, {"name": after.name})
        studio.change_person(store, after)
        keep_changes(store, "person", before.initials, made, occasion, booked_at)
    return after, made


def retire_person(
    store: Store, occasion: Occasion, initials: str, *, undo: bool = False
) -> tuple[Person, list[LeftOpen]]:
    """Retire a person, who books nothing more, and say what they leave open.

    Raises Refused for the last one: somebody must be able to book.
    """
    with store.write() as booked_at:
        before = studio.find_person(store, initials)
        after, made = retired(before, occasion, before.initials, undo=undo)
        working = [person for person in studio.all_people(store) if person.retired_on is None]
        if not undo and len(working) == 1:
            raise Refused(f"{before.initials} is the only one who can book here. Add another person first.")
        studio.change_person(store, after)
        keep_changes(store, "person", before.initials, made, occasion, booked_at)
    return after, left_open(store, before.initials)


def new_place(store: Store, name: str, note: str | None = None) -> Place:
    """Add a place. Raises AlreadyExists when its name is taken."""
    check_text(name, "name")
    if note is not None:
        check_text(note, "note")
    with store.write():
        place_id = studio.add_place(store, name, note)
    return Place(id=place_id, name=name, note=note)


def edit_place(
    store: Store, occasion: Occasion, words: str, *, name: str | None = None, note: str | None = None
) -> tuple[Place, tuple[Change, ...]]:
    """Rename a place or change its note; an empty note takes it away."""
    if name is None and note is None:
        raise BadInput("Nothing to change: give --name or --note.")
    with store.write() as booked_at:
        before = studio.find_place(store, words)
        after = before
        if name is not None:
            after = replace(after, name=check_text(name, "name"))
        if note is not None:
            after = replace(after, note=check_text(note, "note") if note.strip() else None)
        made = changes({"name": before.name, "note": before.note}, {"name": after.name, "note": after.note})
        studio.change_place(store, after)
        keep_changes(store, "place", str(before.id), made, occasion, booked_at)
    return after, made


def retire_place(store: Store, occasion: Occasion, words: str, *, undo: bool = False) -> Place:
    """Retire a place. Raises Refused while something is kept there."""
    with store.write() as booked_at:
        before = studio.find_place(store, words, retired=undo)
        after, made = retired(before, occasion, before.name, undo=undo)
        kept = [lot.code for lot in lots_at(store, before.id)]
        if kept and not undo:
            listed = ", ".join(kept[:8]) + (f" and {len(kept) - 8} more" if len(kept) > 8 else "")
            raise Refused(f"{before.name} still holds {listed}. Move them first with 'stockroom move'.", lots=kept)
        studio.change_place(store, after)
        keep_changes(store, "place", str(before.id), made, occasion, booked_at)
    return after
