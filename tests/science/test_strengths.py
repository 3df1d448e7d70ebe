"""Strengths against worked examples that others have printed.

Chemistry 2e is Flowers, Theopold, Langley and Robinson, Chemistry 2e, OpenStax 2019; its sections 3.3 and 3.4 were
read, the former in the publisher's own source. Printed answers have three or four significant digits.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from quantity_strategies import strengths

from stockroom.errors import BadInput, Unreadable
from stockroom.science.quantities import Dimension, Quantity, amount_text
from stockroom.science.reading import read_quantity
from stockroom.science.strengths import Strength, dilute, dilute_to, grams_per_litre, read_strength, solute_for


def volume(text: str) -> Quantity:
    return read_quantity(text, expect=Dimension.VOLUME).quantity


def weighed(strength: str, make: str, **facts: object) -> str:
    """Say what to weigh or measure, as programs get it: `2.5 g`."""
    return " ".join(amount_text(solute_for(read_strength(strength), volume(make), **facts)))  # type: ignore[arg-type]


def to_digits(quantity: Quantity, digits: int) -> float:
    return float(f"{float(amount_text(quantity)[0]):.{digits}g}")


def test_one_per_cent_is_a_gram_or_a_millilitre_in_a_hundred_millilitres() -> None:
    """USP 28, general notices, percentage measurements: 1 g of a solid or 1 mL of a liquid to make 100 mL (read)."""
    assert weighed("1 % w/v", "100 mL") == "1 g"
    assert weighed("1 % v/v", "100 mL") == "1 mL"


@pytest.mark.parametrize(
    ("strength", "make", "grams"), [("0.02 % w/v", "240 mL", "0.048 g"), ("4 % w/v", "500 mL", "20 g")]
)
def test_weight_in_volume_agrees_with_the_prescriptions_of_a_course(strength: str, make: str, grams: str) -> None:
    """US Army Medical Department, course MD0802, Pharmaceutical Calculations, lesson 2.

    Example 4, potassium permanganate 0.02 % in 240 mL: 0.048 g (read). The second line is computed.
    """
    assert weighed(strength, make) == grams


@pytest.mark.parametrize(
    ("strength", "make", "molar_mass", "digits", "grams"),
    [
        ("5.30 mol/L", "0.250 L", "58.44", 3, 77.4),
        ("0.200 M", "250.0 mL", "110.98", 3, 5.55),
        ("0.30 mol/L", "0.500 L", "180.16", 2, 27),
        ("0.06998 mol/L", "40.00 mL", "74.093", 4, 0.2074),
    ],
)
def test_molar_solutions_take_the_masses_of_a_textbook(
    strength: str, make: str, molar_mass: str, digits: int, grams: float
) -> None:
    """Chemistry 2e, 3.3: example 3.17 (sodium chloride), its check (calcium chloride), and two exercises.

    Glucose 0.30 M in 0.500 L: 27 g; calcium hydroxide: 0.2074 g in 40.00 mL is 0.06998 M. All read; the molar masses
    of glucose and calcium hydroxide are not printed there.
    """
    needed = solute_for(read_strength(strength), volume(make), molar_mass=Decimal(molar_mass))
    assert to_digits(needed, digits) == grams


def test_purity_divides_and_weight_in_weight_takes_the_density_of_the_solution() -> None:
    """Chemistry 2e, 3.4, exercise: 1.00 L of 10.0 % NaOH by mass, 1.109 g/mL, from 97.0 % solid: 114 g (read)."""
    needed = solute_for(
        read_strength("10.0 % w/w"), volume("1.00 L"), purity=Fraction("0.970"), density_g_per_ml=Decimal("1.109")
    )
    assert to_digits(needed, 3) == 114


def test_weight_in_weight_is_turned_into_grams_a_litre() -> None:
    """Chemistry 2e, 3.4, check after example 3.23: 125 g of HCl are in 282 mL of 37.2 %, 1.19 g/mL (read)."""
    per_litre = grams_per_litre(read_strength("37.2 % w/w"), density_g_per_ml=Decimal("1.19"))
    assert round(125_000 / per_litre) == 282


def test_volume_in_volume_is_turned_into_grams_a_litre_by_the_pure_liquids_density() -> None:
    """Chemistry 2e, 3.4: 750 mL of 12 % ethanol by volume, 0.789 g/mL, 46.06 g/mol, hold 1.5 mol (read)."""
    per_litre = grams_per_litre(read_strength("12 % v/v"), solute_density_g_per_ml=Decimal("0.789"))
    assert f"{float(per_litre * Fraction(3, 4) / Fraction('46.06')):.2g}" == "1.5"
    assert weighed("12 % v/v", "750 mL") == "90 mL"


@pytest.mark.parametrize(
    ("stock", "wanted", "make", "digits", "millilitres"),
    [
        ("1.59 mol/L", "0.100 mol/L", "5.00 L", 3, 314),
        ("0.33 mol/L", "0.025 mol/L", "25 mL", 2, 1.9),
        ("2 % w/v", "0.02 % w/v", "120 mL", 2, 1.2),
    ],
)
def test_a_wanted_strength_takes_the_stock_of_a_textbook(
    stock: str, wanted: str, make: str, digits: int, millilitres: float
) -> None:
    """Chemistry 2e, 3.3: example 3.21 (0.314 L) and an exercise (1.9 mL); course MD0802 (1.2 mL). All read."""
    made = dilute_to(read_strength(stock), read_strength(wanted), volume(make))
    assert to_digits(made.stock, digits) == millilitres


def test_a_share_of_stock_gives_the_strength_of_a_textbook() -> None:
    """Chemistry 2e, 3.3, example 3.19: 0.850 L of 5.00 M made up to 1.80 L is 2.36 M (read)."""
    made = dilute(read_strength("5.00 mol/L"), Fraction(85, 180), volume("1.80 L"))
    assert made.stock == volume("0.850 L")
    assert made.strength and made.strength.show_about(3) == "about 2.36 mol/L"


def test_half_a_litre_of_one_in_four_takes_125_millilitres() -> None:
    made = dilute(read_strength("1.6 g/L"), Fraction(1, 4), volume("500 mL"))
    assert made.stock == volume("125 mL")
    assert made.strength == read_strength("0.4 g/L")
    assert dilute(None, Fraction(1, 4), volume("500 mL")).strength is None


@pytest.mark.parametrize(("one_in", "strength"), [(2, "0.8 g/L"), (4, "0.4 g/L")])
def test_the_bath_of_one_in_two_or_four_from_1_6_grams_a_litre(one_in: int, strength: str) -> None:
    """1.6 g/L at room temperature, used at one in two or one in four: common practice, no source."""
    assert dilute(read_strength("1.6 g/L"), Fraction(1, one_in), volume("1 L")).strength == read_strength(strength)


def test_a_hydrate_weighs_more_for_percentages_and_is_already_in_a_molar_mass() -> None:
    """Citric acid, 210.14 g/mol as monohydrate, 192.12 anhydrous (from memory)."""
    factor = Fraction("210.14") / Fraction("192.12")
    assert weighed("1 % w/v", "1 L", hydrate_factor=factor) == "10.937955 g"
    assert weighed("0.1 mol/L", "1 L", molar_mass=Decimal("210.14"), hydrate_factor=factor) == "21.014 g"


def test_strengths_of_two_kinds_are_compared_in_grams_a_litre() -> None:
    """35 % w/w peroxide of 1.13 g/mL (from memory) holds 395.5 g/L; 30 g/L in a litre take 75.853 mL."""
    made = dilute_to(
        read_strength("35 % w/w"), read_strength("3 % w/v"), volume("1 L"), stock_density_g_per_ml=Decimal("1.13")
    )
    assert amount_text(made.stock) == ("75.853", "mL")


def test_stronger_than_the_stock_is_refused_with_the_limit() -> None:
    with pytest.raises(BadInput, match="At most 3 % w/v") as refused:
        dilute_to(read_strength("3 % w/v"), read_strength("5 % w/v"), volume("1 L"))
    assert refused.value.details["limit"] == "3 % w/v"


@pytest.mark.parametrize(
    ("strength", "facts", "says"),
    [
        ("0.1 mol/L", {}, "molar mass"),
        ("5 mmol/L", {}, "molar mass"),
        ("10 % w/w", {}, "density of the solution"),
        ("5 ppm", {}, "density of the solution"),
        ("0.1 mol/L", {"molar_mass": 0}, "greater than nothing"),
        ("1 % w/v", {"purity": Fraction(0)}, "Purity"),
        ("1 % w/v", {"purity": Fraction(2)}, "Purity"),
        ("1 % w/v", {"hydrate_factor": Fraction(1, 2)}, "hydrate"),
        ("0.0001 mmol/L", {"molar_mass": 1}, "too little to weigh"),
    ],
)
def test_what_a_sum_lacks_is_named(strength: str, facts: dict[str, object], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        solute_for(read_strength(strength), volume("1 mL"), **facts)  # type: ignore[arg-type]


def test_only_a_volume_can_be_made_up_to() -> None:
    with pytest.raises(BadInput, match="made up to a volume"):
        dilute(None, Fraction(1, 4), Quantity(Dimension.MASS, 1))


@pytest.mark.parametrize(
    ("text", "strength"),
    [
        ("0.5%w/v", "0.5 % w/v"),
        ("0,5 % (w/v)", "0.5 % w/v"),
        ("½ % w/v", "0.5 % w/v"),
        ("5 g/100 mL", "5 % w/v"),
        ("4 g per litre", "4 g/L"),
        ("250 mg/L", "0.25 g/L"),
        ("0.1 M", "0.1 mol/L"),
        ("5 mM", "5 mmol/L"),
        ("70 per cent v/v", "70 % v/v"),
        ("12 ppm", "12 ppm"),
    ],
)
def test_strengths_are_read_as_the_trade_writes_them(text: str, strength: str) -> None:
    assert read_strength(text).show() == strength


def test_a_bare_per_cent_is_asked_about_with_its_readings() -> None:
    with pytest.raises(Unreadable) as refused:
        read_strength("5 %")
    assert refused.value.details["readings"] == ["5 % w/v", "5 % v/v", "5 % w/w"]
    assert [read_strength(reading).unit for reading in refused.value.details["readings"]] == [
        "% w/v",
        "% v/v",
        "% w/w",
    ]


@pytest.mark.parametrize(
    "text", ["", "5", "0 g/L", "-1 g/L", "101 % v/v", "1,500 g/L", "2 N", "1:4", "1/3 % w/v", "1e3 g/L", "strong"]
)
def test_what_is_no_strength_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        read_strength(text)


@given(strengths)
def test_a_strength_that_is_shown_reads_back(strength: Strength) -> None:
    assert read_strength(strength.show()) == strength


@given(strengths, st.fractions(Fraction(1, 100), 1, max_denominator=1000), st.integers(10_000, 10**9))
def test_diluting_by_share_and_by_strength_take_the_same_stock(
    strength: Strength, share: Fraction, microlitres: int
) -> None:
    make_up_to = Quantity(Dimension.VOLUME, microlitres)
    by_share = dilute(strength, share, make_up_to)
    assert by_share.strength
    by_strength = dilute_to(
        strength, by_share.strength, make_up_to, stock_density_g_per_ml=1, wanted_density_g_per_ml=1
    )
    assert abs(by_strength.stock.quanta - by_share.stock.quanta) <= 1
