"""The size of a flat thing, in words."""

from __future__ import annotations

from stockroom.science.quantities import Dimension, Quantity, amount_text


def show_size(length_um: int | None, width_um: int | None) -> str | None:
    """Write two sides so that they read back as the same: `30 x 40 cm`, `210 x 297 mm`; None where one is unknown."""
    if length_um is None or width_um is None:
        return None
    if length_um % 10_000 == width_um % 10_000 == 0:
        return f"{length_um // 10_000} x {width_um // 10_000} cm"
    length, width = (amount_text(Quantity(Dimension.LENGTH, side))[0] for side in (length_um, width_um))
    return f"{length} x {width} mm"


def show_sheet(length_um: int | None, width_um: int | None, grain: str | None) -> str | None:
    """Write a sheet's size with how its grain lies, where that is known."""
    size = show_size(length_um, width_um)
    return f"{size}, grain {grain} the first side" if size and grain in ("along", "across") else size
