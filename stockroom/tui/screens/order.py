"""One order's page: its lines, what has come, and every step from draft to delivery."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, tzinfo
from pathlib import Path
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content

from stockroom.actions.order_papers import sums_of
from stockroom.domain.orders import Order, OrderLine, goods, state_words
from stockroom.science.money import show_money
from stockroom.store.edits import edits_of
from stockroom.store.open import Row, Store
from stockroom.store.orders import deliveries_of, find_order
from stockroom.store.stockroom_settings import setting
from stockroom.tui.booking import who_books
from stockroom.tui.files import hand_over
from stockroom.tui.questions.confirmation import Confirm
from stockroom.tui.screens.listing import Entry, ListingPage, title
from stockroom.tui.texts import one_line, rows
from stockroom.tui.widgets.told import Told


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderPage:
    """All about one order."""

    order: Order
    sums: tuple[tuple[str, str], ...]
    deliveries: tuple[Row, ...]
    steps: tuple[Row, ...]


def order_page(store: Store, code: str) -> OrderPage:
    """Return all about one order. Raises NotFound."""
    order = find_order(store, code)
    return OrderPage(
        order=order,
        sums=tuple(sums_of(order, setting(store, "costs"))),
        deliveries=tuple(deliveries_of(store, order.id)),
        steps=tuple(edits_of(store, "order", order.code)),
    )


class OrderScreen(ListingPage):
    """One order."""

    CSS_PATH = "order.tcss"
    HELP = """
One order: a draft at first, then placed at the prices of that day, then received. Enter on a
line of a draft takes it off, once R confirms it; on a line still to come, books in what came
of it; on a delivery, undoes it.

S writes the order as a sheet to send. Nothing is sent by the program.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("p", "form('place-order')", "Placed"),
        Binding("r", "form('receive-order')", "Receive"),
        Binding("a", "form('add-to-order')", "Add"),
        Binding("e", "form('expect-order')", "Another day"),
        Binding("b", "again", "Back to draft"),
        Binding("x", "form('end-order')", "End it"),
        Binding("s", "save", "Sheet as PDF"),
    ]
    _WHEN: ClassVar[dict[str, tuple[str, ...]]] = {
        "place-order": ("drafted",),
        "add-to-order": ("drafted",),
        "receive-order": ("placed", "partly delivered"),
        "expect-order": ("placed", "partly delivered"),
        "end-order": ("drafted", "placed", "partly delivered"),
    }

    def __init__(self, code: str) -> None:
        super().__init__()
        self.code = code
        self._page: OrderPage | None = None

    def above(self) -> ComposeResult:
        yield Told(id="order-facts")

    def read(self, store: Store) -> Sequence[Entry]:
        self._page = page = order_page(store, self.code)
        lines = [_line(line, page.order) for line in page.order.lines]
        came = [_delivery(row) for row in page.deliveries]
        if came:
            came.insert(0, title("came", "What came"))
        steps = [_step(number, row, self.app.studio.zone) for number, row in enumerate(page.steps)]
        if steps:
            steps.insert(0, title("steps", "What was done with it"))
        return [*lines, *came, *steps]

    def fill(self, found: Sequence[Entry]) -> None:
        super().fill(found)
        self.refresh_bindings()
        if self._page:
            self.query_one("#order-facts", Told).tell(_facts(self._page))

    def heading(self) -> str:
        if self._page is None:
            return self.code
        order = self._page.order
        state = state_words(order, self.app.local.date()).replace("LATE", "! late")
        return f"{order.code}   {one_line(order.supplier.name)}   {one_line(state)}"

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        state = self._page.order.state if self._page else ""
        if action == "form":
            return state in self._WHEN[str(parameters[0])]
        if action == "again":
            return state == "placed"
        if action == "save":
            return bool(state)
        return super().check_action(action, parameters)

    def action_form(self, name: str) -> None:
        self.app.open_form(name, order=self.code)

    def go_on(self, key: str) -> None:
        what, _, code = key.partition(" ")
        state = self._page.order.state if self._page else ""
        if what == "delivery":
            self._undo(code)
        elif what == "line" and state == "drafted":
            self._take_off(int(code))
        elif what == "line" and state in self._WHEN["receive-order"]:
            self.app.open_form("receive-order", order=self.code, line=code)

    @work
    async def _undo(self, action: str) -> None:
        from stockroom.tui.booking import undo_action

        await undo_action(self.app, action, "This delivery")
        self.load()

    @work
    async def _take_off(self, position: int) -> None:
        """Take a line off once it was said that it is meant: nothing puts it back."""
        from stockroom.actions.ordering import remove_line

        lines = self._page.order.lines if self._page else ()
        told = Content("; ".join(line.words for line in lines if line.position == position))
        by = await who_books(self.app)
        if by is None or not await self.app.push_screen_wait(Confirm(f"Take it off {self.code}?", told, verb="Remove")):
            return
        occasion = self.app.occasion(by)
        await self.app.ask_database(lambda store: remove_line(store, occasion, self.code, position))
        self.load()

    @work
    async def action_again(self) -> None:
        """Make it a draft again: it was not placed after all."""
        from stockroom.actions.ordering import unplace_order

        by = await who_books(self.app)
        if by is not None:
            occasion = self.app.occasion(by)
            if await self.app.ask_database(lambda store: unplace_order(store, occasion, self.code)):
                self.notify(f"{self.code} is a draft again.", markup=False)
            self.load()

    @work
    async def action_save(self) -> None:
        def write(store: Store, path: Path) -> Path:
            from stockroom.actions.order_papers import order_paper
            from stockroom.actions.papers import write_paper

            return write_paper(order_paper(store, self.code), path)

        await hand_over(self.app, f"order-{self.code}.pdf", write)


def _facts(page: OrderPage) -> Content:
    order = page.order
    known = [*page.sums, ("drafted", order.drafted_on), ("note", order.note)]
    return rows((name, value) for name, value in known if value)


def _line(line: OrderLine, order: Order) -> Entry:
    material, currency = line.offer.material, line.offer.currency
    words = Content.assemble(
        f"{line.position:>2}. ",
        (one_line(material.name), "bold"),
        f"  {line.packs} x {line.offer.pack_words} at {show_money(line.price, currency)}",
        f"  {show_money(line.packs * line.price, currency)}",
    )
    below = []
    if line.offer.catalogue_number:
        below.append(Content.styled(f"number {one_line(line.offer.catalogue_number)}", "dim"))
    if order.placed_on:
        below.append(Content(f"{goods(material, line.open)} to come" if line.open else "all has come"))
    does = "take it off the order" if order.state == "drafted" else "book in what came of it"
    done = order.state != "drafted" and not (order.open and line.open)
    return Entry(key=f"line {line.position}", words=words, below=tuple(below), does=does, title=done)


def _delivery(row: Row) -> Entry:
    words = Content(f"{row['day']}  delivery {row['code']}")
    return Entry(key=f"delivery {row['code']}", words=words, does="undo it: it did not come")


def _step(number: int, row: Row, zone: tzinfo) -> Entry:
    day = datetime.fromisoformat(row["booked_at"]).astimezone(zone).date()
    was, became = row["was"], row["became"]
    change = f"{was} → {became}" if was and became else f"{became} added" if became else f"{was} taken off"
    reason = f" ({row['reason']})" if row["reason"] else ""
    words = Content.assemble(f"{day}  {row['initials']}  ", one_line(f"{change}{reason}"))
    return Entry(key=f"step {number}", words=words, does="", title=True)
