"""Materials read from a file as a person writes it."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.material_files import read_materials
from stockroom.errors import BadInput
from stockroom.science.quantities import Dimension, Quantity

WHOLE = """
[[material]]
key = "red-sheet"
name = "Red sheet [/] =1+1"
kind = "sheet"
measured_by = "area"
metered = false
vented = true
grade = "9 g/m²"
pack_word = "ream"
pack = "500 sheets"
sheet = "60 x 80 cm"
grain = "along"
life_closed = "24 months"
life_opened = "14 days"
low = "2 reams"
storage = "flat"
signal_word = "Danger"
hazards = ["H318 Causes serious eye damage", "EUH066 Repeated exposure may cause skin dryness or cracking"]
precautions = ["P280 Wear eye protection"]
pictograms = ["GHS05", "GHS07"]
hazard_ground = "Judged."
source = "Common practice, no source."

[[material]]
key = "white-powder"
name = "White powder"
kind = "reagent"
measured_by = "mass"
density = "2.211"
purity = "95 % w/w"
molar_mass = "74.093"
"""


def write(**changes: str | None) -> str:
    """Build a file of one material; a change replaces a key's value as written, None leaves the key out."""
    values: dict[str, str | None] = {"key": '"a"', "name": '"A"', "kind": '"reagent"', "measured_by": '"mass"'}
    values |= changes
    return "[[material]]\n" + "".join(f"{key} = {value}\n" for key, value in values.items() if value is not None)


def refusal(text: str) -> str:
    with pytest.raises(BadInput) as caught:
        read_materials(text, "shelf.toml")
    return caught.value.message


def test_every_key_of_a_material_is_read() -> None:
    """Each key arrives where it belongs, and typed text stays as typed."""
    sheet, powder = read_materials(WHOLE, "shelf.toml")
    assert (sheet.key, sheet.name, sheet.kind) == ("red-sheet", "Red sheet [/] =1+1", "sheet")
    assert (sheet.dimension, sheet.metered, sheet.vented) == (Dimension.AREA, False, True)
    assert (sheet.sheet_length_um, sheet.sheet_width_um, sheet.grain) == (600_000, 800_000, "along")
    assert (sheet.life_closed, sheet.life_opened) == ("24 months", "14 days")
    assert sheet.hazards[1].startswith("EUH066")
    assert (sheet.precautions, sheet.pictograms) == (("P280 Wear eye protection",), ("GHS05", "GHS07"))
    assert (sheet.signal_word, sheet.hazard_ground) == ("Danger", "Judged.")
    assert (sheet.grade, sheet.storage, sheet.source) == ("9 g/m²", "flat", "Common practice, no source.")
    assert (powder.density, powder.molar_mass) == (Decimal("2.211"), Decimal("74.093"))
    assert (powder.purity, powder.metered, powder.vented) == ("95 % w/w", True, False)


def test_a_pack_may_be_so_many_sheets() -> None:
    """A ream of 500 sheets of 60 x 80 cm is 240 m²; the low mark may then be given in reams."""
    sheet = read_materials(WHOLE, "shelf.toml")[0]
    assert sheet.packs == {
        "sheet": Quantity(Dimension.AREA, 480_000),
        "ream": Quantity(Dimension.AREA, 240_000_000),
    }
    assert sheet.low_quanta == 480_000_000


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"key": None}, ["key", "missing"]),
        ({"key": '"Big Key"'}, ["key", "“Big Key”", "small letters"]),
        ({"name": '" "'}, ["name", "empty"]),
        ({"name": '"two\\nlines"'}, ["name", "one line"]),
        ({"name": '"bell \\u0007"'}, ["name", "control characters"]),
        ({"name": f'"{"x" * 2_001}"'}, ["name", "2001", "2000"]),
        ({"name": "7"}, ["name", "“7”", "quotes"]),
        ({"measured_by": '"weight"'}, ["measured_by", "“weight”", "mass", "uses"]),
        ({"metered": '"yes"'}, ["metered", "true or false"]),
        ({"density": "2.2"}, ["density", "“2.2”", "quotes"]),
        ({"density": '"thick"'}, ["density", "“thick”"]),
        ({"density": '"0"'}, ["density", "“0”", "g/mL"]),
        ({"density": '"40"'}, ["density", "“40”", "25"]),
        ({"density": '"1"', "measured_by": '"pieces"'}, ["density", "pieces"]),
        ({"purity": '"95 %"'}, ["purity", "w/w", "v/v"]),
        ({"purity": '"4 g/L"'}, ["purity", "“4 g/L”", "percentage"]),
        ({"purity": '"101 % w/v"'}, ["purity", "101"]),
        ({"molar_mass": '"-1"'}, ["molar_mass", "-1"]),
        ({"pack_word": '"jar"'}, ["pack", "belong together"]),
        ({"pack": '"500 g"'}, ["pack", "belong together"]),
        ({"pack_word": '"2"', "pack": '"5 g"'}, ["pack_word", "“2”"]),
        ({"pack_word": '"jar"', "pack": '"5 mL"'}, ["pack", "“5 mL”", "mass"]),
        ({"pack_word": '"jar"', "pack": '"about 5 g"'}, ["pack", "not exact"]),
        ({"sheet": '"60 cm"', "measured_by": '"area"'}, ["sheet", "“60 cm”"]),
        ({"sheet": '"60 x 80 cm"'}, ["sheet", "mass"]),
        ({"grain": '"long"'}, ["grain", "along"]),
        ({"life_closed": '"1,5 years"'}, ["life_closed", "1,5 years"]),
        ({"life_opened": '"soon"'}, ["life_opened", "“soon”", "14 days"]),
        ({"low": '"5"'}, ["low", "“5”", "unit"]),
        ({"signal_word": '"Beware"'}, ["signal_word", "Danger"]),
        ({"hazards": '["burns"]'}, ["hazards", "“burns”", "H318"]),
        ({"hazards": '"H318 Eye"'}, ["hazards", "list"]),
        ({"hazards": "[7]"}, ["hazards", "“7”"]),
        ({"pictograms": '["GHS10"]'}, ["pictograms", "GHS10", "GHS09"]),
        ({"colour": '"red"'}, ["colour", "not known", "density"]),
    ],
)
def test_a_problem_names_file_table_key_what_was_read_and_what_is_accepted(
    changes: dict[str, str | None], said: list[str]
) -> None:
    """The message leads to the place, and says how to put it right."""
    message = refusal(write(**changes))
    assert message.startswith("shelf.toml, [[material]] 1")
    assert all(word in message for word in said), message
    assert len(message.splitlines()) == 1


def test_every_problem_of_a_file_is_told_at_once() -> None:
    """Nobody should have to mend a file one message at a time."""
    text = write(density='"thick"', grain='"long"') + write(key='"a"') + write(key='"b"', odd="1")
    with pytest.raises(BadInput) as caught:
        read_materials(text, "shelf.toml")
    problems = caught.value.details["problems"]
    assert [problem.split(":")[0] for problem in problems] == [
        "shelf.toml, [[material]] 1 (a), density",
        "shelf.toml, [[material]] 1 (a), grain",
        "shelf.toml, [[material]] 3 (b), odd",
        "shelf.toml, [[material]] 2 (a), key",
    ]
    assert caught.value.message.splitlines() == problems


@pytest.mark.parametrize(
    "text", ["", "material = 3", "[material]", "[[materials]]", "[[material", "a = " + "[" * 5_000, "a=" + "9" * 5_000]
)
def test_a_file_that_holds_no_materials_is_refused_with_its_name(text: str) -> None:
    """Not TOML, nested without end, nothing in it, or another table: always a clear message."""
    assert "shelf.toml" in refusal(text)


@given(st.text(max_size=200))
def test_no_text_makes_the_reader_fall_over(text: str) -> None:
    """Whatever stands in the file, it is read or refused as bad input."""
    try:
        read_materials(text, "shelf.toml")
    except BadInput as error:
        assert error.message
