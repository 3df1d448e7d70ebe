"""What is booked for the days to come, and what it will lack."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from stockroom.actions.planned import load_plan
from stockroom.domain.jobs import Booking
from stockroom.planning.needs import Need
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store.jobs import job_by_id, open_bookings
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.tui.screens.listing import Entry, ListingPage
from stockroom.tui.texts import one_line


class PlanScreen(ListingPage):
    """Booked treatments by day."""

    AREA = "plan"
    HELP = """
What is booked, by day, and what must be made or ordered for it, by the day on which that has
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

    def read(self, store: Store) -> Sequence[Entry]:
        local = self.app.local
        planned = load_plan(store, local)
        unworked = dict(planned.unworked)
        self._needs = {f"need {number}": need for number, need in enumerate((*planned.plan.make, *planned.plan.buy))}
        self._booked = open_bookings(store)
        dated = [(need.begin_by.isoformat(), _need(key, need)) for key, need in self._needs.items()]
        dated += [
            (
                one.for_day,
                _booking(store, one, planned.plan.for_booking(one.code), unworked.get(one.code), local.date()),
            )
            for one in self._booked
        ]
        return [entry for _, entry in sorted(dated, key=lambda pair: pair[0])]

    def heading(self) -> str:
        count = len(self._booked)
        if not count:
            return "Nothing is booked. B books a treatment for a day to come."
        makings = sum(1 for need in self._needs.values() if need.recipe)
        booked = f"{count} treatment{'s' if count != 1 else ''} booked"
        return f"{booked}, {makings} to make and {len(self._needs) - makings} to buy for them"

    def go_on(self, key: str) -> None:
        need = self._needs.get(key)
        if need is None:
            self.app.open_form("use", booking=key)
        elif need.recipe:
            self.app.open_form("make", recipe=need.recipe, amount=show(need.amount))
        else:
            self.app.action_area("buy")

    def action_book(self) -> None:
        self.app.open_form("book")

    def action_form(self, name: str) -> None:
        if self.marked and self.marked.key not in self._needs:
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
    told = (Content(f"! {one_line(sign)}") for sign in signs)
    return Entry(key=one.code, words=words, below=(of_job, *told), does="do it: the form opens filled in")


def _need(key: str, need: Need) -> Entry:
    """Write what is to be made or ordered, by the day on which that begins."""
    day, verb = need.begin_by, "make" if need.recipe else "order"
    words = Content.assemble(
        f"{day:%a} {day.isoformat()}  ", (f"{verb} {need.amount_words} of {one_line(need.material.name)}", "bold")
    )
    late = (Content(f"! there only on {need.there_from.isoformat()}"),) if need.late else ()
    does = "make it: the form opens filled in" if need.recipe else "what to buy"
    return Entry(key=key, words=words, below=(Content.styled(one_line(need.why), "dim"), *late), does=does)
