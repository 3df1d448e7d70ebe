"""What a recipe needs at a scale."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.jobs import JobObject
from stockroom.domain.materials import Material
from stockroom.domain.recipes import Line, Recipe, RecipeVersion
from stockroom.errors import BadInput
from stockroom.planning.requirements import Book, Scale, measurable, needs_of
from stockroom.science.amounts import read_amount
from stockroom.science.quantities import Dimension, Quantity, show

MATERIALS = {
    material.key: material
    for material in (
        Material(key="stock", name="Stock", kind="solution", dimension=Dimension.VOLUME),
        Material(key="water", name="Water", kind="water", dimension=Dimension.VOLUME, metered=False),
        Material(key="powder", name="Powder", kind="reagent", dimension=Dimension.MASS, molar_mass=Decimal("58.443")),
        Material(key="hydrate", name="Hydrate", kind="reagent", dimension=Dimension.MASS, purity="95 % w/w"),
        Material(
            key="peroxide-35",
            name="Peroxide",
            kind="reagent",
            dimension=Dimension.VOLUME,
            purity="35 % w/w",
            density=Decimal("1.13"),
        ),
        Material(
            key="peroxide-30",
            name="Peroxide 30 %",
            kind="reagent",
            dimension=Dimension.VOLUME,
            purity="30 % w/w",
            density=Decimal("1.11"),
        ),
        Material(key="alcohol-96", name="Alcohol", kind="solvent", dimension=Dimension.VOLUME, purity="96 % v/v"),
        Material(key="web", name="Web", kind="sheet", dimension=Dimension.AREA),
        Material(key="blotter", name="Blotter", kind="sheet", dimension=Dimension.PIECES),
    )
}


def recipe(key: str, kind: str, *lines: str, **fields: object) -> Recipe:
    """Read lines such as `stock: 1 in 4`; `bath` names a recipe mixed in place."""
    read = []
    for position, line in enumerate(lines, 1):
        name, _, amount = line.partition(": ")
        if amount:
            read.append(Line(position=position, material=name, amount=read_amount(amount)))
        else:
            read.append(Line(position=position, recipe=name))
    return Recipe(key=key, name=key, kind=kind, version=RecipeVersion(lines=tuple(read), **fields))  # type: ignore[arg-type]


def millilitres(number: int) -> Quantity:
    return Quantity(Dimension.VOLUME, number * 1000)


def worked_out(one: Recipe, scale: Scale, *others: Recipe) -> dict[str, str]:
    book = Book(materials=MATERIALS, recipes={other.key: other for other in others})
    return {need.material.key: show(need.total) for need in needs_of(one, scale, book) if need.total}


def test_one_in_four_is_a_quarter_of_the_finished_volume() -> None:
    """USP general notices: "1 in 10" is one part made up to ten parts in all."""
    bath = recipe("bath", "bath", "stock: 1 in 4", "water: make up")
    assert worked_out(bath, Scale(total=millilitres(500))) == {"stock": "125 mL", "water": "375 mL"}


def test_one_in_ten_of_a_solid_is_a_mass_in_a_volume() -> None:
    """USP general notices: one part of a liquid is a volume, one part of a solid a mass."""
    assert worked_out(recipe("p", "bath", "powder: 1 in 10"), Scale(total=millilitres(100)))["powder"] == "10 g"


def test_per_cent_weight_in_volume_is_grams_in_a_hundred_millilitres() -> None:
    """USP general notices, percentage measurements: half a litre with 0.5 % w/v takes 2.5 g."""
    assert worked_out(recipe("p", "bath", "powder: 0.5 % w/v"), Scale(total=millilitres(500)))["powder"] == "2.5 g"


def test_a_molar_strength_weighs_moles_times_molar_mass() -> None:
    """0.1 mol/L of sodium chloride (58.443 g/mol, IUPAC weights, from memory) in 1 L: 5.844 g."""
    assert worked_out(recipe("p", "bath", "powder: 0.1 mol/L"), Scale(total=millilitres(1000)))["powder"] == "5.844 g"


def test_purity_is_counted_where_a_strength_decides() -> None:
    """3 g of substance from a powder of 95 % is 3.158 g."""
    assert worked_out(recipe("p", "bath", "hydrate: 3 g/L"), Scale(total=millilitres(1000)))["hydrate"] == "3.158 g"


def test_three_per_cent_peroxide_from_thirty_five() -> None:
    """Computed with a density from memory (1.13 g/mL): 30 g / 0.35 / 1.13 = 75.9 mL for a litre."""
    drawn = worked_out(recipe("p", "bath", "peroxide-35: 3 % w/v"), Scale(total=millilitres(1000)))
    assert drawn["peroxide-35"] == "75.85 mL"


def test_three_per_cent_peroxide_from_thirty() -> None:
    """Computed with a density from memory (1.11 g/mL): 30 g / 0.30 / 1.11 = 90.1 mL for a litre."""
    drawn = worked_out(recipe("p", "bath", "peroxide-30: 3 % w/v"), Scale(total=millilitres(1000)))
    assert drawn["peroxide-30"] == "90.09 mL"


def test_seventy_per_cent_alcohol_from_ninety_six() -> None:
    """70 % v/v from 96 % v/v: 729.2 mL made up to a litre (by volume, contraction left to the filling up)."""
    drawn = worked_out(recipe("p", "bath", "alcohol-96: 70 % v/v"), Scale(total=millilitres(1000)))
    assert drawn["alcohol-96"] == "729.2 mL"


def test_purity_by_mass_does_not_answer_a_strength_by_volume() -> None:
    with pytest.raises(BadInput, match="by volume"):
        worked_out(recipe("p", "bath", "peroxide-35: 3 % v/v"), Scale(total=millilitres(1000)))


def test_sheets_are_cut_to_the_object_with_a_margin_on_every_side() -> None:
    """(40 + 2 x 3) x (30 + 2 x 3) cm = 1656 cm² a sheet, two of them 3312 cm²."""
    thing = JobObject(position=1, name="plate", length_um=400_000, width_um=300_000)
    drawn = worked_out(recipe("t", "treatment", "web: 2 x area + 3 cm"), Scale(objects=[thing]))
    assert drawn["web"] == "3312 cm²"


def test_so_many_each_is_counted_for_every_object() -> None:
    things = [JobObject(position=number, name=f"plate {number}") for number in (1, 2, 3)]
    assert worked_out(recipe("t", "treatment", "blotter: 2 each"), Scale(objects=things))["blotter"] == "6 pieces"


def test_an_object_without_a_size_is_asked_about() -> None:
    thing = JobObject(position=1, name="plate")
    with pytest.raises(BadInput, match="size of plate is not known"):
        worked_out(recipe("t", "treatment", "web: 2 x area + 3 cm"), Scale(objects=[thing]))


def test_a_fixed_amount_follows_the_batch_of_what_is_mixed() -> None:
    mixed = recipe("p", "bath", "powder: 3 g", batch=millilitres(1000))
    assert worked_out(mixed, Scale(total=millilitres(2500)))["powder"] == "7.5 g"


def test_a_bath_within_a_treatment_is_filled_anew_and_its_sheets_are_not() -> None:
    bath = recipe("bath", "bath", "stock: 1 in 4", "water: make up")
    treatment = recipe("t", "treatment", "bath", "blotter: 2 each", fills=2)
    scale = Scale(total=millilitres(500), fills=2, objects=[JobObject(position=1, name="plate")])
    assert worked_out(treatment, scale, bath) == {"stock": "250 mL", "water": "750 mL", "blotter": "2 pieces"}


def test_recipes_that_go_round_in_a_ring_are_refused_by_name() -> None:
    one, other = recipe("one", "bath", "other"), recipe("other", "bath", "one")
    with pytest.raises(BadInput, match="one → other → one"):
        worked_out(one, Scale(total=millilitres(100)), one, other)


def test_liquids_that_come_to_more_than_the_whole_are_refused() -> None:
    full = recipe("p", "bath", "stock: 3 in 4", "alcohol-96: 1 in 2", "water: make up")
    with pytest.raises(BadInput, match="come to more than 500 mL"):
        worked_out(full, Scale(total=millilitres(500)))


@given(st.integers(1, 10**7), st.integers(2, 9))
def test_so_many_fills_take_exactly_so_many_times_the_materials(total: int, fills: int) -> None:
    bath = recipe("bath", "bath", "stock: 1 in 3", "powder: 0.37 % w/v", "water: make up")
    book = Book(materials=MATERIALS, recipes={})
    once = needs_of(bath, Scale(total=Quantity(Dimension.VOLUME, total), fills=1), book)
    often = needs_of(bath, Scale(total=Quantity(Dimension.VOLUME, total), fills=fills), book)
    assert [need.total.quanta * fills for need in once if need.total] == [
        need.total.quanta for need in often if need.total
    ]


@given(st.fractions(min_value=1, max_value=10**12))
def test_an_amount_is_planned_to_a_part_in_a_thousand_or_better(exact: Fraction) -> None:
    assert abs(measurable(exact) - exact) <= max(Fraction(1, 2), exact / 1000)
