"""Sheets and rolls of labels, and printers, of the studio's own."""

from __future__ import annotations

from dataclasses import replace

from stockroom.actions.label_stocks import described, edit_label_stock, new_label_stock
from stockroom.actions.printers import calibrate, find_printer, say_off
from stockroom.domain.labels import LabelStock, Printer
from stockroom.domain.occasion import Occasion
from stockroom.domain.sizes import show_size
from stockroom.errors import NotFound
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.reading import read_quantity, read_size
from stockroom.store.labels import all_label_stocks
from stockroom.store.open import Store
from stockroom.tui.forms.fields import whole_number
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.keeping import EDIT_WHY, Kept, filled, keep, kept_text, kept_title, page_of, which
from stockroom.tui.forms.own_studio import NAME


def label_stock_of(store: Store, key: str) -> LabelStock:
    """Return a sheet or roll of labels by the number that no renaming changes. Raises NotFound."""
    found = next((one for one in all_label_stocks(store, retired=True) if str(one.id) == key), None)
    if found is None:
        raise NotFound("This sheet or roll of labels is not here any more.")
    return found


def printer_of(store: Store, key: str) -> Printer:
    """Return what was measured of a printer. Raises NotFound."""
    found = find_printer(store, key)
    if found is None:
        raise NotFound("What was measured of this printer is not here any more.")
    return found


_STOCK = ("label", "page", "columns", "rows", "left", "top", "across", "down")


def _labels(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        added = new_label_stock(store, answers["name"], **_stock_typed(answers))
        return Kept(noun="label stock", name=added.name, told=label_stock_told(added), key=str(added.id))

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def _labels_again(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        before = label_stock_of(store, which(answers, "sheet or roll of labels"))
        after, made = edit_label_stock(store, occasion, before.name, name=answers["name"], **_stock_typed(answers))
        return Kept(noun="label stock", name=after.name, changed=made, key=str(after.id))

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def _stock_typed(answers: Answers) -> dict[str, str | int | None]:
    counts = {name: whole_number(answers.get(name), name, 100) for name in ("columns", "rows")}
    return {**{name: answers.get(name) for name in _STOCK}, **counts}


def label_stock_told(stock: LabelStock) -> tuple[tuple[str, str], ...]:
    """Say what a sheet or roll of labels is like, but for its name."""
    said = described(stock)
    if said["page"] == said["label"]:
        return (("single labels", said["label"] or ""),)
    return (
        ("labels", f"{stock.columns} x {stock.rows} of {said['label']}"),
        ("on a page", said["page"] or ""),
        ("margins", f"{said['left']} left, {said['top']} above"),
        ("gaps", f"{said['across']} across, {said['down']} down"),
    )


def _size(key: str, words: str, hint: str, *, needed: bool = False) -> Asked:
    return Asked(key=key, words=words, hint=hint, needed=needed, read=lambda store, answers: read_size(answers[key]))


def _length(key: str, words: str, hint: str, *, on_page: bool = True) -> Asked:
    return Asked(
        key=key,
        words=words,
        hint=hint,
        read=lambda store, answers: read_quantity(answers[key], expect=Dimension.LENGTH, allow_zero=True),
        shown=lambda answers: "page" in answers or not on_page,
    )


def _count(key: str, words: str, hint: str) -> Asked:
    return Asked(
        key=key,
        words=words,
        hint=hint,
        read=lambda store, answers: whole_number(answers[key], words.lower(), 100),
        shown=lambda answers: "page" in answers,
    )


_STOCK_FIELDS = (
    replace(NAME, hint="jar sheet; roll by the door"),
    _size("label", "One label", "width and height: 70 x 37 mm", needed=True),
    _size("page", "Page", "210 x 297 mm; of a roll, none"),
    _count("columns", "Columns", "labels side by side: 3"),
    _count("rows", "Rows", "labels below each other: 8"),
    _length("left", "Left margin", "from the page's edge: 5 mm"),
    _length("top", "Upper margin", "from the page's edge: 5 mm"),
    _length("across", "Gap across", "between labels side by side: 2 mm"),
    _length("down", "Gap down", "between labels below each other: 0 mm"),
)
NEW_LABEL_STOCK = Form(
    name="new-label-stock",
    title="Add a sheet or roll of labels",
    help="""
Adding the labels that the studio buys, so that what is printed stands on them: a sheet with
its columns, rows, margins and gaps, or a roll of single labels.
""",
    fields=_STOCK_FIELDS,
    act=_labels,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep {answers['name']}?",
    done=kept_title,
    page=page_of,
)
EDIT_LABEL_STOCK = Form(
    name="edit-label-stock",
    title="Change a sheet or roll of labels",
    help="Changing the measures of a sheet or roll of labels; what is printed from now on follows them.",
    fields=(*_STOCK_FIELDS, EDIT_WHY),
    act=_labels_again,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep {answers['name']} so?",
    done=kept_title,
    expand=lambda store, known, local: filled(known, lambda key: _stock_values(store, key)),
)


def _stock_values(store: Store, key: str) -> dict[str, str | None]:
    said = described(label_stock_of(store, key))
    return {name: value for name, value in said.items() if said["page"] != said["label"] or name in ("name", "label")}


def _printer(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        measured = {
            "ruler": answers.get("ruler", "150 x 150 mm"),
            "measured": answers["measured"],
            "from_left": answers.get("from_left", "5 mm"),
            "from_top": answers.get("from_top", "5 mm"),
        }
        added = calibrate(store, occasion.now, answers["name"], **measured)
        told = (("off by", f"{say_off(added)}; labels printed there are put right"),)
        return Kept(noun="printer", name=added.name, told=told, key=added.name)

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


NEW_PRINTER = Form(
    name="new-printer",
    title="Measure a printer",
    help="""
Keeping by how much a printer is off, so that labels printed there stand where they should.
Print the calibration page first, at its own size (F on the page of a sheet of labels saves it,
or 'stockroom printer page --out ruler.pdf'); measure both rulers and how far the frame stands
from the edges, and write that here.
""",
    caution="First print the page with rulers, at its own size: F on a sheet of labels.",
    fields=(
        replace(NAME, hint="as the computer names the printer"),
        _size("measured", "Rulers measure", "across and down: 149.2 x 150.6 mm", needed=True),
        _size("ruler", "Should measure", "as the page says: 150 x 150 mm"),
        _length("from_left", "Frame from left", "5 mm", on_page=False),
        _length("from_top", "Frame from above", "5 mm", on_page=False),
    ),
    act=_printer,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep what was measured of {answers['name']}?",
    done=kept_title,
    page=page_of,
    expand=lambda store, known, local: filled(known, lambda key: _printer_values(store, key)),
)


def _printer_values(store: Store, key: str) -> dict[str, str | None]:
    found = printer_of(store, key)
    return {
        "name": found.name,
        "ruler": show_size(found.ruler_across_um, found.ruler_down_um),
        "measured": show_size(found.measured_across_um, found.measured_down_um),
        "from_left": show(Quantity(Dimension.LENGTH, found.from_left_um)),
        "from_top": show(Quantity(Dimension.LENGTH, found.from_top_um)),
    }
