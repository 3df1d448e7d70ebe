"""What people type for an amount: understood exactly, or refused with what to do."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from quantity_strategies import quantities

from stockroom.errors import BadInput, Unreadable
from stockroom.science.quantities import Dimension, Quantity, amount_text, show
from stockroom.science.reading import read_packs, read_quantity, read_size

SHEETS_BY_AREA = {"sheet": Quantity(Dimension.AREA, 120_000), "ream": Quantity(Dimension.AREA, 60_000_000)}


def read(text: str, **how: object) -> str:
    """Read an amount and write it as programs get it: `125 mL`."""
    return " ".join(amount_text(read_quantity(text, **how).quantity))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "amount"),
    [
        ("125 mL", "125 mL"),
        ("125ml", "125 mL"),
        ("  125\u00a0 mL ", "125 mL"),
        ("½ l", "500 mL"),
        ("1 1/2 L", "1500 mL"),
        ("1½ L", "1500 mL"),
        ("12 ½ L", "12500 mL"),
        ("2⁄3 L", "666.667 mL"),
        ("0,5 g", "0.5 g"),
        ("0,500 g", "0.5 g"),
        ("1,25 L", "1250 mL"),
        (".5 g", "0.5 g"),
        ("1.500 g", "1.5 g"),
        ("250 mg", "0.25 g"),
        ("5 µg", "0.000005 g"),
        ("5 μg", "0.000005 g"),
        ("3 cl", "30 mL"),
        ("2 kilograms", "2000 g"),
        ("2 KG", "2000 g"),
        ("2 Metres", "2000 mm"),
        ("1 US tsp.", "4.929 mL"),
        ("30 x 40 cm", "1200 cm2"),
        ("30cm × 40cm", "1200 cm2"),
        ("300 mm x 40 cm", "1200 cm2"),
        ("2 m²", "20000 cm2"),
        ("2 square metres", "20000 cm2"),
        ("2 sq cm", "2 cm2"),
        ("10 in", "254 mm"),
        ("1 ft", "304.8 mm"),
        ("12 pcs", "12 pieces"),
        ("3 uses", "3 uses"),
    ],
)
def test_what_people_type_is_read_exactly(text: str, amount: str) -> None:
    assert read(text) == amount


def test_what_is_typed_is_rounded_once_half_to_even() -> None:
    assert read_quantity("0.0000025 g").quantity.quanta == 2
    assert read_quantity("0.0000035 g").quantity.quanta == 4
    assert read_quantity("1/3 g").quantity.quanta == 333_333


def test_the_typed_text_is_kept_and_about_is_noted() -> None:
    sure, unsure = read_quantity("300 mL"), read_quantity("about 300 mL")
    assert (sure.typed, sure.about) == ("300 mL", False)
    assert (unsure.typed, unsure.about) == ("about 300 mL", True)
    assert sure.quantity == unsure.quantity
    for text in ("ca. 300 mL", "~300 mL", "approx. 300 mL", "c. 300 mL"):
        assert read_quantity(text) == read_quantity(text) and read_quantity(text).about


def test_a_pack_word_belongs_to_its_material_and_forgives_the_plural() -> None:
    assert read("2 sheets", packs=SHEETS_BY_AREA) == "2400 cm2"
    assert read("1 Ream", packs=SHEETS_BY_AREA) == "600000 cm2"
    assert read("2 boxes", packs={"box": Quantity(Dimension.PIECES, 100_000)}) == "200 pieces"
    assert read("2 sheets", expect=Dimension.PIECES) == "2 pieces"
    with pytest.raises(Unreadable, match="depends on the material"):
        read_quantity("2 sheets", packs={"roll": Quantity(Dimension.LENGTH, 1)})


def test_a_pack_word_never_changes_what_a_unit_of_measure_means() -> None:
    assert read("2 g", packs={"g": Quantity(Dimension.PIECES, 1_000)}) == "2 g"
    assert read("2 pieces", packs={"piece": Quantity(Dimension.AREA, 100)}) == "2 cm2"


def test_a_mass_counts_as_a_volume_only_with_a_density_and_is_rounded_once() -> None:
    """Isopropanol, 0.785 g/mL (Flowers and others, Chemistry 2e, OpenStax 2019, 3.4, read): 195 g are 248.408 mL."""
    density = Decimal("0.785")
    assert read("195 g", expect=Dimension.VOLUME, density_g_per_ml=density) == "248.408 mL"
    assert read("248.4 mL", expect=Dimension.MASS, density_g_per_ml=density) == "194.994 g"
    with pytest.raises(Unreadable, match="density is not known"):
        read_quantity("195 g", expect=Dimension.VOLUME)
    with pytest.raises(BadInput, match="greater than nothing"):
        read_quantity("195 g", expect=Dimension.VOLUME, density_g_per_ml=Decimal(0))


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("1,500 g", ["1500 g", "1.5 g"]),
        ("12,000 mL", ["12000 mL", "12 mL"]),
        ("1:4", ["1 in 4", "1 + 4"]),
        ("5 oz", ["28.35 g by mass", "29.57 mL by volume (US fl oz)"]),
        ("1 pint", ["473.18 mL (US pint)", "568.26 mL (imperial pint)"]),
        ("1 gal", ["3.785 L (US gallon)", "4.546 L (imperial gallon)"]),
        ("2 fluid ounces", ["29.57 mL (US fl oz)", "28.41 mL (imperial)"]),
        ("2 cups", ["236.59 mL (US cup)", "250 mL (metric cup)"]),
    ],
)
def test_what_can_be_read_two_ways_is_refused_with_both_readings(text: str, readings: list[str]) -> None:
    with pytest.raises(Unreadable) as refused:
        read_quantity(text)
    assert refused.value.details["readings"] == readings
    assert all(reading in refused.value.message for reading in readings)


@pytest.mark.parametrize(
    ("text", "expect", "says"),
    [
        ("125", Dimension.VOLUME, "no unit"),
        ("", None, "Nothing was typed"),
        ("5 g", Dimension.LENGTH, "“5 g” is a mass; a length is wanted here, such as 1.2 m"),
        ("-5 g", None, "negative"),
        ("−½ L", None, "negative"),
        ("0 g", None, "is nothing"),
        ("0.0000001 g", None, "less than can be kept"),
        ("9999999999999 kg", None, "more than any store holds"),
        ("1/0 g", None, "divides by nothing"),
        ("1e3 g", None, "without an exponent"),
        ("1 500 g", None, "Write 1500 without a space"),
        ("1.500,5 g", None, "without marks between the thousands"),
        ("1,500,000 g", None, "without marks between the thousands"),
        ("a pinch", None, "not an amount"),
        ("1 pinch", None, "is no measure"),
        ("3 drops", None, "is no measure"),
        ("500 ML", None, "mega-: write mL"),
        ("5 Mg", None, "mega-: write mg"),
        ("1 in 4", None, "share of a whole"),
        ("1 + 3", None, "share of a whole"),
        ("3 x 1 L", None, "several amounts"),
        ("5² g", None, "not known here"),
        ("5 cubits", None, "“cubits” is not known here. Accepted are g, kg"),
        ("5 g*m", None, "not known here"),
        ("5 dimensionless", None, "not known here"),
        ("5 %", None, "not an amount"),
        ("nan g", None, "not an amount"),
        ("٣ g", None, "not an amount"),
        ("[A3]", None, "not an amount"),
        ("=1+1", None, "not an amount"),
        ("1:100:5", None, "bare ratio"),
        ("9" * 201, None, "too long"),
    ],
)
def test_what_cannot_be_read_is_refused_with_what_to_do(text: str, expect: Dimension | None, says: str) -> None:
    with pytest.raises(Unreadable) as refused:
        read_quantity(text, expect=expect)
    assert says in refused.value.message


def test_a_message_never_carries_control_characters() -> None:
    with pytest.raises(Unreadable) as refused:
        read_quantity("5 \x1b[31m\u202ered\x07")
    assert refused.value.message.isprintable()


@given(quantities, st.integers(1, 5))
def test_packs_are_so_many_of_the_same_amount(quantity: Quantity, count: int) -> None:
    packs = read_packs(f"{count} x {show(quantity)}", expect=quantity.dimension)
    assert [pack.quantity for pack in packs] == [quantity] * count


def test_a_size_is_not_taken_for_packs_unless_a_length_is_expected() -> None:
    assert [show(pack.quantity) for pack in read_packs("30 x 40 cm")] == ["1200 cm²"]
    assert [show(pack.quantity) for pack in read_packs("3 x 30 x 40 cm")] == ["1200 cm²"] * 3
    assert [show(pack.quantity) for pack in read_packs("2 x 10 m", expect=Dimension.LENGTH)] == ["10 m"] * 2
    assert [show(pack.quantity) for pack in read_packs("500 mL")] == ["500 mL"]
    assert [show(pack.quantity) for pack in read_packs("2 x 100 sheets", expect=Dimension.PIECES)] == ["100 pieces"] * 2
    assert all(pack.about for pack in read_packs("about 2 x 1 L"))


@pytest.mark.parametrize("text", ["0 x 1 L", "1.5 x 1 L", "501 x 1 L", "1000000000000 x 1 L"])
def test_the_number_of_packs_is_whole_and_within_reason(text: str) -> None:
    with pytest.raises(Unreadable, match="number of packs"):
        read_packs(text)


def test_a_size_is_two_sides_in_micrometres() -> None:
    assert read_size("30 x 40 cm") == (300_000, 400_000)
    assert read_size("297 mm × 21 cm") == (297_000, 210_000)
    for text in ("30 cm", "30 x 40", "30 x 40 g", "1 x 2 x 3 cm", "0 x 3 cm", "30 : 40 cm"):
        with pytest.raises(Unreadable):
            read_size(text)
    with pytest.raises(Unreadable, match="“70 x” is not a size of two sides"):
        read_size("70 x")
