"""A round of counting through one place: scan, say what is there, and book the differences once."""

from __future__ import annotations

from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static

from stockroom.actions.stock_taking import Seen, StockTake, confirm_round, drop_round, go_round
from stockroom.domain.occasion import Occasion
from stockroom.errors import StockroomError
from stockroom.science.money import show_money
from stockroom.science.quantities import show
from stockroom.store.open import Store
from stockroom.tui.booking import book, who_books
from stockroom.tui.next_step import show_result
from stockroom.tui.page import Page
from stockroom.tui.texts import one_line
from stockroom.tui.widgets.as_it_stands import TypedInput
from stockroom.tui.widgets.told import Told
from stockroom.tui.words import on_screen


class RoundScreen(Page):
    """What was seen, what was not, and a line to scan into."""

    CSS_PATH = "round.tcss"
    AUTO_FOCUS = "Input"
    HELP = """
Scan a label, or type its code, then what is there: L001W 250 mL. A code alone means that
there is as much as the books say. Nothing is booked before Ctrl+S: leave and come back as
you like. What was not seen is not zero: it is to be looked for. Ctrl+B hides what the books
say while you count.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "book", "Book it", priority=True),
        Binding("ctrl+b", "hide", "Hide the books", priority=True),
        Binding("ctrl+x", "drop", "Drop the round", priority=True),
        Binding("pageup", "scroll(-1)", "Up", show=False),
        Binding("pagedown", "scroll(1)", "Down", show=False),
    ]

    def __init__(self, place: str) -> None:
        super().__init__()
        self._place = place
        self._round: StockTake | None = None
        self._hidden = False

    def body(self) -> ComposeResult:
        yield Static(Content(one_line(f"Round through {self._place}")), classes="heading")
        yield TypedInput(placeholder="scan, or type a code and what is there: L001W 250 mL", compact=True, id="seen")
        yield Static("", id="wrong", classes="caution")
        with VerticalScroll(id="lines", can_focus=False):
            yield Told(id="told")

    def load(self) -> None:
        self._see()

    @work(group="see")
    async def _see(self, typed: str | None = None) -> None:
        """Note what was seen; without anything typed, only show how the round stands."""
        by = await who_books(self.app)
        if by is None:
            return
        occasion = self.app.occasion(by)
        code, _, amount = (typed or "").strip().partition(" ")
        seen = [f"{code}={amount.strip()}" if amount.strip() else code] if code else []
        wrong = self.query_one("#wrong", Static)
        try:
            self._round = await self.app.database.run(lambda store: go_round(store, occasion, self._place, seen))
        except StockroomError as error:
            if self.is_here:
                wrong.update(Content(f"! {on_screen(error.message)}"))
            return
        if self.is_here:
            wrong.update("")
            if typed is not None:
                self.query_one("#seen", Input).value = ""
            self._show()

    def _show(self) -> None:
        if self._round:
            told = round_text(self._round, self.app.studio.currency, hidden=self._hidden)
            self.query_one("#told", Told).tell(told)

    @on(Input.Changed)
    def _typed(self) -> None:
        self.query_one("#wrong", Static).update("")

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        if event.value.strip():
            self._see(event.value)

    def action_hide(self) -> None:
        self._hidden = not self._hidden
        self._show()

    def action_scroll(self, way: int) -> None:
        lines = self.query_one("#lines", VerticalScroll)
        lines.scroll_relative(y=way * max(1, lines.size.height - 2), animate=False)

    @work
    async def action_book(self) -> None:
        def act(store: Store, occasion: Occasion, *, dry_run: bool, confirmed: StockTake | None) -> StockTake:
            return confirm_round(store, occasion, self._place, dry_run=dry_run, confirmed=confirmed)

        currency = self.app.studio.currency
        done = await book(
            self.app, f"Book the round through {self._place}?", act, lambda plan: round_text(plan, currency)
        )
        if done:
            told = round_text(done, currency)
            self.app.run_worker(show_result(self.app, f"Counted: {self._place}", told, action=done.action))
            self.dismiss()

    @work
    async def action_drop(self) -> None:
        from stockroom.tui.questions.choice import Choose
        from stockroom.tui.questions.offer import Offer

        offers = [Offer(key="", words="Go on counting"), Offer(key="drop", words="Drop it", detail="nothing is booked")]
        answer = await self.app.push_screen_wait(Choose("Drop what was seen in this round?", offers, none=""))
        if answer is None or not answer.key:
            return
        dropped = await self.app.ask_database(lambda store: drop_round(store, self._place))
        if dropped is not None:
            self.dismiss()


def round_text(page: StockTake, currency: str, *, hidden: bool = False) -> Content:
    """Write how a round stands: what was seen with its difference, then what is still to be looked for."""
    lines = [Content.styled(f"Seen: {len(page.seen)}", "bold")]
    lines += [_seen(one, hidden) for one in page.seen]
    if page.value:
        lines.append(Content(f"  differences are worth {show_money(page.value, currency)}"))
    lines.append(Content.styled(f"\nNot seen yet, to be looked for: {len(page.not_seen)}", "bold"))
    lines += [
        Content.assemble(
            f"  {one.code}  ", one_line(one.name), ("" if hidden else f"  the books say {show(one.books_say)}", "dim")
        )
        for one in page.not_seen
    ]
    return Content("\n").join(lines)


def _seen(one: Seen, hidden: bool) -> Content:
    if hidden:
        difference = ""
    elif not one.difference.quanta:
        difference = "as booked"
    else:
        more = one.difference.quanta > 0
        difference = f"{'+' if more else '−'} {show(one.difference if more else -one.difference)}"
    where = f"  ! {one.elsewhere}" if one.elsewhere else ""
    return Content.assemble(
        f"  {one.code}  ", one_line(one.name), f"  {show(one.counted)}  ", (difference, "bold"), where
    )
