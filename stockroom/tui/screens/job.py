"""One job's page: its objects, what is booked, what was done, and what its materials cost."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.actions.costing import Costing, costing
from stockroom.domain.jobs import Booking, Job
from stockroom.domain.quotes import Quote
from stockroom.domain.sizes import show_size
from stockroom.science.money import show_money
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store import ledger
from stockroom.store.history import find_action
from stockroom.store.jobs import DoneForJob, bookings_of, done_for, find_job
from stockroom.store.lots import lot_by_id
from stockroom.store.open import Store
from stockroom.store.quotes import quotes
from stockroom.store.recipes import find_recipe
from stockroom.tui.pictures.bars import draw_bars
from stockroom.tui.screens.listing import Entry, ListingPage
from stockroom.tui.screens.quote import quote_entry
from stockroom.tui.texts import one_line
from stockroom.tui.widgets.told import Told
from stockroom.tui.words import DONE


@dataclass(frozen=True, slots=True, kw_only=True)
class JobPage:
    """All about one job."""

    job: Job
    costing: Costing
    bookings: tuple[tuple[Booking, str], ...]
    """Those neither done nor dropped, each with the name of its treatment."""
    done: tuple[tuple[DoneForJob, str], ...]
    """What was done and is in effect, in words."""
    quotes: tuple[Quote, ...]
    """Newest first."""
    last: Mapping[str, str] | None
    """The answers that repeat the last treatment; None before the first."""


def job_page(store: Store, code: str, local: datetime) -> JobPage:
    """Return all about one job. Raises NotFound."""
    job = find_job(store, code)
    booked = [one for one in bookings_of(store, job.id) if one.state == "booked"]
    done = done_for(store, job.id)
    names = {key: find_recipe(store, key).name for key in {one.recipe_key for one in booked}}
    names |= {key: find_recipe(store, key).name for key in {one.recipe for one in done if one.recipe}}
    drawn = _drawn(store, job.id)
    return JobPage(
        job=job,
        costing=costing(store, job.code, local),
        bookings=tuple((one, names[one.recipe_key]) for one in booked),
        done=tuple((one, names[one.recipe] if one.recipe else _told(one, drawn)) for one in done),
        quotes=tuple(quotes(store, job.id)),
        last=_repeated(store, done),
    )


def _drawn(store: Store, job_id: int) -> Mapping[int, Sequence[str]]:
    """Return what each action drew for a job or brought back from it, in words, by the action's number."""
    amounts: dict[int, Counter[int]] = {}
    for entry in ledger.entries_of_job(store, job_id):
        amounts.setdefault(entry.place[0], Counter())[entry.lot] += entry.quantity
    materials = {lot: lot_by_id(store, lot).material for lot in {lot for lots in amounts.values() for lot in lots}}
    return {
        number: [
            f"{show(materials[lot].quantity(abs(quanta)))} of {materials[lot].name}" for lot, quanta in lots.items()
        ]
        for number, lots in amounts.items()
    }


def _told(one: DoneForJob, drawn: Mapping[int, Sequence[str]]) -> str:
    """Say what was done beside the treatments, and what of."""
    words = DONE.get(one.kind, one.kind)
    return f"{words}: {', '.join(drawn[one.number])}" if one.number in drawn else words


def _repeated(store: Store, done: Sequence[DoneForJob]) -> Mapping[str, str] | None:
    """Return the answers that repeat the last treatment that was done."""
    last = next((one for one in reversed(done) if one.kind == "use" and one.recipe), None)
    if last is None or last.recipe is None:
        return None
    details = json.loads(find_action(store, last.code).details)
    objects = ", ".join(one for one in last.objects if "," not in one)
    known = {"recipe": last.recipe, "fill": details.get("typed"), "fills": details.get("fills"), "objects": objects}
    return {key: str(value) for key, value in known.items() if value}


class JobScreen(ListingPage):
    """One job."""

    CSS_PATH = "job.tcss"
    HELP = """
One job: its objects, what its materials cost to the cent beside what they were expected to
cost, what is booked, and what was done. R repeats the last treatment, S shows the materials
statement for the treatment record, W what touched its objects.

Tab goes to the costs, to move them. Enter on a booking does it; on what was done, puts it
right; on a quote, shows it. N uses a bath or a treatment for this job, T takes a little of
one lot, B plans a treatment for a day to come, Q quotes what is booked, A adds an object,
C closes the job, and O opens a closed one again.
"""
    AUTO_FOCUS = "Entries"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "form('use')", "Use"),
        Binding("r", "again", "Repeat", tooltip="Repeat the last treatment"),
        Binding("t", "form('take')", "Take", show=False),
        Binding("b", "form('book')", "Book"),
        Binding("q", "form('quote')", "Quote"),
        Binding("s", "statement", "Record", tooltip="Materials statement for the treatment record"),
        Binding("w", "trace", "Trace"),
        Binding("a", "form('add-object')", "Add an object", show=False),
        Binding("c", "form('close-job')", "Close job", show=False),
        Binding("o", "form('reopen-job')", "Open it again"),
    ]

    def __init__(self, code: str) -> None:
        super().__init__()
        self.code = code
        self._page: JobPage | None = None

    def above(self) -> ComposeResult:
        with VerticalScroll(id="cost"):
            yield Told(id="cost-lines")
        yield Static(Content("Booked, and done"), classes="heading")

    def read(self, store: Store) -> Sequence[Entry]:
        self._page = page = job_page(store, self.code, self.app.local)
        given = [quote_entry(one, self.app.studio.currency, self.app.local.date()) for one in page.quotes]
        booked = [_booked(one, name) for one, name in page.bookings]
        return [*given, *booked, *(_done(one, name) for one, name in reversed(page.done))]

    def fill(self, found: Sequence[Entry]) -> None:
        super().fill(found)
        self.refresh_bindings()
        if self._page:
            self.query_one("#cost-lines", Told).tell(_about(self._page, self.app.studio.currency, self.size.width - 3))

    def heading(self) -> str:
        if self._page is None:
            return self.code
        job = self._page.job
        state = "open" if job.state == "open" else f"closed on {job.closed_on}"
        return f"{job.code}   {one_line(job.title)}   {state}"

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        is_open = self._page is not None and self._page.job.state == "open"
        if action == "form" and parameters == ("reopen-job",):
            return self._page is not None and not is_open
        if action == "form":
            return is_open
        if action == "again":
            return is_open and self._page is not None and self._page.last is not None
        return super().check_action(action, parameters)

    def action_form(self, name: str) -> None:
        self.app.open_form(name, job=self.code)

    def action_again(self) -> None:
        """Open the form of the last treatment, filled in as it was."""
        if self._page and self._page.last:
            self.app.open_form("use", **{**self._page.last, "job": self.code})

    def action_statement(self) -> None:
        from stockroom.tui.screens.statement import StatementScreen

        self.app.push_screen(StatementScreen(self.code))

    def action_trace(self) -> None:
        from stockroom.tui.screens.trace import TraceScreen

        self.app.push_screen(TraceScreen(self.code))

    def go_on(self, key: str) -> None:
        if key.startswith("E"):
            self.app.open_code(key)
        elif key.startswith("K"):
            self.app.open_form("use", booking=key)
        else:
            self._put_right(key)

    @work
    async def _put_right(self, action: str) -> None:
        from stockroom.tui.booking import undo_action
        from stockroom.tui.questions.choice import Choose
        from stockroom.tui.questions.offer import Offer

        offers = [
            Offer(key="put-right", words="Put it right", detail="another lot, amount, day or job was meant"),
            Offer(key="bring-back", words="Bring some back", detail="or keep what is left of its bath"),
            Offer(key="undo", words="Undo it", detail="it did not happen"),
        ]
        answer = await self.app.push_screen_wait(Choose(f"{action}: what about it?", offers, none=""))
        if answer is None:
            return
        if answer.key == "undo":
            await undo_action(self.app, action, "What was done")
        else:
            self.app.open_form(answer.key, **{"of" if answer.key == "put-right" else "taken": action})


def _about(page: JobPage, currency: str, width: int) -> Content:
    """Write objects and cost: the sums first, then expected against actual as bars, then lot by lot."""
    found = page.costing
    things = [
        f"{one.position} {one.name}{', ' + size if (size := show_size(one.length_um, one.width_um)) else ''}"
        for one in page.job.objects
    ]
    least = "" if found.complete else "at least: some cost is not known"
    parts = [Content.assemble(("for       ", "dim"), one_line(page.job.client))] if page.job.client else []
    parts.append(Content.assemble(("objects   ", "dim"), one_line("; ".join(things)) or "none named"))
    parts.append(
        Content.assemble(
            ("materials ", "dim"), (show_money(found.total, currency), "bold"), f" in all {least}".rstrip()
        )
    )
    if found.estimate:
        least = "" if found.expected_complete else "at least "
        done, to_come = show_money(found.expected, currency), show_money(found.to_come, currency)
        parts.append(
            Content.assemble(
                ("expected  ", "dim"),
                f"{least}{show_money(found.estimate, currency)}: {done} of what is done, {to_come} still to come",
            )
        )
    if found.expected and found.causes:
        told = "; ".join(f"{kind} {_signed(value, currency)}" for kind, value in found.causes.items())
        parts.append(Content.assemble(("because   ", "dim"), told))
    bars = draw_bars(found.bars, currency, width)
    lines = [Content(""), bars, Content("")] if bars.plain else []
    for line in found.by_lot:
        amount = show(line.quantity) if line.quantity.quanta >= 0 else f"back: {show(-line.quantity)}"
        told = one_line(f"{amount} of {line.lot.material.name}")
        lines.append(Content.assemble(f"{show_money(line.value, currency):>14}  ", told, (f"  {line.lot.code}", "dim")))
    return Content("\n").join(parts + lines)


def _signed(value: int, currency: str) -> str:
    return f"{'+' if value > 0 else ''}{show_money(value, currency)}"


def _booked(one: Booking, name: str) -> Entry:
    fill = f", {show(Quantity(Dimension.VOLUME, one.fill_quanta))}" if one.fill_quanta else ""
    fills = f", {one.fills} fills" if one.fills and one.fills > 1 else ""
    words = Content.assemble(
        (f"{one.for_day}  booked  ", "bold"),
        one_line(f"{name}{fill}{fills}{f' ({one.note})' if one.note else ''}"),
        (f"  {one.code}", "dim"),
    )
    return Entry(key=one.code, words=words, does="do it: the form opens filled in")


def _done(one: DoneForJob, name: str) -> Entry:
    words = Content.assemble(
        f"{one.day}  {one.by:<6}  ",
        one_line(f"{name}{f' ({one.reason})' if one.reason else ''}"),
        (f"  {one.code}", "dim"),
    )
    below = tuple(Content(f"! not fit: {one_line(lot)}") for lot in one.not_fit)
    return Entry(key=one.code, words=words, below=below, does="put it right, bring some back, or undo it")
