"""Ask for a code: typed, or sent by a hand scanner that ends with Enter."""

from __future__ import annotations

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, Static

from stockroom.domain.codes import read_code
from stockroom.errors import NotFound, StockroomError
from stockroom.store.jobs import find_booking, find_job
from stockroom.store.labels import find_card
from stockroom.store.lots import find_lot
from stockroom.store.open import Store
from stockroom.store.orders import find_order
from stockroom.store.quotes import find_quote
from stockroom.tui.questions.question import Question
from stockroom.tui.widgets.as_it_stands import TypedInput
from stockroom.tui.words import on_screen


class AskCode(Question[str]):
    """Answers with a code that this stockroom knows; a mistyped character is told at once."""

    def __init__(self, begun: str = "") -> None:
        super().__init__("Which code?")
        self._begun = begun

    def body(self) -> ComposeResult:
        yield Static(
            Content("Scan a label, or type a code: of a lot, a job, a booking, an order, a quote or a bench card."),
            classes="body",
        )
        yield TypedInput(self._begun, placeholder="L001W", select_on_focus=False, compact=True)
        yield Static("", classes="wrong")

    @on(Input.Changed)
    def forget_what_was_wrong(self) -> None:
        self.query_one(".wrong", Static).update("")

    @on(Input.Submitted)
    def find(self, event: Input.Submitted) -> None:
        self.look_up(event.value)

    @work(exclusive=True, group="code")
    async def look_up(self, typed: str) -> None:
        try:
            self.dismiss(await self.app.database.run(lambda store: known_code(store, typed)))
        except StockroomError as error:
            self.query_one(".wrong", Static).update(Content(f"! {on_screen(error.message)}"))


def known_code(store: Store, typed: str) -> str:
    """Return the code of a lot, job, booking, order, quote or card as it is stored. Raises Unreadable, NotFound."""
    code = read_code(typed)
    match code.prefix:
        case "L":
            return find_lot(store, code.text).code
        case "J":
            return find_job(store, code.text).code
        case "K":
            return find_booking(store, code.text).code
        case "P":
            return find_order(store, code.text).code
        case "E":
            return find_quote(store, code.text).code
        case "T":
            return find_card(store, code.text).code
        case _:
            raise NotFound(
                f"{code.text} is a good code, but not of a lot, job, booking, order, quote or card: there is nothing "
                "to open."
            )
