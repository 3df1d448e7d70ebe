"""Lots told in a few words, so that a test reads as a sentence."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from stockroom.domain.lots import Balance, Lot
from stockroom.domain.materials import Material
from stockroom.planning.picking import Held
from stockroom.science.quantities import Dimension

WATER = Material(id=1, key="solution", name="Solution", kind="solution", dimension=Dimension.VOLUME)


def lot(code: str, quantity: int = 100, material: Material = WATER, **fields: Any) -> Lot:
    """Build a lot; its number is in its code (`A1`)."""
    return Lot(
        id=int("".join(char for char in code if char.isdigit())),
        code=code,
        material=material,
        kind=fields.pop("kind", "bought"),
        begun_by=1,
        balance=Balance(quantity=quantity),
        **fields,
    )


def held(code: str, quantity: int = 100, **fields: Any) -> Held:
    return Held(lot=lot(code, quantity, **fields), available=quantity)


def moment(text: str) -> datetime:
    """Read a local moment; the zone does not matter to what is tested here."""
    return datetime.fromisoformat(text)
