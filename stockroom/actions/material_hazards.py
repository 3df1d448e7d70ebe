"""What a material's own entry warns of, beside what the program suggests for it, and why the two differ."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.actions.precautions import hazards_of
from stockroom.domain.edits import Change
from stockroom.domain.materials import Material
from stockroom.errors import BadInput, NotFound
from stockroom.science.hazard_words import left_out
from stockroom.science.hazards import DEFERENCE
from stockroom.science.substance_groups import codes_of
from stockroom.store.edits import edits_of
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe, recipe_making
from stockroom.store.stockroom_settings import local_day

HAZARD_FIELDS = ("signal_word", "hazards", "precautions", "pictograms", "hazard_ground")
BATH = "bath-"
"""How the key of what is kept of a bath begins; the key of its recipe follows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Suggested:
    """What the program suggests, always with its ground and with what comes before it."""

    hazards: tuple[str, ...]
    signal_word: str | None
    pictograms: tuple[str, ...]
    precautions: tuple[str, ...]
    ground: str
    near_limit: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialHazards:
    """A material's entry, the suggestion beside it, and the studio's reason where they differ."""

    material: Material
    suggested: Suggested | None
    """None where the program knows no suggestion: what the studio added itself."""
    left_out: tuple[str, ...] = ()
    """What the suggestion warns of and the entry does not: codes, the signal word, pictograms."""
    because: str | None = None
    """The reason of the last edit that made the entry the studio's own, with who and when."""

    @property
    def differs(self) -> bool:
        one = self.suggested
        if one is None:
            return False
        own = self.material
        return (codes_of(own.hazards), own.signal_word, set(own.pictograms)) != (
            codes_of(one.hazards),
            one.signal_word,
            set(one.pictograms),
        )

    @property
    def words(self) -> str | None:
        """How the entry stands to the suggestion; None where it is the same, or there is none."""
        if not self.differs:
            return None
        less = f"; it leaves out {', '.join(self.left_out)}" if self.left_out else ""
        if self.because:
            return f"the studio's own, because {self.because}{less}"
        return f"not as the program suggests{less}"


def material_hazards(store: Store, material: Material) -> MaterialHazards:
    """Return a material's hazards beside what is suggested for it now."""
    suggested = suggested_for(store, material)
    return MaterialHazards(
        material=material,
        suggested=suggested,
        left_out=_less(material, suggested) if suggested else (),
        because=_because(store, material.key),
    )


def suggested_for(store: Store, material: Material) -> Suggested | None:
    """Return what is suggested for a material: by its recipe's sums, else by the program's own list."""
    try:
        recipe = recipe_making(store, material.key)
        if recipe is None and material.key.startswith(BATH):
            recipe = find_recipe(store, material.key.removeprefix(BATH))
        found = hazards_of(store, recipe) if recipe else None
    except (BadInput, NotFound):
        found = None
    if found:
        made = found.suggested
        return Suggested(
            hazards=made.hazards,
            signal_word=made.signal_word,
            pictograms=made.pictograms,
            precautions=made.precautions,
            ground=" ".join([made.ground, *found.notes]),
            near_limit=made.near_limit,
        )
    from stockroom.domain.starter_files import starter_materials

    listed = next((one for one in starter_materials() if one.key == material.key), None)
    if listed is None:
        return None
    return Suggested(
        hazards=listed.hazards,
        signal_word=listed.signal_word,
        pictograms=listed.pictograms,
        precautions=listed.precautions,
        ground=" ".join([*([listed.hazard_ground] if listed.hazard_ground else []), DEFERENCE]),
    )


def refuse_without_reason(made: tuple[Change, ...], reason: str | None) -> None:
    """Raise BadInput where hazards change and nobody says why."""
    changed = [change.field.replace("_", " ") for change in made if change.field in HAZARD_FIELDS]
    if changed and not (reason or "").strip():
        raise BadInput(
            f"Why do the hazards change ({', '.join(changed)})? Say --why, such as --why 'sheet of 3 May': it is kept "
            "and shown. Nothing was changed."
        )


def _less(material: Material, suggested: Suggested) -> tuple[str, ...]:
    return left_out(
        suggested.hazards,
        suggested.signal_word,
        suggested.pictograms,
        own_statements=material.hazards,
        own_signal_word=material.signal_word,
        own_pictograms=material.pictograms,
    )


def _because(store: Store, key: str) -> str | None:
    edits = [edit for edit in edits_of(store, "material", key) if edit["field"] in HAZARD_FIELDS and edit["reason"]]
    if not edits:
        return None
    last = edits[-1]
    return f"{last['reason']} ({last['initials']}, {local_day(store, last['booked_at'])})"
