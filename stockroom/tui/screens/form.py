"""What making up and using have in common: a form, the plan that is worked out while one types, and booking it."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Sequence
from typing import ClassVar, Generic, TypeVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, Horizontal, VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Label, Static

from stockroom.actions.carrying_out import Outcome
from stockroom.actions.drawing import Choices
from stockroom.errors import StockroomError
from stockroom.store.open import Store
from stockroom.tui.booking import Act, book
from stockroom.tui.page import Page
from stockroom.tui.questions.choice import Choose, Offer
from stockroom.tui.screens.pauses import TYPING_PAUSE
from stockroom.tui.studio import working_people
from stockroom.tui.widgets.chosen import Chosen
from stockroom.tui.words import on_screen

Kind = TypeVar("Kind", bound=Outcome)


class Field(Horizontal):
    """One line of a form: what is asked, and where it is answered."""

    def __init__(self, words: str, answer: Widget, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._words, self._answer = words, answer

    def compose(self) -> ComposeResult:
        yield Label(Content(self._words))
        yield self._answer


class FormScreen(Page, Generic[Kind]):
    """Fields above (or left), the plan below (or right). Nothing is booked before it is confirmed."""

    CSS_PATH = "form.tcss"
    AUTO_FOCUS = "Chosen"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "book", "Book it …", priority=True),
        Binding("ctrl+r", "clear", "Clear the form", priority=True),
        Binding("pageup", "scroll_plan(-1)", "Plan up", show=False),
        Binding("pagedown", "scroll_plan(1)", "Plan down", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._planned = False
        self._booking = False
        self._begun: str | None = None

    def fields(self) -> ComposeResult:
        """Compose the form's lines."""
        yield from ()

    def act(self) -> Act[Kind] | None:
        """Return the action that the form describes; None while something is still to be chosen."""
        raise NotImplementedError

    def told(self, plan: Kind) -> Content:
        """Write a plan."""
        raise NotImplementedError

    def still_to_choose(self) -> str:
        """Say what the form waits for."""
        raise NotImplementedError

    def waits_for(self, plan: Kind) -> str | None:
        """Say what is measured to a reading before it can be booked."""
        raise NotImplementedError

    def question(self) -> str:
        """Ask whether to book."""
        raise NotImplementedError

    async def after(self, done: Kind) -> None:
        """Show what was booked."""

    def put_in(self, **known: str) -> None:
        """Fill in what is known already."""

    def body(self) -> ComposeResult:
        with Container(id="form"):
            with VerticalScroll(id="fields", can_focus=False):
                yield from self.fields()
                yield Field("From lots", Input(placeholder="oldest date first, or codes", compact=True, id="from"))
                yield Field("Why", Input(placeholder="only where a rule asks for a reason", compact=True, id="why"))
                yield Field("Added", Input(placeholder="what was added", compact=True, id="added"), id="f-added")
                yield Field("Reached", Input(placeholder="pH 8.2 at 21 °C", compact=True, id="reached"), id="f-reached")
            with VerticalScroll(id="plan", can_focus=False):
                yield Static("", id="plan-text")

    def typed(self, field: str) -> str | None:
        """Return what stands in a field; None where it is empty."""
        return self.query_one(f"#{field}", Input).value.strip() or None

    def choices(self) -> Choices:
        codes = (self.typed("from") or "").replace(",", " ").split()
        return Choices(lots=tuple(codes), added=self.typed("added"), reached=self.typed("reached"))

    def load(self) -> None:
        """Work the plan out again: the shelf may have changed."""
        self.plan_again()

    @on(Input.Changed)
    @on(Chosen.Changed)
    def _changed(self) -> None:
        self.plan_again(TYPING_PAUSE)

    @work(exclusive=True, group="plan")
    async def plan_again(self, pause: float = 0) -> None:
        """Show the very plan that would be booked, or what stands in its way."""
        await asyncio.sleep(pause)
        shown = self.query_one("#plan-text", Static)
        self._planned = False
        act = self.act()
        if act is None:
            shown.update(Content(self.still_to_choose()))
            return
        by, reason = self.app.by, self.typed("why")

        def run(store: Store) -> Kind:
            # who books is asked when it is booked; until then any of those who might stand for them
            occasion = self.app.occasion(by or working_people(store)[0].initials, reason)
            return act(store, occasion, dry_run=True, confirmed=None)

        try:
            plan = await self.app.database.run(run)
        except StockroomError as error:
            if not self.is_here:
                return
            shown.update(Content.assemble(("! ", "bold $text-error"), on_screen(error.message)))
            return
        if not self.is_here:
            return
        waits = self.waits_for(plan) is not None
        self.set_class(waits or self.typed("added") is not None, "-reading")
        self._planned = not waits
        shown.update(self.told(plan))

    @on(Input.Submitted)
    def _submitted(self) -> None:
        self.action_book()

    def action_scroll_plan(self, way: int) -> None:
        plan = self.query_one("#plan", VerticalScroll)
        plan.scroll_relative(y=way * max(1, plan.size.height - 2), animate=False)

    @work
    async def action_book(self) -> None:
        act = self.act()
        if act is None or self._booking:
            return
        self._booking = True
        try:
            done = await self._book(act)
        finally:
            self._booking = False
        if done is not None:
            self.action_clear()
            await self.after(done)

    async def _book(self, act: Act[Kind]) -> Kind | None:
        if "-reading" in self.classes and not (self.typed("added") and self.typed("reached")):
            self.notify("Fill in Added and Reached first: this recipe is measured to a reading.", markup=False)
            return None
        return await book(self.app, self.question(), act, self.told, reason=self.typed("why"))

    def action_clear(self) -> None:
        """Empty the form."""
        for field in self.query(Input):
            field.value = ""
        for chosen in self.query(Chosen):
            chosen.choose(None, "")
        self.remove_class("-reading")
        self.query(Chosen).first().focus()

    async def offer(
        self, chosen: Chosen, title: str, read: Callable[[Store], Sequence[Offer]], none: str, typed: str = ""
    ) -> None:
        """Ask for one of a list and hold the answer."""
        if self._begun is not None:  # asked already: what is typed meanwhile goes on with the search
            self._begun += typed
            return
        self._begun = typed
        try:
            offers = await self.app.ask_database(read)
            if offers is None:
                return
            question = Choose(title, offers, none=none, typed=self._begun)
            answer = await self.app.push_screen_wait(question)
        finally:
            self._begun = None
        if answer:
            chosen.choose(answer.key, answer.words)
            self.focus_next()
