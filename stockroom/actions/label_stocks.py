"""The studio's own sheets and rolls of labels, and by how much its printers are off."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from stockroom.actions.editing import changes, keep_changes, retired_day
from stockroom.actions.naming import check_text
from stockroom.domain.edits import Change
from stockroom.domain.labels import LabelStock, Printer
from stockroom.domain.occasion import Occasion, utc_text
from stockroom.domain.sizes import show_size
from stockroom.errors import BadInput, NotFound
from stockroom.labels.ruler import FRAME_MM
from stockroom.labels.sheet import Grid, PrinterScale
from stockroom.science.quantities import Dimension, Quantity, amount_text
from stockroom.store import labels
from stockroom.store.open import Store

_SIZES = ("label", "page")
_LENGTHS = ("left", "top", "across", "down")
MOST_LABELS = 500
_MOST_OFF = 10
"""A printer that is off by more than one part in so many was not measured but misread."""
_FURTHEST_UM = 20_000


def new_label_stock(store: Store, name: str, **typed: str | int | None) -> LabelStock:
    """Add a label stock. `typed` holds label, page, columns, rows, left, top, across and down.

    Without a page it is a roll: each label a page. Raises AlreadyExists when its name is taken, BadInput where the
    label's size is missing or the labels do not fit the page.
    """
    if not typed.get("label"):
        raise BadInput("A label stock needs the size of its labels, such as --label '70 x 37 mm'.")
    bare = LabelStock(
        name=check_text(name, "name"), label_width_um=1, label_height_um=1, page_width_um=0, page_height_um=0
    )
    stock = _with(bare, typed)
    with store.write():
        labels.add_label_stock(store, stock)
    return labels.find_label_stock(store, name)


def edit_label_stock(
    store: Store, occasion: Occasion, words: str, *, name: str | None = None, **typed: str | int | None
) -> tuple[LabelStock, tuple[Change, ...]]:
    """Rename a label stock or change its measures. Raises BadInput where the labels do not fit the page."""
    if name is None and not any(typed.values()):
        raise BadInput(f"Nothing to change: give --name, --{', --'.join((*_SIZES, 'columns', 'rows', *_LENGTHS))}.")
    with store.write() as booked_at:
        before = labels.find_label_stock(store, words)
        after = before if name is None else replace(before, name=check_text(name, "name"))
        after = _with(after, typed)
        made = changes(described(before), described(after))
        labels.change_label_stock(store, after)
        keep_changes(store, "label stock", str(before.id), made, occasion, booked_at)
    return after, made


def retire_label_stock(store: Store, occasion: Occasion, words: str, *, undo: bool = False) -> LabelStock:
    """Retire a label stock: it is offered no more."""
    with store.write() as booked_at:
        before = labels.find_label_stock(store, words, retired=undo)
        after = replace(before, retired_on=retired_day(before.retired_on, occasion, before.name, undo=undo))
        labels.change_label_stock(store, after)
        made = changes({"retired_on": before.retired_on}, {"retired_on": after.retired_on})
        keep_changes(store, "label stock", str(before.id), made, occasion, booked_at)
    return after


def described(stock: LabelStock) -> dict[str, str | None]:
    """Say what a label stock is in words that read back as the same."""
    lengths = (stock.left_um, stock.top_um, stock.across_um, stock.down_um)
    return {
        "name": stock.name,
        "label": show_size(stock.label_width_um, stock.label_height_um),
        "page": show_size(stock.page_width_um, stock.page_height_um),
        "columns": str(stock.columns),
        "rows": str(stock.rows),
        **{name: f"{_mm(length)} mm" for name, length in zip(_LENGTHS, lengths, strict=True)},
    }


def grid_of(stock: LabelStock) -> Grid:
    """Turn a label stock into the grid that labels are drawn on."""
    return Grid(
        page_width_mm=stock.page_width_um / 1000,
        page_height_mm=stock.page_height_um / 1000,
        label_width_mm=stock.label_width_um / 1000,
        label_height_mm=stock.label_height_um / 1000,
        columns=stock.columns,
        rows=stock.rows,
        left_mm=stock.left_um / 1000,
        top_mm=stock.top_um / 1000,
        across_mm=stock.across_um / 1000,
        down_mm=stock.down_um / 1000,
    )


def _with(stock: LabelStock, typed: dict[str, str | int | None]) -> LabelStock:
    """Put what was typed into a label stock; what is None stays as it was."""
    from stockroom.science.reading import read_quantity, read_size

    roll = stock.page_width_um == 0 or (stock.page_width_um, stock.page_height_um) == (
        stock.label_width_um,
        stock.label_height_um,
    )
    values: dict[str, int] = {}
    for name, text in typed.items():
        if text is None:
            continue
        if name in _SIZES:
            values[f"{name}_width_um"], values[f"{name}_height_um"] = read_size(str(text))
        elif name in _LENGTHS:
            quantity = read_quantity(str(text), expect=Dimension.LENGTH, allow_zero=True).quantity
            values[f"{name}_um"] = quantity.quanta
        else:
            values[name] = int(text)
    after = replace(stock, **values)  # type: ignore[arg-type]
    if roll and not typed.get("page"):
        after = replace(after, page_width_um=after.label_width_um, page_height_um=after.label_height_um)
    _check_fit(after)
    return after


def _check_fit(stock: LabelStock) -> None:
    if stock.columns * stock.rows > MOST_LABELS:
        raise BadInput(f"{stock.columns} x {stock.rows} labels on a sheet are too many: at most {MOST_LABELS}.")
    page = (stock.page_width_um, stock.page_height_um)
    for used, held, way, counted in zip(
        stock.used_um, page, ("wide", "high"), (f"{stock.columns} columns", f"{stock.rows} rows"), strict=True
    ):
        if used > held:
            raise BadInput(
                f"{counted} of these labels with margin and gaps are {_mm(used)} mm {way}, the page is {_mm(held)} mm: "
                f"{_mm(used - held)} mm too much. A sheet has a --page; without one each label is a page."
            )


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
                f"A ruler of {_mm(length)} mm measured as {_mm(got)} mm is off by more than a tenth: measure again, "
                "or print without fitting to the page."
            )
    left, top = (read_quantity(text, expect=Dimension.LENGTH).quantity.quanta for text in (from_left, from_top))
    for distance, edge in ((left, "left"), (top, "upper")):
        if distance > _FURTHEST_UM:
            raise BadInput(
                f"The frame stands about {FRAME_MM:g} mm from the {edge} edge, not {_mm(distance)} mm: measure again."
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


def _mm(um: int) -> str:
    return amount_text(Quantity(Dimension.LENGTH, um))[0]
