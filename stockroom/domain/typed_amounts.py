"""Amounts as people type them for a material: its own words for packs and sheets are known, and its density."""

from __future__ import annotations

from stockroom.domain.materials import Material
from stockroom.science.quantities import Quantity
from stockroom.science.reading import Read, read_packs, read_quantity


def read_amount(material: Material, typed: str) -> Quantity:
    """Read an amount of a material. Raises Unreadable."""
    return read_quantity(
        typed, expect=material.dimension, packs=material.packs, density_g_per_ml=material.liquid_density
    ).quantity


def read_amounts(material: Material, typed: str) -> list[Read]:
    """Read one amount of a material or several alike, such as `3 x 1 L`. Raises Unreadable."""
    return read_packs(typed, expect=material.dimension, packs=material.packs, density_g_per_ml=material.liquid_density)
