"""The shelf: every lot that is held, narrowed by typing."""

from __future__ import annotations

import asyncio
from typing import ClassVar

from rich.text import Text
from textual import events, on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import DataTable, Input, Static

from stockroom.actions.shelf_lines import ShelfLine, shelf_lines
from stockroom.errors import StockroomError
from stockroom.science.money import show_money
from stockroom.science.quantities import show
from stockroom.store.lots import ShelfSearch
from stockroom.store.open import Store
from stockroom.tui.page import Page
from stockroom.tui.questions.code import known_code
from stockroom.tui.screens.pauses import TYPING_PAUSE
from stockroom.tui.texts import one_line
from stockroom.tui.widgets.narrowing import NarrowingInput
from stockroom.tui.words import day_words, grouped, on_screen, state

MOST = 500
"""Rows shown at most; the count says how many there are."""

WIDE, WIDEST = 110, 140
"""Columns from which there is room for the place, and for the strength as well."""


class ShelfScreen(Page):
    """One line a lot, and the marked one in full beneath."""

    AREA = "shelf"
    CSS_PATH = "shelf.tcss"
    HELP = """
Every lot that is held. Type any words to narrow the list: of its material, code, place,
maker's lot number or strength. Arrows move, Enter opens the marked lot's page.

A label scanned here opens its lot. What stands behind a sign (!) may not be used; the
line beneath the list says why.
"""
    BINDINGS: ClassVar[list[BindingType]] = []

    def __init__(self) -> None:
        super().__init__()
        self._lines: dict[str, ShelfLine] = {}
        self._search: ShelfSearch | None = None

    def body(self) -> ComposeResult:
        yield NarrowingInput(
            placeholder="type to narrow, Enter opens the marked lot; or scan a label", compact=True, id="words"
        )
        yield Static("", id="count", classes="quiet")
        table: DataTable[Text] = DataTable(cursor_type="row", zebra_stripes=False)
        table.can_focus = False
        yield table
        yield Static("", id="detail")

    def search(self, words: str) -> None:
        """Narrow to some words, as if they had been typed."""
        self.query_one(Input).value = words

    @on(Input.Changed)
    def narrow(self) -> None:
        self._load(TYPING_PAUSE)

    @on(events.Resize)
    def fit_columns(self) -> None:
        self._fill(list(self._lines.values()))

    def load(self) -> None:
        self._load()

    @work(exclusive=True, group="load")
    async def _load(self, pause: float = 0) -> None:
        await asyncio.sleep(pause)
        words = self.query_one(Input).value
        found = await self.fetch(lambda store: self._read(store, words))
        if found is None:
            return
        lines, total = found
        self._fill(lines)
        self.query_one("#count", Static).update(Content(count_words(len(lines), total, bool(words.strip()))))

    def _read(self, store: Store, words: str) -> tuple[list[ShelfLine], int]:
        self._search = self._search or ShelfSearch(store)
        return shelf_lines(store, words, self.app.local, MOST, search=self._search)

    def _fill(self, lines: list[ShelfLine]) -> None:
        table: DataTable[Text] = self.query_one(DataTable)
        marked, at = self._marked(), table.cursor_row
        self._lines = {line.lot.code: line for line in lines}
        table.clear(columns=True)
        for name, width in columns(lines, self.size.width):
            table.add_column(Text(name), width=width)
        for code, line in self._lines.items():
            table.add_row(*cells(line, self.size.width), key=code)
        if lines:
            row = table.get_row_index(marked) if marked in self._lines else min(at, len(lines) - 1)
            table.move_cursor(row=row)
        self._show_detail()

    def _marked(self) -> str | None:
        codes = list(self._lines)
        row = self.query_one(DataTable).cursor_row
        return codes[row] if row < len(codes) else None

    @on(DataTable.RowHighlighted)
    def _show_detail(self) -> None:
        line = self._lines.get(self._marked() or "")
        self.query_one("#detail", Static).update(detail(line, self.app.studio.currency) if line else Content(""))

    @on(NarrowingInput.Move)
    def move(self, event: NarrowingInput.Move) -> None:
        getattr(self.query_one(DataTable), f"action_{event.way}")()

    @on(DataTable.RowSelected)
    def open_clicked(self, event: DataTable.RowSelected) -> None:
        if event.row_key.value:
            self.app.open_code(event.row_key.value)

    @on(Input.Submitted)
    @work(exclusive=True, group="open")
    async def open_marked(self, event: Input.Submitted) -> None:
        """Open what was typed where it is a code, else what is marked of the lots that have these very words."""
        self.workers.cancel_group(self, "load")  # or the list it narrows would come after the answer
        typed = event.value

        def look_up(store: Store) -> tuple[str | None, list[str]]:
            lines, _ = self._read(store, typed)
            codes = [line.lot.code for line in lines]
            # a whole code is looked up by itself: a lot that has ended is not on the shelf, but has its page
            return (known_code(store, typed) if typed.strip() and not codes else None), codes

        try:
            code, codes = await self.app.database.run(look_up)
        except StockroomError as error:
            if not self.is_here:
                return
            self._fill([])
            self.query_one("#count", Static).update(Content(count_words(0, 0, narrowed=True)))
            self.query_one("#detail", Static).update(Content(f"! {on_screen(error.message)}"))
            return
        marked = self._marked()
        code = code or (marked if marked in codes else next(iter(codes), None))
        if code:
            self.app.open_code(code)


def columns(lines: list[ShelfLine], width: int) -> list[tuple[str, int]]:
    """Return names and widths that fill a line: the name of the material takes what the others leave."""
    timed = any(line.lot.use_by and "T" in line.lot.use_by for line in lines)
    fixed = [("Code", 6), ("Held", 11), ("Use by", 17 if timed else 10), ("State", 13)]
    if width >= WIDE:
        fixed += [("Place", 18)]
    if width >= WIDEST:
        fixed += [("Strength", 24)]
    padding = 2 * (len(fixed) + 1) + 3
    name = max(16, width - sum(each for _, each in fixed) - padding)
    return [fixed[0], ("Material", name), *fixed[1:]]


def cells(line: ShelfLine, width: int) -> list[Text]:
    lot = line.lot
    held = ("about " if lot.about else "") + show(lot.amount)
    texts = [lot.code, lot.material.name, held, day_words(lot.use_by), state(line.fit)]
    if width >= WIDE:
        texts.append(lot.place or "")
    if width >= WIDEST:
        texts.append(lot.strength or "")
    return [Text(one_line(text), no_wrap=True, overflow="ellipsis") for text in texts]


def detail(line: ShelfLine, currency: str) -> Content:
    """Write the marked lot in full."""
    lot = line.lot
    parts = [lot.strength, f"at {lot.place}" if lot.place else "no place named"]
    parts.append(f"maker's lot {lot.maker_lot}" if lot.maker_lot else None)
    parts.append(show_money(lot.balance.value, currency) if lot.cost_known else "cost not known")
    return Content.assemble(
        (one_line(lot.material.name), "bold"),
        f"  {lot.code}  {lot.amount_words}\n",
        ("fit: " if line.fit.fit else "! not fit: ") + one_line(line.fit.why),
        "\n",
        (one_line("; ".join(part for part in parts if part)), "dim"),
    )


def count_words(shown: int, total: int, narrowed: bool) -> str:
    """Say honestly how many lots there are."""
    if shown < total:
        return f"{grouped(shown)} of {grouped(total)} lots: type to narrow"
    if not total:
        return "No lot has these words." if narrowed else "The shelf is empty. Book deliveries in with 'receive'."
    return f"{grouped(total)} lot{'s' if total != 1 else ''}"
