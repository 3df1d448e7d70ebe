"""A form on screen, whichever it is: the plan is worked out while one types, and booked once it is confirmed."""

from __future__ import annotations

import asyncio
import re
from typing import ClassVar, Generic, TypeVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static, TextArea

from stockroom.actions.carrying_out import Outcome
from stockroom.domain.occasion import Occasion
from stockroom.errors import StockroomError
from stockroom.store.open import Store
from stockroom.tui.booking import book_form, moment_of
from stockroom.tui.drafts import Draft
from stockroom.tui.forms.form import Answers, Form, Lack, Worked, work_out
from stockroom.tui.forms.worked_text import told_of
from stockroom.tui.next_step import show_booked
from stockroom.tui.page import SIDE_BY_SIDE, Page
from stockroom.tui.ringing import forget_draft
from stockroom.tui.screens.pauses import TYPING_PAUSE
from stockroom.tui.studio import working_people
from stockroom.tui.widgets.chosen import Chosen
from stockroom.tui.widgets.fields import Fields, scanned
from stockroom.tui.widgets.keys import Active, named
from stockroom.tui.widgets.told import Told
from stockroom.tui.words import on_screen

Kind = TypeVar("Kind", bound=Outcome)
_ASKED_FOR = "--(?!from|took)([a-z-]+)"
"""An answer that a message names; those left out are only a way out."""


class FormScreen(Page, Generic[Kind]):
    """Fields above (or left), the plan below (or right). Nothing is booked before it is confirmed."""

    CSS_PATH = "form.tcss"
    HORIZONTAL_BREAKPOINTS = SIDE_BY_SIDE
    AUTO_FOCUS = "Chosen, Input, TextArea"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "book", "Book it", priority=True),
        Binding("ctrl+n", "steps", "Steps", priority=True),
        Binding("ctrl+t", "tray", "Work out from a tray and a depth", priority=True, show=False),
        Binding("ctrl+b", "card", "Card", priority=True, tooltip="Bench card of it as PDF, with boxes to fill in"),
        Binding("ctrl+l", "more", "More", priority=True, tooltip="Fields that are rarely wanted"),
        Binding("ctrl+r", "clear", "Clear the form", priority=True, show=False),
        Binding("pageup", "scroll_plan(-1)", "Plan up", show=False),
        Binding("pagedown", "scroll_plan(1)", "Plan down", show=False),
    ]

    def __init__(self, form: Form[Kind], known: Answers | None = None, *, area: str = "") -> None:
        """Show a form with what is known of its answers; `area` where it is an area of work of its own."""
        super().__init__()
        self.form, self.area, self.explained = form, area, form.help
        self.known: dict[str, str] = dict(known or {})
        self._fields = Fields(form)
        self._heading = Static(Content(form.title), classes="heading")
        self._booking = self._ready = False
        self._lack: Lack | None = None
        """What only the plan asks for, and is not answered."""
        self._as_opened: dict[str, str] | None = None
        """What stood in it when it was opened; None where that was a draft."""

    def body(self) -> ComposeResult:
        yield self._heading
        if self.form.caution:
            yield Static(Content(f"! {self.form.caution}"), classes="caution")
        with Container(id="form"):
            yield self._fields
            with VerticalScroll(id="plan", can_focus=False):
                yield Told(id="plan-text")

    def on_mount(self) -> None:
        self._begin()

    @work
    async def _begin(self) -> None:
        """Take up what was left here unbooked, else what is known."""
        kept = await self.app.database.run(lambda store: self.app.drafts.read(self.form.name, self.known))
        if await self._fields.put_in(dict(kept.answers) if kept else self.known):
            self._ready = True
            self._as_opened = None if kept else self.answers()
            self._head(kept)
            self.plan_again()
            if kept and kept.progress and self.app.screen is self:
                self.action_steps()

    def _head(self, left: Draft | None = None) -> None:
        """Say what the form is for, and of one that was left unfinished that it is."""
        told = f"   as you left it {left.at.replace('T', ', ')}; Ctrl+R clears it" if left and left.begun else ""
        self._heading.update(Content.assemble(self.form.title, (told, "not bold $text-accent")))

    def answers(self) -> dict[str, str]:
        """Return what was answered; of a choice, the key."""
        return self._fields.answers()

    def put_lot(self, code: str) -> bool:
        """Put a lot that was scanned into the line for it; say whether there is one."""
        return self._fields.put_lot(code)

    def load(self) -> None:
        """Work the plan out again: the shelf may have changed."""
        if self._ready:
            self.plan_again()

    @on(Input.Changed)
    @on(Chosen.Changed)
    @on(TextArea.Changed)
    def _changed(self) -> None:
        self._fields.show_asked()
        if self._ready:
            self._keep()
            self.plan_again(TYPING_PAUSE)

    @work(group="keep")
    async def _keep(self) -> None:
        """Keep what stands in the form at once: whoever closes the window now finds it again."""
        answers, known = self.answers(), self.known
        kept, words = known if answers == self._as_opened else answers, self._fields.answers(in_words=True)
        await self.app.database.run(lambda store: self.app.drafts.keep(self.form.name, known, kept, words))

    @work(exclusive=True, group="plan")
    async def plan_again(self, pause: float = 0) -> None:
        """Show the very plan that would be booked, or what stands in its way; keep what was typed."""
        await asyncio.sleep(pause)
        answers, by = self.answers(), self.app.by

        def run(store: Store) -> Worked[Kind]:
            return work_out(self.form, store, self._occasion(store, answers, by), answers)

        try:
            worked = await self.app.database.run(run)
        except StockroomError as error:
            worked = Worked(trouble=error.message)
        if self.is_here:
            self._tell(worked)

    def _occasion(self, store: Store, answers: Answers, by: str | None) -> Occasion:
        """Say who, when and why; until who books is asked, any of those who might stand for them."""
        who = by or working_people(store)[0].initials
        return self.app.occasion(who, answers.get("why"), moment_of(self.app, answers.get("day")))

    def _tell(self, worked: Worked[Kind]) -> None:
        fields = self._fields
        for key, line in fields.lines.items():
            line.tell(worked.wrong.get(key))
        if worked.plan is not None:
            waits = self.form.waits(worked.plan) is not None or "added" in self.answers()
            fields.beside.pop("waits", None)
            fields.beside |= {"waits": "yes"} if waits else {}
            self._lack = self.form.lacks(worked.plan, self.answers())
            if self._lack:
                fields.lines[self._lack.key].tell(self._lack.words)
        asked_for = re.findall(_ASKED_FOR, worked.trouble or "")
        fields.asked_for = frozenset(name.replace("-", "_") for name in asked_for)
        fields.show_asked()
        called = {key: line.asked.words for key, line in fields.lines.items()}
        self.query_one("#plan-text", Told).tell(told_of(self.form, worked, called, self.app.studio.currency))

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        typed, code = scanned(event.value, in_list=event.input.id == "from")
        if code is not None and self._fields.takes_lots:
            event.input.value = typed
            self._fields.put_lot(code, event.input)
        else:
            self.action_book()

    def action_more(self) -> None:
        """Ask for what is rarely wanted too, or no longer."""
        self._fields.show_asked(more=not self._fields.shows_all)

    def action_scroll_plan(self, way: int) -> None:
        plan = self.query_one("#plan", VerticalScroll)
        plan.scroll_relative(y=way * max(1, plan.size.height - 2), animate=False)

    @work
    async def action_book(self) -> None:
        if not self._booking:
            self._booking = True
            try:
                await self._book()
            finally:
                self._booking = False

    async def _book(self) -> None:
        answers = self.answers()
        if self._told_of_missing():
            return
        if "waits" in answers and not ("added" in answers and "reached" in answers):
            self.notify("Fill in Added and Reached first: this recipe is measured to a reading.", markup=False)
            return
        done = await book_form(self.app, self.form, answers, self._fields.answers(in_words=True), self.known)
        if done is not None:
            self.booked(done)

    def booked(self, done: Kind) -> None:
        """Forget the draft, show what was booked, and go back to where the form was opened from."""
        forget_draft(self.app, self.form.name, self.known)
        # the application shows it: this screen may be gone by then, and its workers with it
        self.app.run_worker(show_booked(self.app, self.form, done))
        if self.area:
            self._fields.empty()
            self._head()
        else:
            self.dismiss()

    def action_clear(self) -> None:
        """Leave in the form only what it was opened with; what was kept of it goes too."""
        forget_draft(self.app, self.form.name, self.known)
        self._fields.empty()
        self._head()
        if self.known:
            self._begin()

    @property
    def active_bindings(self) -> Active:
        return named(super().active_bindings, "book", f"{self.form.verb} it")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer only what the form has."""
        if action in ("steps", "card"):
            return self.form.steps
        if action == "tray":
            return any(asked.in_tray for asked in self.form.fields)
        if action == "more":
            return any(asked.rare for asked in self.form.fields)
        return super().check_action(action, parameters)

    def action_steps(self) -> None:
        """Go through the steps of the plan one by one."""
        from stockroom.tui.screens.procedure import ProcedureScreen

        if self._told_of_missing():
            return
        words = self._fields.answers(in_words=True)
        procedure = ProcedureScreen(self.form, self.answers(), words, self.known)
        self.app.push_screen(procedure, lambda _: self._stepped(procedure.done))

    def _stepped(self, done: Kind | None) -> None:
        if done is not None:
            self.booked(done)

    def _told_of_missing(self) -> bool:
        """Tell what is still to be filled in, and go there; say whether anything is."""
        missing = self._fields.missing()
        lacking = self._fields.lines.get(self._lack.key) if self._lack else None
        if lacking and lacking.answer is None:
            missing.append(lacking)
        if missing:
            missing[0].field.focus()
            self.notify(f"Still to fill in: {', '.join(line.asked.words for line in missing)}.", markup=False)
        return bool(missing)

    @work
    async def action_card(self) -> None:
        """Hand over a bench card of the recipe for the amount that is filled in; nothing is booked by it."""
        from stockroom.tui.codes import hand_over_card

        answers = self.answers()
        if "recipe" in answers:
            await hand_over_card(self.app, answers["recipe"], answers.get("amount") or answers.get("fill"))
        else:
            self.notify("Choose first what the card is of.", markup=False)

    @work
    async def action_tray(self) -> None:
        """Say by a tray and a depth how much it is, or that it is as much as can be made from what is here."""
        from stockroom.tui.questions.tray import MOST, ask_tray

        line = next(line for line in self._fields.lines.values() if line.asked.in_tray)
        by_name = line.asked.in_tray == "tray and depth"
        answer = await ask_tray(self.app, by_name=by_name, most=self.form.most is not None)
        if answer == MOST:
            answer = await self._most()
        if answer is not None:
            line.put(answer)
            line.field.focus()

    async def _most(self) -> str | None:
        """Find as much as can be made from what is here, and say what ends it."""
        most, answers, by = self.form.most, self.answers(), self.app.by

        def run(store: Store) -> tuple[str, str] | None:
            return most(store, self._occasion(store, answers, by), answers) if most else None

        found = await self.app.ask_database(run)
        if found is None:
            return None
        self.notify(on_screen(found[1]), title=f"{found[0]} is the most that can be made", markup=False)
        return found[0]
