"""What to be careful of before making or using, and what the label of what a recipe makes should warn of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from stockroom.actions.contents import thing_of
from stockroom.actions.drawing import DrawPlan
from stockroom.actions.recipe_book import load_book
from stockroom.domain.jobs import Job, JobObject
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput, Refused
from stockroom.planning.requirements import Book, Need, Scale, needs_of, purity_of
from stockroom.science.amounts import ToReading
from stockroom.science.cautions import About, Caution, Thing, cautions_for_same_day, cautions_for_use
from stockroom.science.extreme_ph import is_calcium_hydroxide_solution
from stockroom.science.hazard_sums import Part
from stockroom.science.hazards import HazardSuggestion, suggest_hazards
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.substance_groups import codes_of
from stockroom.store.lots import lot_by_id
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.same_day import lots_met

_ONE_LITRE = Quantity(Dimension.VOLUME, 1_000_000)
_UG_PER_UL = 1000
"""At 1 g/mL."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeHazards:
    """What is suggested for the label of what a recipe makes, beside what its material's own entry says."""

    suggested: HazardSuggestion
    notes: tuple[str, ...]
    """What the recipe did not tell."""
    entry: Material | None
    """The material it makes; None for a bath, which has no entry."""

    @property
    def differs(self) -> bool:
        """Whether the entry says something else. It stays as it is until the keeper edits it."""
        if self.entry is None:
            return False
        entry, suggested = self.entry, self.suggested
        return (codes_of(entry.hazards), entry.signal_word, set(entry.pictograms)) != (
            codes_of(suggested.hazards),
            suggested.signal_word,
            set(suggested.pictograms),
        )


def hazards_of(store: Store, recipe: Recipe) -> RecipeHazards | None:
    """Suggest the hazards of a stock or a bath from its ingredients at its usual batch; None for a treatment.

    Raises BadInput where an amount that the recipe needs is not known.
    """
    if recipe.kind == "treatment":
        return None
    total = recipe.version.batch or _ONE_LITRE
    needs = needs_of(recipe, Scale(total=total), load_book(store, recipe))
    weighed = [(need, _weight_ug(need)) for need in needs]
    whole = sum(weight for _, weight in weighed) or Fraction(1)
    parts = [_part(need.material, 100 * weight / whole) for need, weight in weighed if weight and not _is_water(need)]
    suggested = suggest_hazards(
        parts,
        ph=_ph(needs),
        saturated_share=_saturated_share(needs, total),
        ethanol_percent_by_volume=_ethanol(needs, total),
    )
    entry = find_material(store, recipe.makes) if recipe.makes else None
    return RecipeHazards(suggested=suggested, notes=tuple(_notes(needs)), entry=entry)


def cautions_for(
    recipe: Recipe,
    needs: Sequence[Need],
    plan: DrawPlan,
    book: Book,
    *,
    makes: Material | None = None,
    earlier: Sequence[Thing] = (),
    holds: Mapping[str, frozenset[str]] | None = None,
) -> tuple[Caution, ...]:
    """Give the cautions for what a recipe draws, in the order in which they are shown.

    What is in one bath is together; the baths of one treatment follow each other, as do those that its objects met
    `earlier` on the day. `makes` is the material that is made; `holds` tells what the lots drawn from were made of.
    """
    holds = holds or {}
    stands_in = {line.need.material.key: line.stands_in for line in plan.lines if line.stands_in}
    baths = [
        [_thing(stands_in.get(need.material.key) or need.material, holds) for need in together]
        for together in _baths(recipe, needs, book)
    ]
    drawn = [thing for bath in baths for thing in bath]
    general = cautions_for_use([*drawn, _thing(makes)] if makes else drawn)
    found = [caution for caution in general if caution.about is not About.APART]
    found += [caution for bath in baths for caution in cautions_for_use(bath) if caution.about is About.APART]
    for number, bath in enumerate(baths):
        found += cautions_for_same_day([*earlier, *(thing for one in baths[:number] for thing in one)], bath)
    order = list(About)
    return tuple(sorted(dict.fromkeys(found), key=lambda caution: order.index(caution.about)))


def met_earlier(store: Store, occasion: Occasion, job: Job, objects: Sequence[JobObject]) -> tuple[Thing, ...]:
    """Return what a job's objects have met already on the day of an occasion."""
    keys = {thing.id for thing in objects}
    met = lots_met(store, job.id, keys, occasion.day.isoformat(), occasion.at_text)
    return tuple(dict.fromkeys(thing_of(store, lot_by_id(store, lot)) for lot in met))


def against_cautions(cautions: Sequence[Caution], occasion: Occasion) -> dict[str, object]:
    """Return what an action keeps of the cautions that it goes against with a reason.

    Raises Refused where one of them stops and no reason is given.
    """
    stopping = [caution.words for caution in cautions if caution.stops]
    if stopping and not occasion.reason:
        raise Refused(
            f"Not to be brought together: {' '.join(stopping)} Take something else; or, where your local rules and "
            "licensed practice allow it, say why with --why, and the reason stays in the record."
        )
    return {"against_cautions": stopping} if stopping else {}


def _thing(material: Material, holds: Mapping[str, frozenset[str]] | None = None) -> Thing:
    return Thing(
        key=material.key,
        name=material.name,
        statements=material.hazards,
        vented=material.vented,
        holds=(holds or {}).get(material.key, frozenset()),
    )


def _baths(recipe: Recipe, needs: Sequence[Need], book: Book) -> list[list[Need]]:
    """Sort what is drawn by what meets in one vessel; what a treatment draws itself may go into any of its baths."""
    inner = [_keys(book.recipes[line.recipe], book) for line in recipe.version.lines if line.recipe]
    if recipe.kind != "treatment" or not inner:
        return [list(needs)]
    return [[need for need in needs if need.recipe == recipe.key or need.recipe in keys] for keys in inner]


def _keys(recipe: Recipe, book: Book) -> set[str]:
    keys = {recipe.key}
    for line in recipe.version.lines:
        if line.recipe:
            keys |= _keys(book.recipes[line.recipe], book)
    return keys


def _weight_ug(need: Need) -> Fraction:
    """Return the weight of what is mixed in; a liquid without a known density counts as water."""
    if need.total is None:
        return Fraction(0)
    if need.total.dimension is Dimension.VOLUME:
        return need.total.quanta * Fraction(need.material.density or 1) * _UG_PER_UL
    return Fraction(need.total.quanta) if need.total.dimension is Dimension.MASS else Fraction(0)


def _part(material: Material, percent: Fraction) -> Part:
    try:
        purity = purity_of(material, material.purity, "% w/w")
    except BadInput:
        purity = None
    return Part(
        of=material.key,
        percent=percent,
        statements=material.hazards,
        purity_percent=purity * 100 if purity else None,
    )


def _is_water(need: Need) -> bool:
    material = need.material
    return not material.hazards and _thing(material).groups <= {"water", "carbonated or hard water"}


def _ph(needs: Sequence[Need]) -> tuple[Decimal, Decimal] | None:
    """Return the pH to which a line is measured."""
    for need in needs:
        amount = need.line.amount
        if isinstance(amount, ToReading) and amount.measure.casefold() == "ph":
            return amount.low, amount.high
    return None


def _saturated_share(needs: Sequence[Need], total: Quantity) -> Fraction | None:
    """Return which part by made-up volume is saturated calcium hydroxide; None where the powder itself is weighed in.

    Reckoned by volume as the recipe is written, so that 1 in 8 is 1 in 8 whatever the densities.
    """
    lime = [need for need in needs if "calcium hydroxide" in _thing(need.material).groups]
    made_up = all(is_calcium_hydroxide_solution(_part(need.material, Fraction(0))) for need in lime)
    if not lime or not made_up or total.dimension is not Dimension.VOLUME:
        return None
    return min(Fraction(1), Fraction(sum(need.total.quanta for need in lime if need.total), total.quanta))


def _ethanol(needs: Sequence[Need], total: Quantity) -> Fraction | None:
    """Return per cent by made-up volume of ethanol; strength that is not known by volume counts as pure."""
    poured = Fraction(0)
    for need in needs:
        if need.total and need.total.dimension is Dimension.VOLUME and "ethanol" in need.material.key.split("-"):
            try:
                purity = purity_of(need.material, need.material.purity, "% v/v")
            except BadInput:
                purity = None
            poured += need.total.quanta * (purity or 1)
    if not poured or total.dimension is not Dimension.VOLUME:
        return None
    return min(Fraction(100), 100 * poured / total.quanta)


def _notes(needs: Sequence[Need]) -> Iterator[str]:
    for need in needs:
        if need.total is None:
            yield f"{need.material.name} is added to a reading: how much is not known, and no sum counts it."
        elif need.total.dimension is Dimension.VOLUME and need.material.density is None and not _is_water(need):
            yield f"The density of {need.material.name} is not known; it was reckoned as water."
