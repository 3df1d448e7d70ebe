"""By how much the studio's label printers are off, and how to draw so that they print true."""

from __future__ import annotations

from datetime import datetime

from stockroom.actions.label_stocks import show_mm
from stockroom.actions.naming import check_text
from stockroom.domain.labels import Printer
from stockroom.domain.occasion import utc_text
from stockroom.errors import BadInput, NotFound
from stockroom.labels.ruler import FRAME_MM
from stockroom.labels.sheet import PrinterScale
from stockroom.science.quantities import Dimension
from stockroom.store import labels
from stockroom.store.open import Store

_MOST_OFF = 10
"""A printer that is off by more than one part in so many was not measured but misread."""
_FURTHEST_UM = 20_000


def calibrate(
    store: Store, now: datetime, name: str, *, ruler: str, measured: str, from_left: str, from_top: str
) -> Printer:
    """Keep what was measured on a printer's calibration page.

    `ruler` and `measured` are two lengths, across and down. Raises BadInput for a measurement that cannot be.
    """
    from stockroom.science.reading import read_quantity, read_size

    (across, down), (got_across, got_down) = read_size(ruler), read_size(measured)
    for length, got in ((across, got_across), (down, got_down)):
        if abs(got - length) * _MOST_OFF > length:
            raise BadInput(
                f"A ruler of {show_mm(length)} mm measured as {show_mm(got)} mm is off by more than a tenth: "
                "measure again, or print without fitting to the page."
            )
    left, top = (read_quantity(text, expect=Dimension.LENGTH).quantity.quanta for text in (from_left, from_top))
    for distance, edge in ((left, "left"), (top, "upper")):
        if distance > _FURTHEST_UM:
            raise BadInput(
                f"The frame stands about {FRAME_MM:g} mm from the {edge} edge, not {show_mm(distance)} mm: "
                "measure again."
            )
    printer = Printer(
        name=check_text(name, "name").strip(),
        ruler_across_um=across,
        ruler_down_um=down,
        measured_across_um=got_across,
        measured_down_um=got_down,
        from_left_um=left,
        from_top_um=top,
        measured_at=utc_text(now),
    )
    with store.write():
        labels.keep_printer(store, printer)
    return printer


def find_printer(store: Store, name: str) -> Printer | None:
    """Find what was measured of a printer, or None."""
    return next((printer for printer in labels.all_printers(store) if printer.name == name), None)


def forget_printer(store: Store, name: str) -> None:
    """Forget what was measured of a printer. Raises NotFound listing those that were measured."""
    if find_printer(store, name) is None:
        known = ", ".join(printer.name for printer in labels.all_printers(store)) or "none yet"
        raise NotFound(f"'{name}' is not a printer that was measured (measured: {known}).")
    with store.write():
        labels.forget_printer(store, name)


def scale_of(printer: Printer) -> PrinterScale:
    """Work out how to draw so that a printer that is off prints true."""
    across = printer.measured_across_um / printer.ruler_across_um
    down = printer.measured_down_um / printer.ruler_down_um
    # The frame was drawn FRAME_MM from each edge: what the scale does not explain is a move.
    return PrinterScale(
        across=1 / across,
        down=1 / down,
        right_mm=(FRAME_MM * across - printer.from_left_um / 1000) / across,
        down_mm=(FRAME_MM * down - printer.from_top_um / 1000) / down,
    )


def say_off(printer: Printer) -> str:
    """Say by how much a printer is off, in words."""
    off = []
    for measured, ruler, words in (
        (printer.measured_across_um, printer.ruler_across_um, ("too narrow", "too wide", "in width")),
        (printer.measured_down_um, printer.ruler_down_um, ("too low", "too high", "in height")),
    ):
        tenths = round((measured - ruler) * 1000 / ruler)
        off.append(f"{abs(tenths) / 10:g} % {words[tenths > 0]}" if tenths else f"true {words[2]}")
    scale = scale_of(printer)
    moved = (-scale.right_mm / scale.across, -scale.down_mm / scale.down)
    ways = (("left", "right"), ("up", "down"))
    off += [f"{abs(mm):.1f} mm {way[mm > 0]}" for mm, way in zip(moved, ways, strict=True) if abs(mm) >= 0.05]
    return f"prints {', '.join(off)}"
