"""What is written of a material is what a table can bring."""

from __future__ import annotations

from stockroom.actions.exchange_rows import material_cells
from stockroom.exchange.layouts import LAYOUTS
from stockroom.store.materials import all_materials
from stockroom.store.open import Store


def test_every_value_of_a_material_has_its_column(store: Store) -> None:
    """A value without a column would be lost on the way, unnoticed by any round trip."""
    assert set(material_cells(all_materials(store)[0])) == set(LAYOUTS["materials"].names)
