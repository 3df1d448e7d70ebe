"""With what of the studio's own each line of a recipe is measured, and whether that is fine enough."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.actions.drawing import DrawPlan
from stockroom.actions.recipe_book import load_book
from stockroom.domain.materials import Material
from stockroom.domain.recipes import Recipe
from stockroom.domain.studio import Measure, SpoonWeighing
from stockroom.errors import BadInput
from stockroom.planning.requirements import Need, Scale, needs_of
from stockroom.science.amounts import OfStrength
from stockroom.science.measuring import (
    Balance,
    Vessel,
    Way,
    WeighedSpoon,
    percent,
    pour,
    spoon,
    spoon_weighed,
    to_range,
    usual_tolerance,
    weigh,
)
from stockroom.science.numerals import show_number
from stockroom.science.powders import powder_in
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.spoons import Spoon
from stockroom.store.open import Store
from stockroom.store.studio import all_measures
from stockroom.store.weighings import spoon_weighings


@dataclass(frozen=True, slots=True, kw_only=True)
class LineMeasured:
    """One line's amount for one fill, and the ways to measure it, the closest kind first."""

    need: Need
    material: Material
    amount: Quantity
    ways: tuple[Way, ...]

    @property
    def tolerance(self) -> Fraction:
        return self.need.line.tolerance or usual_tolerance()

    def fine_enough(self, way: Way) -> bool:
        return way.off <= self.tolerance

    def strength(self, way: Way) -> tuple[float, float, str] | None:
        """Return the strength that a way can give, lowest and highest with the unit, where the line has one."""
        amount = self.need.line.amount
        if not isinstance(amount, OfStrength):
            return None
        number = Fraction(amount.strength.number) / way.wanted.quanta
        return float(number * way.low.quanta), float(number * way.high.quanta), amount.strength.unit

    @property
    def what(self) -> str:
        """Say what is measured: `2.5 g of Methyl cellulose`, `made up to 500 mL`."""
        up_to = self.need.made_up_to
        return f"made up to {show(up_to)}" if up_to else f"{show(self.amount)} of {self.material.name}"

    @property
    def warning(self) -> str | None:
        """Say that nothing here measures the amount closely enough, where that is so."""
        if any(self.fine_enough(way) for way in self.ways):
            return None
        allowed = f"{show_number(self.tolerance * 100)} % is " + (
            "what the recipe allows" if self.need.line.tolerance else "usual (a judgement)"
        )
        if not self.ways:
            return f"{self.what}: nothing entered here measures it. Enter what does: stockroom measure new."
        best = min(self.ways, key=lambda way: way.off)
        return f"{self.what}: the closest is {percent(best.off)} off; {allowed}. Take something finer."


def measured_with(store: Store, plan: DrawPlan) -> tuple[LineMeasured, ...]:
    """Offer for each line of a plan what the studio can measure it with; what a hand took already is left out."""
    return ways_for(
        store,
        [
            (line.need, line.stands_in or line.need.material, line.per_fill or line.quantity)
            for line in plan.lines
            if not line.by_hand
        ],
    )


def usual_amounts_measured(store: Store, recipe: Recipe) -> tuple[LineMeasured, ...]:
    """Offer it for a recipe's usual amount; nothing where that depends on an object, or on what nobody has said."""
    book = load_book(store, recipe)
    try:
        needs = needs_of(recipe, Scale(total=recipe.version.batch), book)
    except BadInput:
        return ()
    return ways_for(store, [(need, need.material, need.per_fill) for need in needs if need.per_fill])


def ways_for(store: Store, amounts: Iterable[tuple[Need, Material, Quantity]]) -> tuple[LineMeasured, ...]:
    """Offer for each amount what the studio can measure it with; what is cut or counted is left out."""
    measures, weighings = all_measures(store), spoon_weighings(store)
    measured: list[LineMeasured] = []
    for need, material, amount in amounts:
        wanted = need.made_up_to or amount
        if not wanted.quanta or wanted.dimension not in (Dimension.MASS, Dimension.VOLUME):
            continue
        tolerance = need.line.tolerance or usual_tolerance()
        if wanted.dimension is Dimension.VOLUME:
            ways = [pour(wanted, _vessels(measures), tolerance)]
        else:
            ways = [weigh(wanted, _balances(measures), tolerance), _by_spoon(material, wanted, measures, weighings)]
        found = tuple(way for way in ways if way is not None)
        measured.append(LineMeasured(need=need, material=material, amount=amount, ways=found))
    return tuple(measured)


def _by_spoon(
    material: Material, mass: Quantity, measures: Sequence[Measure], weighings: Sequence[SpoonWeighing]
) -> Way | None:
    """Use what the studio's spoons were found to hold of a powder, else what its bulk density says."""
    own = [WeighedSpoon(name=one.spoon, masses_ug=one.masses_ug) for one in weighings if one.material == material.key]
    if (way := spoon_weighed(mass, own)) is not None:
        return way
    powder = powder_in(material.name)
    return spoon(mass, powder, _spoons(measures)) if powder else None


def _balances(measures: Sequence[Measure]) -> list[Balance]:
    return [Balance(name=one.name, resolution_ug=one.resolution_ug) for one in measures if one.resolution_ug]


def _vessels(measures: Sequence[Measure]) -> list[Vessel]:
    return [
        Vessel(
            name=one.name,
            capacity_ul=one.capacity_ul,
            graduation_ul=one.graduation_ul,
            tolerance_ul=one.tolerance_ul,
        )
        for one in measures
        if one.capacity_ul and one.kind != "spoon"
    ]


def _spoons(measures: Sequence[Measure]) -> list[Spoon]:
    """One spoon of each size, so that a drawer of alike ones makes no difference."""
    of_size = {one.capacity_ul: one.name for one in measures if one.kind == "spoon" and one.capacity_ul}
    return [Spoon(name=name, volume_ul=size) for size, name in of_size.items()]


def strength_words(low: float, high: float, unit: str) -> str:
    """Write a range of strength with no more digits than its width allows: `0.1 to 0.3 % w/v`."""
    millionths = (round(low * 1_000_000), round(high * 1_000_000))
    half = (millionths[1] - millionths[0]) // 2
    least, most = (show_number(Fraction(to_range(one, half), 1_000_000)) for one in millionths)
    return f"{least} to {most} {unit}" if least != most else f"{least} {unit}"
