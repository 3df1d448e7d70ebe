"""Whatever is typed, a reader gives a result or says what is wrong, promptly."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest
from hypothesis import example, given, settings
from quantity_strategies import typed

from stockroom.errors import BadInput
from stockroom.science.amounts import read_amount
from stockroom.science.days import read_day, read_expiry, read_moment
from stockroom.science.lives import read_life
from stockroom.science.money import minor_digits, read_money
from stockroom.science.numerals import read_decimal, read_numeral
from stockroom.science.powders import find_powder
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.ratios import read_parts
from stockroom.science.reading import read_packs, read_quantity, read_size
from stockroom.science.strengths import read_strength
from stockroom.science.units import find_unit

TODAY = date(2026, 11, 25)
PACKS = {"sheet": Quantity(Dimension.AREA, 120_000)}
READERS: list[Callable[[str], object]] = [
    read_numeral,
    read_decimal,
    find_unit,
    read_quantity,
    lambda text: read_quantity(text, expect=Dimension.VOLUME, packs=PACKS, density_g_per_ml=Decimal("0.7")),
    lambda text: read_packs(text, expect=Dimension.PIECES, packs=PACKS),
    read_packs,
    read_size,
    read_parts,
    read_strength,
    read_amount,
    read_life,
    lambda text: read_day(text, today=TODAY),
    read_expiry,
    lambda text: read_moment(text, zone=ZoneInfo("Europe/Berlin"), today=TODAY),
    lambda text: read_money(text, "EUR"),
    lambda text: read_money(text, "JPY"),
    minor_digits,
    find_powder,
]
LONG = ["1 " * 100, "1/" * 100, "1," * 100, "1 x " * 50, "a " * 100, "to a" + " a" * 98, "9" * 200 + " g", "½" * 60]


@pytest.mark.parametrize("read", READERS)
@settings(deadline=5_000, max_examples=200)
@given(typed)
@example("1 2/0 mL")
@example("\x00\ud800")
@example("1\u20442")
@example("NAN")
@example("5 nan")
def test_any_text_gives_a_result_or_a_message_and_never_hangs(read: Callable[[str], object], text: str) -> None:
    refuses_or_reads(read, text)


@pytest.mark.parametrize("read", READERS)
@pytest.mark.parametrize("text", LONG)
def test_long_repetitive_text_is_answered(read: Callable[[str], object], text: str) -> None:
    refuses_or_reads(read, text)


def refuses_or_reads(read: Callable[[str], object], text: str) -> None:
    try:
        read(text)
    except BadInput as refused:
        assert refused.message
        assert "\n" not in refused.message
        assert not any(0xD800 <= ord(character) <= 0xDFFF for character in refused.message)


def test_reading_a_strength_a_day_or_money_loads_no_library_of_units_or_dates() -> None:
    """Only an amount needs pint, and only a life in months needs dateutil."""
    program = (
        "import sys\n"
        "from datetime import date, datetime, UTC\n"
        "from stockroom.science import amounts, lives, money, quantities, ratios, reading, strengths\n"
        "amounts.read_amount('1 in 4'); strengths.read_strength('4 g/L'); money.read_money('1.50', 'EUR')\n"
        "lives.life_end(datetime.now(UTC), lives.read_life('14 days'))\n"
        "quantities.show(quantities.Quantity(quantities.Dimension.MASS, 1))\n"
        "print(sorted({'pint', 'dateutil', 'tomllib', 'click'} & set(sys.modules)))\n"
    )
    ran = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"
