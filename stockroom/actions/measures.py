"""The studio's own spoons, beakers, cylinders, pipettes, trays and balances."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stockroom.actions.editing import changes, keep_changes, retired
from stockroom.actions.naming import check_text
from stockroom.domain.edits import Change
from stockroom.domain.occasion import Occasion, utc_text
from stockroom.domain.sizes import show_size
from stockroom.domain.studio import MEASURE_KINDS, Measure, SpoonWeighing
from stockroom.errors import BadInput
from stockroom.science.numerals import quoted
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store import studio
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.weighings import keep_spoon_weighing, spoon_weighings

_SIZED_BY = {"tray": ("size",), "balance": ("resolution",), "spoon": ("capacity",)}
_VESSEL = ("capacity", "graduation", "tolerance")
_NEEDED = {"size": "size, such as '30 x 40 cm'", "resolution": "resolution, such as '0.01 g'"}


def new_measure(store: Store, name: str, kind: str, **typed: str | None) -> Measure:
    """Add a measure. `typed` holds what was typed for capacity, graduation, tolerance, size or resolution.

    Raises AlreadyExists when its name is taken, BadInput when what its kind needs is missing or does not belong.
    """
    if kind not in MEASURE_KINDS:
        raise BadInput(f"{quoted(kind)} is not a kind of measure. Kinds: {', '.join(MEASURE_KINDS)}.")
    measure = _with(Measure(id=0, name=check_text(name, "name"), kind=kind), typed)
    with store.write():
        studio.add_measure(store, measure)
    return studio.find_measure(store, name)


def edit_measure(
    store: Store, occasion: Occasion, words: str, *, name: str | None = None, **typed: str | None
) -> tuple[Measure, tuple[Change, ...]]:
    """Rename a measure or change what it holds; its kind stays."""
    if name is None and not any(typed.values()):
        raise BadInput("Nothing to change: give --name, --capacity, --graduation, --tolerance, --size or --resolution.")
    with store.write() as booked_at:
        before = studio.find_measure(store, words)
        after = before if name is None else replace(before, name=check_text(name, "name"))
        after = _with(after, typed)
        made = changes(described(before), described(after))
        studio.change_measure(store, after)
        keep_changes(store, "measure", str(before.id), made, occasion, booked_at)
    return after, made


def retire_measure(store: Store, occasion: Occasion, words: str, *, undo: bool = False) -> Measure:
    """Retire a measure: it is offered no more."""
    with store.write() as booked_at:
        before = studio.find_measure(store, words, retired=undo)
        after, made = retired(before, occasion, before.name, undo=undo)
        studio.change_measure(store, after)
        keep_changes(store, "measure", str(before.id), made, occasion, booked_at)
    return after


def weigh_spoon(store: Store, occasion: Occasion, spoon: str, material: str, masses: Sequence[str]) -> SpoonWeighing:
    """Keep what levelled spoonfuls of a powder weighed; it takes the place of the range by bulk density.

    Raises NotFound for what is no spoon, BadInput for what is no powder or no spoonful of one.
    """
    from stockroom.science.reading import read_quantity

    found, powder = studio.find_measure(store, spoon, kind="spoon"), find_material(store, material)
    if powder.dimension is not Dimension.MASS:
        raise BadInput(f"{powder.name} is measured by {powder.dimension.value}: only what is weighed fills a spoon.")
    weighed = tuple(read_quantity(text, expect=Dimension.MASS).quantity.quanta for text in masses)
    if max(weighed) > 2 * min(weighed):
        raise BadInput(
            f"From {show(Quantity(Dimension.MASS, min(weighed)))} to {show(Quantity(Dimension.MASS, max(weighed)))} "
            "is no one spoonful: level it with a straight edge and weigh again."
        )
    with store.write() as booked_at:
        keep_spoon_weighing(
            store, found.id, powder.id, weighed, occasion.day.isoformat(), occasion.by, utc_text(booked_at)
        )
    return next(one for one in spoon_weighings(store) if (one.spoon, one.material) == (found.name, powder.key))


def described(measure: Measure) -> dict[str, str | None]:
    """Say what a measure is in words that read back as the same."""

    def shown(dimension: Dimension, quanta: int | None) -> str | None:
        return None if quanta is None else show(Quantity(dimension, quanta))

    return {
        "name": measure.name,
        "capacity": shown(Dimension.VOLUME, measure.capacity_ul),
        "graduation": shown(Dimension.VOLUME, measure.graduation_ul),
        "tolerance": shown(Dimension.VOLUME, measure.tolerance_ul),
        "size": show_size(measure.length_um, measure.width_um),
        "resolution": shown(Dimension.MASS, measure.resolution_ug),
    }


def _with(measure: Measure, typed: dict[str, str | None]) -> Measure:
    """Put what was typed into a measure; what is None stays as it was."""
    from stockroom.science.reading import read_quantity, read_size

    belongs = _SIZED_BY.get(measure.kind, _VESSEL)
    for name, text in typed.items():
        if text is None:
            continue
        if name not in belongs:
            raise BadInput(f"A {measure.kind} has no {name}. It has: {', '.join(belongs)}.")
        match name:
            case "size":
                length, width = read_size(text)
                measure = replace(measure, length_um=length, width_um=width)
            case "resolution":
                measure = replace(measure, resolution_ug=read_quantity(text, expect=Dimension.MASS).quantity.quanta)
            case "capacity":
                measure = replace(measure, capacity_ul=read_quantity(text, expect=Dimension.VOLUME).quantity.quanta)
            case "graduation":
                measure = replace(measure, graduation_ul=read_quantity(text, expect=Dimension.VOLUME).quantity.quanta)
            case _:
                measure = replace(measure, tolerance_ul=read_quantity(text, expect=Dimension.VOLUME).quantity.quanta)
    if described(measure)[belongs[0]] is None:
        raise BadInput(f"A {measure.kind} needs its {_NEEDED.get(belongs[0], 'capacity, such as 100 mL')}.")
    return measure
