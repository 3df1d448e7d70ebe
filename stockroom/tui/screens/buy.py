"""What to buy, by supplier; drafting the orders with one key; and the orders that are open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.content import Content

from stockroom.actions.buying import WITHIN_DAYS, BuyList, minimum_words, order_lines, what_to_buy
from stockroom.domain.orders import Order, goods, state_words
from stockroom.planning.buying import BuyLine
from stockroom.planning.due import Due
from stockroom.planning.due_shelf import due_materials
from stockroom.science.money import show_money
from stockroom.science.numerals import counted
from stockroom.store.lots import shelf
from stockroom.store.materials import materials_with_a_least
from stockroom.store.open import Store
from stockroom.store.orders import all_orders
from stockroom.store.recipes import recipe_making
from stockroom.tui.booking import who_books
from stockroom.tui.questions.confirmation import Confirm
from stockroom.tui.screens.listing import Entry, ListingPage, title
from stockroom.tui.texts import one_line
from stockroom.tui.words import DUE, on_screen

OPEN_STATES = ("drafted", "placed", "partly delivered")


@dataclass(frozen=True, slots=True, kw_only=True)
class ToBuy:
    """What the page shows."""

    wanted: BuyList
    least_orders: dict[str, str]
    """By supplier, by how much an order falls short of what it delivers."""
    made: tuple[tuple[Due, str], ...]
    """What is low and made here, each with its recipe."""
    orders: tuple[Order, ...]


class BuyScreen(ListingPage):
    """What lacks, grouped by who sells it."""

    AREA = "buy"
    HELP = """
What to order within four weeks, by supplier: what booked treatments lack, and what falls
below the amount at which you order again. Each line says why, in which packs, and by when.
Enter shows how much of it there will be, as a curve with its bookings and dates.

O drafts an order to each supplier of all that is listed; nothing is ordered before a draft is
placed. Enter on an order opens its page. R books in a delivery that was not ordered here.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("o", "draft", "Draft the orders"),
        Binding("n", "form('new-order')", "New order"),
        Binding("r", "form('receive')", "Receive a delivery"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._found: ToBuy | None = None

    def read(self, store: Store) -> Sequence[Entry]:
        local = self.app.local
        wanted = what_to_buy(store, local)
        low = due_materials(materials_with_a_least(store), shelf(store), local)
        recipes = [(item, recipe_making(store, item.code)) for item in low]
        self._found = found = ToBuy(
            wanted=wanted,
            least_orders={
                group.supplier.name: words for group in wanted.groups if (words := minimum_words(store, group))
            },
            made=tuple((item, recipe.key) for item, recipe in recipes if recipe),
            orders=tuple(all_orders(store, states=OPEN_STATES)),
        )
        return list(_entries(found, self.app.studio.currency, local.date()))

    def heading(self) -> str:
        if self._found is None:
            return ""
        lines, drafts = len(self._found.wanted.lines), len(self._found.wanted.drafted)
        waiting = f"; {counted(drafts, 'draft')} to be placed" if drafts else ""
        if not lines:
            return f"Nothing is to be ordered within {WITHIN_DAYS} days{waiting}."
        cost = show_money(sum(group.cost for group in self._found.wanted.groups), self.app.studio.currency)
        return f"{counted(lines, 'material')} to buy within {WITHIN_DAYS} days, {cost}{waiting}"

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "draft":
            return self._found is not None and bool(self._found.wanted.groups)
        return super().check_action(action, parameters)

    def fill(self, found: Sequence[Entry]) -> None:
        super().fill(found)
        self.refresh_bindings()

    def go_on(self, key: str) -> None:
        from stockroom.tui.screens.stock import StockScreen

        what, _, code = key.partition(" ")
        if what == "order":
            self.app.open_code(code)
        elif what == "make":
            self.app.open_form("make", recipe=code)
        else:
            self.app.push_screen(StockScreen(code))

    def action_form(self, name: str) -> None:
        self.app.open_form(name)

    @work
    async def action_draft(self) -> None:
        """Draft an order to each supplier, once it was said that they are wanted."""
        if self._found is None or not self._found.wanted.groups:
            return
        by = await who_books(self.app)
        told = _groups_text(self._found, self.app.studio.currency)
        if by is None or not await self.app.push_screen_wait(Confirm("Draft these orders?", told)):
            return
        occasion = self.app.occasion(by)
        done = await self.app.ask_database(lambda store: order_lines(store, occasion))
        if done is not None:
            codes = [order.code for order in done[1]]
            self.notify(
                f"Drafted: {', '.join(codes)}. Place {'it' if len(codes) == 1 else 'each'} from its page.",
                markup=False,
            )
            if len(codes) == 1:
                self.app.open_code(codes[0])
        self.load()


def _entries(found: ToBuy, currency: str, today: date) -> Iterator[Entry]:
    for group in found.wanted.groups:
        head = f"{one_line(group.supplier.name)}   {counted(len(group.lines), 'thing')}, "
        least = found.least_orders.get(group.supplier.name)
        short = (Content.styled(f"! {one_line(least)}", "$text-warning"),) if least else ()
        yield title(f"supplier {group.supplier.name}", f"{head}{show_money(group.cost, currency)}", *short)
        yield from (_line(line, currency) for line in group.lines)
    if found.wanted.without_offer:
        yield title("no offer", "Nobody is known to offer these")
        yield from (_line(line, currency) for line in found.wanted.without_offer)
    if found.made:
        yield title("made", "Low, and made here")
        for item, recipe in found.made:
            words = Content.assemble((f"{DUE[item.kind]}  {one_line(item.name)}", "bold"))
            yield Entry(
                key=f"make {recipe}", words=words, below=(Content(one_line(on_screen(item.why))),), does="make it up"
            )
    if found.orders:
        yield title("orders", "Orders")
        yield from (_order(order, currency, today) for order in found.orders)


def _line(line: BuyLine, currency: str) -> Entry:
    """Write what to buy: by when, what and in which packs; beneath it why, then what may be thought about."""
    if line.offer is not None and line.packs is not None:
        what = f"{line.packs} x {line.offer.pack_words}, {show_money(line.offer.cost(line.packs), currency)}"
        verb = "order by"
    else:
        what, verb = f"{goods(line.material, line.net.quanta)} lacking", "lacks on"
    words = Content.assemble(
        ("! late  " if line.late else "", "bold"),
        f"{verb} {line.order_by:%a} {line.order_by}  ",
        (one_line(line.material.name), "bold"),
        f"  {what}",
    )
    said = [*line.why, *([f"delivery: {line.choice.time.words}"] if line.choice else [])]
    below = [Content(one_line(words)) for words in said]
    below += [Content.styled(f"may be: {one_line(words)}", "dim") for words in line.advice if words != "no offer kept"]
    return Entry(
        key=f"stock {line.material.key}",
        words=words,
        below=tuple(below),
        does="how much of it there will be in the weeks to come",
    )


def _order(order: Order, currency: str, today: date) -> Entry:
    state = state_words(order, today).replace("LATE", "! late")
    words = Content.assemble(
        f"{order.code}  ",
        (one_line(order.supplier.name), "bold"),
        f"  {counted(len(order.lines), 'line')}, {show_money(order.cost, currency)}",
    )
    return Entry(key=f"order {order.code}", words=words, below=(Content(state),), does="its page")


def _groups_text(found: ToBuy, currency: str) -> Content:
    parts = []
    for group in found.wanted.groups:
        parts.append(Content.assemble((one_line(group.supplier.name), "bold"), f"  {show_money(group.cost, currency)}"))
        parts += [
            Content(f"  {line.packs} x {line.offer.pack_words} of {one_line(line.material.name)}")
            for line in group.lines
            if line.offer is not None
        ]
        if least := found.least_orders.get(group.supplier.name):
            parts.append(Content.styled(f"! {one_line(least)}", "$text-warning"))
    return Content("\n").join(parts)
