"""What several tests of commands begin with."""

from __future__ import annotations

import pytest
from conftest import CommandLine


@pytest.fixture
def jar(stockroom: CommandLine) -> CommandLine:
    """5 g of powder of 95 % in a litre, shaken and settled at 22 °C on 3 January 2026: lot L002U."""
    stockroom.json("--on", "2026-01-02", "receive", "calcium-hydroxide", "500 g", "--cost", "12.50")
    stockroom.json(
        "--on", "2026-01-03", "make", "calcium-hydroxide-saturated", "1 L", "--took", "calcium-hydroxide=5 g",
        "--temperature", "22 °C",
    )  # fmt: skip
    return stockroom
