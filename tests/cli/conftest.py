"""What several tests of commands begin with."""

from __future__ import annotations

from pathlib import Path

import pytest
from conftest import CommandLine

ORDERED = ("--on", "2026-11-25T14:10")
"""When what stands in the shop was asked and ordered."""


@pytest.fixture
def jar(stockroom: CommandLine) -> CommandLine:
    """5 g of powder of 95 % in a litre, shaken and settled at 22 °C on 3 January 2026: lot L002U."""
    stockroom.json("--on", "2026-01-02", "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    stockroom.json(
        "--on", "2026-01-03", "make", "calcium-hydroxide-saturated", "1 L", "--took", "calcium-hydroxide=5 g",
        "--temperature", "22 °C",
    )  # fmt: skip
    return stockroom


@pytest.fixture
def shop(stockroom: CommandLine) -> CommandLine:
    """One supplier with ethanol at 12.00 a litre and blotter at 31.00 a pack of 25, 29.50 from four packs."""
    stockroom.json(
        *ORDERED, "supplier", "new", "Paper goods, by post", "--delivery-days", "10", "--minimum-order", "50"
    )
    offer = ("supplier", "offer", "paper")
    stockroom.json(*ORDERED, *offer, "ethanol", "1 L", "12.00", "--tax", "7", "--catalogue-number", "=E1")
    stockroom.json(*ORDERED, *offer, "blotter", "25 sheets", "31.00", "--break", "4 = 29.50", "--tax", "19")
    return stockroom


@pytest.fixture
def placed(shop: CommandLine) -> str:
    """The code of a placed order: 3 x 1 L of ethanol and 4 x 25 sheets of blotter, 154.00 in all."""
    code: str = shop.json(*ORDERED, "order", "new", "paper")["code"]
    shop.json(*ORDERED, "order", "add", code, "ethanol", "3")
    shop.json(*ORDERED, "order", "add", code, "blotter", "4")
    shop.json(*ORDERED, "order", "place", code)
    return code


DAY = ("--on", "2026-11-28T10:00")


@pytest.fixture
def rinse(stockroom: CommandLine, tmp_path: Path) -> CommandLine:
    """A bath of 1 in 4 ethanol; a litre for 10.00, so that a millilitre is a cent; a job to use it for."""
    stockroom.json(*DAY, "material", "new", "Rinse spirit", "--measured-by", "volume")
    recipe = tmp_path / "rinse.toml"
    recipe.write_text(
        '[recipe]\nkey = "rinse"\nname = "Rinse"\nkind = "bath"\nbatch = "400 mL"\n'
        '[[line]]\nmaterial = "rinse-spirit"\namount = "1 in 4"\n'
        '[[line]]\nmaterial = "tap-water"\namount = "make up"\n',
        encoding="utf-8",
    )
    stockroom.json(*DAY, "recipe", "new", "--from", str(recipe))
    stockroom.json(*DAY, "receive", "rinse-spirit", "1 L", "--cost", "10.00")
    stockroom.json(*DAY, "job", "new", "Railway poster", "--object", "Poster, 60 x 40 cm")
    return stockroom
