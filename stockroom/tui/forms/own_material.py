"""Materials of the studio's own; what is typed is read by the rules of material files."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date

from stockroom.actions.material_hazards import material_hazards
from stockroom.actions.materials import edit_material, new_material, written
from stockroom.domain.material_files import GRAINS, SIGNAL_WORDS, read_material
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput
from stockroom.labels.pictograms import NAMES
from stockroom.science.days import read_day
from stockroom.science.quantities import Dimension
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.tui.forms.fields import fixed, read_any_day
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.keeping import (
    EDIT_WHY,
    Kept,
    either,
    filled,
    keep,
    kept_text,
    kept_title,
    page_of,
    which,
)

_MEASURED_BY = {
    "mass": "weighed: powders, pastes",
    "volume": "poured: liquids, solutions",
    "area": "cut from sheets or rolls",
    "length": "cut off: tape, thread",
    "pieces": "counted",
    "uses": "used again and again: web, blotters",
}
_LISTS = ("hazards", "precautions")
_PROBLEM = re.compile(r"[^,]*, [^,]*, (\w+): (.*)", re.DOTALL)


def _rare(key: str, words: str, hint: str, rows: int = 0) -> Asked:
    return Asked(key=key, words=words, hint=hint, rare=True, rows=rows)


_FIELDS = (
    Asked(key="name", words="Name", hint="Wheat starch; Kozo tissue, thin", needed=True),
    Asked(
        key="measured_by",
        words="Measured by",
        hint="Enter chooses; fixed afterwards",
        needed=True,
        choose=fixed(*((each.value, _MEASURED_BY.get(each.value, "")) for each in Dimension)),
    ),
    Asked(key="kind", words="Kind", hint="reagent, solvent, sheet; your word"),
    Asked(key="grade", words="Grade", hint="viscosity, weight, quality"),
    Asked(key="low", words="Buy when below", hint="the least that should be here: 250 g"),
    Asked(key="life_closed", words="Keeps closed", hint="24 months"),
    Asked(key="life_opened", words="Keeps opened", hint="6 months"),
    Asked(key="storage", words="Storage", hint="dry, cool, dark", rows=2),
    Asked(
        key="signal_word",
        words="Signal word",
        hint="as its label has it",
        choose=fixed(*((word, "") for word in SIGNAL_WORDS)),
    ),
    Asked(key="hazards", words="Hazards", hint="one a line: H318 Causes serious eye damage", rows=3),
    Asked(
        key="pictograms",
        words="Pictograms",
        hint="corrosion, flame; or GHS05, GHS02",
        read=lambda store, answers: _read_pictograms(answers["pictograms"]),
    ),
    _rare("precautions", "Precautions", "one a line: P280 Wear eye protection", 3),
    _rare("hazard_ground", "By what ground", "where it comes from: sheet of 3 May", 2),
    _rare("density", "Density", "g/mL, as liquid or the solid: 0.789"),
    _rare("purity", "Purity", "95 % w/w"),
    _rare("molar_mass", "Molar mass", "g/mol, its water included: 74.093"),
    _rare("sheet", "Sheet", "one sheet's sides: 760 x 560 mm"),
    Asked(
        key="grain",
        words="Grain",
        hint="against the sheet's first side",
        rare=True,
        choose=fixed(*((word, "") for word in GRAINS)),
    ),
    _rare("pack_word", "A pack is a", "roll; ream; with what it holds"),
    _rare("pack", "Pack holds", "50 m2; 500 sheets"),
    _rare("identity", "Identity", "what it is, whatever it is sold as"),
    _rare("safety_sheet", "Safety sheet", "where the maker's sheet is kept"),
    Asked(
        key="safety_sheet_date",
        words="Sheet's day",
        hint="that stands on it: 2026-11-25",
        rare=True,
        read=lambda store, answers: read_any_day(store, answers, "safety_sheet_date"),
    ),
    either("Not metered", "unmetered", "in steps, never in balances: tap water"),
    either("Gives off gas", "vented", "never kept in a tight container"),
    either("Under a register", "register", "a running page is kept of it, by local rules"),
    _rare("source", "Source", "where these figures come from", 3),
)


def _typed(answers: Answers, today: date) -> dict[str, object]:
    """Return what was typed as a material file has it; an empty field as nothing. Raises Unreadable for a day."""
    values: dict[str, object] = {one.key: answers.get(one.key, "") for one in _FIELDS if one.key != "unmetered"}
    values |= {name: [line.strip() for line in answers.get(name, "").splitlines() if line.strip()] for name in _LISTS}
    values["pictograms"] = [_pictogram(word) for word in _words(answers.get("pictograms", ""))]
    values |= {name: answers.get(name) == "yes" for name in ("vented", "register")}
    values["metered"] = answers.get("unmetered") != "yes"
    values["kind"] = answers.get("kind", "other")
    if "safety_sheet_date" in answers:
        values["safety_sheet_date"] = read_day(answers["safety_sheet_date"], today=today).isoformat()
    return values


def _words(typed: str) -> list[str]:
    return [word.strip() for word in re.split(r"[,;\n]", typed) if word.strip()]


def _read_pictograms(typed: str) -> None:
    """Raise BadInput for what is neither the word nor the code of a pictogram."""
    for word in _words(typed):
        if _pictogram(word) not in NAMES:
            raise BadInput(f"'{word}' is no pictogram. There are: {', '.join(NAMES.values())}.")


def _pictogram(word: str) -> str:
    """Take a pictogram by its word or its code."""
    plain = " ".join(word.split())
    return next((code for code, name in NAMES.items() if name == plain.lower()), plain.upper())


def _wrong(store: Store, answers: Answers) -> Mapping[str, str]:
    """Say what is wrong with what was typed, by field."""
    values = {name: value for name, value in _typed(answers, date(2000, 1, 1)).items() if value not in ("", [])}
    if "measured_by" not in values and "of" in answers:
        values["measured_by"] = find_material(store, answers["of"]).dimension.value
    try:
        read_material({"name": "x", "kind": "other", "measured_by": "mass", **values, "key": "x"}, "Typed")
    except BadInput as error:
        problems = [match.groups() for one in error.details["problems"] if (match := _PROBLEM.fullmatch(one))]
        return {name: message for name, message in problems if name in answers}
    return {}


def _new(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        given = {**_typed(answers, occasion.today), "key": answers.get("key", "")}
        given = {name: value for name, value in given.items() if value not in ("", [])}
        added = new_material(store, given)
        return Kept(noun="material", name=added.name, told=told_of(added), notes=_beside(store, added), key=added.key)

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def _again(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        before = find_material(store, which(answers, "material"))
        given = {**_typed(answers, occasion.today), "measured_by": before.dimension.value}
        after, made = edit_material(store, occasion, before.key, given)
        return Kept(noun="material", name=after.name, changed=made, notes=_beside(store, after), key=after.key)

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def _beside(store: Store, material: Material) -> tuple[str, ...]:
    """Say how its hazards stand to what is suggested for it."""
    found = material_hazards(store, material)
    return (f"hazards: {found.words}",) if found.words else ()


def told_of(material: Material) -> tuple[tuple[str, str], ...]:
    """Say what a material says of itself, pictograms in words too."""
    values = written(material)
    values["pictograms"] = [f"{code} {NAMES[code]}" for code in material.pictograms]
    values["metered"] = None if material.metered else "no: in steps, never in balances"
    said: list[tuple[str, str]] = []
    for name, value in values.items():
        if name == "name" or not value:
            continue
        words = name.replace("_", " ")
        if isinstance(value, list):
            said += [(words if number == 0 else "", str(each)) for number, each in enumerate(value)]
        else:
            said.append((words, "yes" if value is True else str(value)))
    return tuple(said)


def _values(store: Store, key: str) -> dict[str, str | None]:
    values = written(find_material(store, key))
    fields = {one.key for one in _FIELDS}
    kept = {name: str(value) for name, value in values.items() if name in fields and value and value is not True}
    kept |= {name: "\n".join(lines) for name in _LISTS if isinstance(lines := values[name], list)}
    found = find_material(store, key)
    kept |= {"pictograms": ", ".join(NAMES[code] for code in found.pictograms), "measured_by": found.dimension.value}
    flags = {"unmetered": not found.metered, "vented": found.vented, "register": found.register}
    return {**kept, **{name: "yes" for name, flag in flags.items() if flag}}


NEW_MATERIAL = Form(
    name="new-material",
    title="Add a material",
    help="""
Adding a reagent, solvent, sheet or whatever else is held. Only its name and what it is
measured by are needed; Ctrl+L asks for the rest: density, purity, sheets, packs, safety sheet.
Hazards are copied from the maker's sheet; local rules and that sheet come first.
""",
    fields=(*_FIELDS, Asked(key="key", words="Key", hint="short, to type; else from its name", rare=True)),
    act=_new,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep the material {answers['name']}?",
    done=kept_title,
    page=page_of,
    wrong=_wrong,
)
EDIT_MATERIAL = Form(
    name="edit-material",
    title="Change a material",
    help="""
Changing what a material says of itself. Lots keep what they were received with, and what was
booked keeps the numbers it was booked with. Hazards are changed with a reason (Ctrl+L, Why),
which is shown beside what the program suggests.
""",
    fields=(*(one for one in _FIELDS if one.key != "measured_by"), EDIT_WHY),
    act=_again,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep {answers['name']} so?",
    done=kept_title,
    expand=lambda store, known, local: filled(known, lambda key: _values(store, key)),
    wrong=_wrong,
)
