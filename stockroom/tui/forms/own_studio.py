"""Places, people and measures of the studio's own."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

from stockroom.actions.measures import described, edit_measure, new_measure
from stockroom.actions.naming import check_initials
from stockroom.actions.studio import edit_person, edit_place, new_person, new_place
from stockroom.domain.occasion import Occasion
from stockroom.domain.studio import MEASURE_KINDS, Measure, Place
from stockroom.errors import NotFound
from stockroom.science.quantities import Dimension
from stockroom.science.reading import read_quantity, read_size
from stockroom.store.open import Store
from stockroom.store.studio import all_measures, all_places, find_person
from stockroom.tui.forms.fields import fixed
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.keeping import EDIT_WHY, Kept, filled, keep, kept_text, kept_title, page_of, which

Numbered = TypeVar("Numbered", Place, Measure)
NAME = Asked(key="name", words="Name", needed=True)


def place_of(store: Store, key: str) -> Place:
    """Return a place by the number that no renaming changes. Raises NotFound."""
    return _numbered(all_places(store, retired=True), key, "place")


def measure_of(store: Store, key: str) -> Measure:
    return _numbered(all_measures(store, retired=True), key, "measure")


def _numbered(things: list[Numbered], key: str, noun: str) -> Numbered:
    found = next((one for one in things if str(one.id) == key), None)
    if found is None:
        raise NotFound(f"This {noun} is not here any more.")
    return found


def _place(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        added = new_place(store, answers["name"], answers.get("note"))
        return Kept(noun="place", name=added.name, told=_note(answers), key=str(added.id))

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def _note(answers: Answers) -> tuple[tuple[str, str], ...]:
    return (("note", answers["note"]),) if "note" in answers else ()


def _place_again(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        before = place_of(store, which(answers, "place"))
        after, made = edit_place(store, occasion, before.name, name=answers["name"], note=answers.get("note", ""))
        return Kept(noun="place", name=after.name, changed=made, key=str(after.id))

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


_PLACE_FIELDS = (
    replace(NAME, hint="Cupboard by the window, low shelf"),
    Asked(key="note", words="Note", hint="cool; lockable; what is to be known"),
)
NEW_PLACE = Form(
    name="new-place",
    title="Name a place",
    help="""
Naming a shelf, cupboard, refrigerator or drawer where things are kept. The place is not on
labels, so that moving a jar makes no label false.
""",
    fields=_PLACE_FIELDS,
    act=_place,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep the place {answers['name']}?",
    done=kept_title,
    page=page_of,
)
EDIT_PLACE = Form(
    name="edit-place",
    title="Change a place",
    help="""
Changing the name of a place, or the note that is kept of it; what stands there stays there. What it
said before, who changed it and when are kept.
""",
    fields=(*_PLACE_FIELDS, EDIT_WHY),
    act=_place_again,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep {answers['name']} so?",
    done=kept_title,
    expand=lambda store, known, local: filled(known, lambda key: _place_values(store, key)),
)


def _place_values(store: Store, key: str) -> dict[str, str | None]:
    found = place_of(store, key)
    return {"name": found.name, "note": found.note}


def _person(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        added = new_person(store, answers["initials"], answers["name"])
        told = (("initials", f"{added.initials}: theirs for good, on every label and booking"),)
        return Kept(noun="person", name=added.name, told=told, key=added.initials)

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def _person_again(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        after, made = edit_person(store, occasion, which(answers, "person"), answers["name"])
        told = (("initials", f"{after.initials}, which never change"),)
        return Kept(noun="person", name=after.name, told=told, changed=made, key=after.initials)

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


NEW_PERSON = Form(
    name="new-person",
    title="Add a person",
    help="""
Adding somebody who books. Initials stand on labels and in the record; they belong to one
person for good, and are never given to another.
""",
    fields=(
        Asked(
            key="initials",
            words="Initials",
            hint="one to eight letters: AB",
            needed=True,
            read=lambda store, answers: check_initials(answers["initials"]),
        ),
        replace(NAME, hint="the name in full"),
    ),
    act=_person,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Add {answers['name']} as {answers['initials']}?",
    done=kept_title,
    page=page_of,
)
EDIT_PERSON = Form(
    name="edit-person",
    title="Change a person's name",
    help="Changing a name; the initials stay, so that every label can be answered for.",
    fields=(NAME, EDIT_WHY),
    act=_person_again,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep the name {answers['name']}?",
    done=kept_title,
    expand=lambda store, known, local: filled(known, lambda key: {"name": find_person(store, key).name}),
)

_SIZES = ("capacity", "graduation", "tolerance", "size", "resolution")
_WHAT = {
    "spoon": "levelled; powders by the spoonful",
    "beaker": "poured into",
    "cylinder": "measured in",
    "pipette": "a few millilitres",
    "tray": "a bath for a sheet",
    "balance": "weighs",
}


def _measure(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        added = new_measure(store, answers["name"], answers["kind"], **_typed(answers))
        return Kept(noun="measure", name=added.name, told=measure_told(added), key=str(added.id))

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def _measure_again(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None
) -> Kept:
    def build() -> Kept:
        before = measure_of(store, which(answers, "measure"))
        typed = _typed({**answers, "kind": before.kind})
        after, made = edit_measure(store, occasion, before.name, name=answers["name"], **typed)
        return Kept(noun="measure", name=after.name, told=(("kind", after.kind),), changed=made, key=str(after.id))

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def measure_told(measure: Measure) -> tuple[tuple[str, str], ...]:
    """Say what a measure is, but for its name."""
    said = described(measure)
    return (("kind", measure.kind), *((name, value) for name in _SIZES if (value := said[name])))


def _typed(answers: Answers) -> dict[str, str | None]:
    return {name: answers.get(name) for name in _SIZES}


def _volume(key: str, words: str, hint: str, *, needed: bool = False) -> Asked:
    return Asked(
        key=key,
        words=words,
        hint=hint,
        needed=needed,
        read=lambda store, answers: read_quantity(answers[key], expect=Dimension.VOLUME),
        shown=lambda answers: answers.get("kind") not in ("tray", "balance", *(("spoon",) if not needed else ())),
    )


_MEASURE_FIELDS = (
    replace(NAME, hint="blue spoon; cylinder, chipped foot"),
    Asked(
        key="kind",
        words="Kind",
        hint="Enter chooses: spoon, beaker …",
        needed=True,
        choose=fixed(*((kind, _WHAT[kind]) for kind in MEASURE_KINDS)),
    ),
    _volume("capacity", "Holds", "when full: 100 mL", needed=True),
    _volume("graduation", "Marks every", "from one mark to the next: 10 mL"),
    _volume("tolerance", "Marks good to", "as printed on it: 0.5 mL"),
    Asked(
        key="size",
        words="Inner sides",
        hint="30 x 40 cm",
        needed=True,
        read=lambda store, answers: read_size(answers["size"]),
        shown=lambda answers: answers.get("kind") == "tray",
    ),
    Asked(
        key="resolution",
        words="Smallest step",
        hint="what its last digit counts: 0.01 g",
        needed=True,
        read=lambda store, answers: read_quantity(answers["resolution"], expect=Dimension.MASS),
        shown=lambda answers: answers.get("kind") == "balance",
    ),
)
NEW_MEASURE = Form(
    name="new-measure",
    title="Add a measure",
    help="""
Adding a spoon, beaker, cylinder, pipette, tray or balance of the studio's own. Recipes then
say with which of them each amount is measured, and where none is fine enough.
""",
    fields=_MEASURE_FIELDS,
    act=_measure,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep the measure {answers['name']}?",
    done=kept_title,
    page=page_of,
)
EDIT_MEASURE = Form(
    name="edit-measure",
    title="Change a measure",
    help="""
Changing what is kept of a measure. Its kind stays: for another kind add another measure, and
retire this one.
""",
    fields=(*(asked for asked in _MEASURE_FIELDS if asked.key != "kind"), EDIT_WHY),
    act=_measure_again,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep {answers['name']} so?",
    done=kept_title,
    expand=lambda store, known, local: filled(known, lambda key: _measure_values(store, key)),
)


def _measure_values(store: Store, key: str) -> dict[str, str | None]:
    found = measure_of(store, key)
    return {**described(found), "kind": found.kind}
