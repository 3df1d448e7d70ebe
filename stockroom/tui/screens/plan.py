"""What is booked for the days to come, and what it will lack."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import OptionList

from stockroom.actions.planned import Moment, coming_weeks, load_plan
from stockroom.domain.jobs import Booking
from stockroom.domain.open_days import ALWAYS_OPEN
from stockroom.domain.orders import Order
from stockroom.planning.needs import Need
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store.jobs import job_by_id, open_bookings
from stockroom.store.open import Store
from stockroom.store.orders import all_orders
from stockroom.store.recipes import find_recipe
from stockroom.tui.pictures.weeks import draw_weeks
from stockroom.tui.screens.listing import Entry, ListingPage
from stockroom.tui.texts import one_line
from stockroom.tui.widgets.picture import Picture
from stockroom.tui.words import on_screen

AHEAD_DAYS = 90


class PlanScreen(ListingPage):
    """Booked treatments by day."""

    AREA = "plan"
    CSS_PATH = "plan.tcss"
    HELP = """
The coming weeks: a column for each day, with how many things are to be ordered, made, done
and expected on it; ! stands by what is late, ▒ on closed days, ▼ over what is marked below.

Beneath stands what is booked, by day, and what must be made or ordered for it, by the day on which that has
to begin. What one booking takes is not there for the next. Enter does the treatment, or makes
what is to be made; M puts a booking on another day, X drops it, B books one more.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("b", "book", "Book"),
        Binding("m", "form('move-booking')", "Another day"),
        Binding("x", "form('cancel-booking')", "Drop"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._booked: Sequence[Booking] = ()
        self._needs: dict[str, Need] = {}
        self._moments: Sequence[Moment] = ()
        self._days: dict[str, date] = {}
        self._studio = ALWAYS_OPEN

    def above(self) -> ComposeResult:
        yield Picture(id="weeks")

    def read(self, store: Store) -> Sequence[Entry]:
        local = self.app.local
        planned = load_plan(store, local)
        unworked = dict(planned.unworked)
        self._needs = {f"need {number}": need for number, need in enumerate((*planned.plan.make, *planned.plan.buy))}
        self._booked = open_bookings(store)
        self._moments, self._studio = coming_weeks(store, local, AHEAD_DAYS, planned), planned.studio
        dated = [(need.begin_by.isoformat(), _need(key, need)) for key, need in self._needs.items()]
        dated += [
            (
                one.for_day,
                _booking(store, one, planned.plan.for_booking(one.code), unworked.get(one.code), local.date()),
            )
            for one in self._booked
        ]
        dated += [
            (order.expected_on or local.date().isoformat(), _arrival(order, local.date())) for order in _open(store)
        ]
        dated.sort(key=lambda pair: pair[0])
        self._days = {entry.key: date.fromisoformat(day) for day, entry in dated}
        return [entry for _, entry in dated]

    def fill(self, found: Sequence[Entry]) -> None:
        super().fill(found)
        self._point()

    @on(OptionList.OptionHighlighted)
    def _point(self) -> None:
        """Draw the weeks, with a sign over the day of what is marked."""
        today, marked = self.app.local.date(), self.marked
        day = self._days.get(marked.key) if marked else None
        at = max(day, today) if day else None
        moments, studio = self._moments, self._studio
        self.query_one("#weeks", Picture).show(lambda width, height: draw_weeks(moments, studio, today, at, width))

    def heading(self) -> str:
        count = len(self._booked)
        if not count:
            return "Nothing is booked. B books a treatment for a day to come."
        makings = sum(1 for need in self._needs.values() if need.recipe)
        booked = f"{count} treatment{'s' if count != 1 else ''} booked"
        return f"{booked}, {makings} to make and {len(self._needs) - makings} to buy for them"

    def go_on(self, key: str) -> None:
        need = self._needs.get(key)
        if key.startswith("P"):
            self.app.open_code(key)
        elif need is None:
            self.app.open_form("use", booking=key)
        elif need.recipe:
            self.app.open_form("make", recipe=need.recipe, amount=show(need.amount))
        else:
            self.app.action_area("buy")

    def action_book(self) -> None:
        self.app.open_form("book")

    def action_form(self, name: str) -> None:
        if self.marked and self.marked.key.startswith("K"):
            self.app.open_form(name, booking=self.marked.key)


def _booking(store: Store, one: Booking, needs: Sequence[Need], unworked: str | None, today: date) -> Entry:
    """Write a booking, and what must be made or bought before it."""
    day, job = date.fromisoformat(one.for_day), job_by_id(store, one.job_id)
    fill = f", {show(Quantity(Dimension.VOLUME, one.fill_quanta))}" if one.fill_quanta else ""
    fills = f", {one.fills} fills" if one.fills and one.fills > 1 else ""
    words = Content.assemble(
        (f"{day:%a} {one.for_day}  {one_line(find_recipe(store, one.recipe_key).name)}", "bold"),
        f"{fill}{fills}",
        (f"  {one.code}", "dim"),
    )
    of_job = Content.styled(one_line(f"{job.code} {job.title}"), "dim")
    signs = ["passed: done, moved or dropped?"] if day < today else []
    signs += [unworked] if unworked else []
    signs += [
        f"{need.amount_words} of {need.material.name} to {'make' if need.recipe else 'buy'} first" for need in needs
    ]
    told = (Content(f"! {one_line(on_screen(sign))}") for sign in signs)
    return Entry(key=one.code, words=words, below=(of_job, *told), does="do it: the form opens filled in")


def _open(store: Store) -> list[Order]:
    """Return the orders on their way."""
    return all_orders(store, states=("placed", "partly delivered"))


def _arrival(order: Order, today: date) -> Entry:
    expected = date.fromisoformat(order.expected_on) if order.expected_on else None
    when = f"{expected:%a} {expected}  " if expected else "day not known   "
    words = Content.assemble(when, (f"arrives: {one_line(order.supplier.name)}", "bold"), (f"  {order.code}", "dim"))
    goods = Content.styled(one_line("; ".join(line.words for line in order.lines if line.open)), "dim")
    late = (Content("! late: it should be here"),) if expected and expected < today else ()
    return Entry(key=order.code, words=words, below=(goods, *late), does="the order's page")


def _need(key: str, need: Need) -> Entry:
    """Write what is to be made or ordered, by the day on which that begins."""
    day = need.begin_by
    words = Content.assemble(
        f"{day:%a} {day.isoformat()}  ", (f"{need.verb} {need.amount_words} of {one_line(need.material.name)}", "bold")
    )
    late = (Content(f"! there only on {need.there_from.isoformat()}"),) if need.late else ()
    does = "make it: the form opens filled in" if need.recipe else "what to buy"
    return Entry(key=key, words=words, below=(Content.styled(one_line(on_screen(need.why)), "dim"), *late), does=does)
