"""The studio's own sheets and rolls of labels."""

from __future__ import annotations

from dataclasses import replace

from stockroom.actions.editing import changes, keep_changes, retired
from stockroom.actions.naming import check_text
from stockroom.domain.edits import Change
from stockroom.domain.labels import LabelStock
from stockroom.domain.occasion import Occasion
from stockroom.domain.sizes import show_size
from stockroom.errors import BadInput
from stockroom.labels.sheet import Grid
from stockroom.science.quantities import Dimension, Quantity, amount_text
from stockroom.store import labels
from stockroom.store.open import Store

_SIZES = ("label", "page")
_LENGTHS = ("left", "top", "across", "down")
MOST_LABELS = 500


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
        after, made = retired(before, occasion, before.name, undo=undo)
        labels.change_label_stock(store, after)
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
        **{name: f"{show_mm(length)} mm" for name, length in zip(_LENGTHS, lengths, strict=True)},
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
                f"{counted} of these labels with margin and gaps are {show_mm(used)} mm {way}, "
                f"the page is {show_mm(held)} mm: {show_mm(used - held)} mm too much. "
                "A sheet has a --page; without one each label is a page."
            )


def show_mm(um: int) -> str:
    """Write a length in millimetres, without the unit."""
    return amount_text(Quantity(Dimension.LENGTH, um))[0]
