"""Find anything by a few letters, and open it."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, OptionList, Static

from stockroom.errors import StockroomError
from stockroom.store.open import Store
from stockroom.tui.finding import Finder, Found
from stockroom.tui.questions.question import Question
from stockroom.tui.widgets.narrowing import NarrowingInput
from stockroom.tui.words import on_screen


class Find(Question[Found]):
    """Every letter asks the stockroom again; arrows move; Enter takes what is marked."""

    def __init__(self) -> None:
        super().__init__("Find")
        self._found: Sequence[Found] = ()
        self._typed = ""
        """What the list answers to."""
        self._taking = False
        self._finder: Finder | None = None

    def body(self) -> ComposeResult:
        yield NarrowingInput(
            placeholder="a few letters of a material, jar, job or thing to do; or a code", compact=True
        )
        yield OptionList(markup=False)
        yield Static("", classes="keys")

    def on_mount(self) -> None:
        self.query_one(OptionList).can_focus = False
        self.look_up()

    @on(Input.Changed)
    def _changed(self) -> None:
        self.look_up()

    @work(exclusive=True, group="find")
    async def look_up(self) -> None:
        typed, keys = self.query_one(Input).value, self.query_one(".keys", Static)
        try:
            found = await self.app.database.run(lambda store: self._find(store, typed))
        except StockroomError as error:
            keys.update(Content(f"! {on_screen(error.message)}"))
            return
        if not self.is_attached:
            return
        self._found, self._typed = found, typed
        shown = self.query_one(OptionList)
        shown.clear_options()
        shown.add_options([one.line for one in found])
        if found:
            shown.highlighted = 0
        told = (
            f"{len(found)} found. Arrows move, Enter opens, Esc goes back." if found else "Nothing has these letters."
        )
        keys.update(Content(told))
        if self._taking:
            self.take()

    def _find(self, store: Store, typed: str) -> Sequence[Found]:
        self._finder = self._finder or Finder(store)
        return self._finder.find(typed)

    @on(NarrowingInput.Move)
    def move(self, event: NarrowingInput.Move) -> None:
        getattr(self.query_one(OptionList), f"action_{event.way}")()

    @on(Input.Submitted)
    def take(self) -> None:
        """Take what is marked; what was typed faster than it was found is waited for."""
        self._taking = self._typed != self.query_one(Input).value
        marked = self.query_one(OptionList).highlighted
        if not self._taking and marked is not None and self._found:
            self.dismiss(self._found[marked])

    @on(OptionList.OptionSelected)
    def take_clicked(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(self._found[event.option_index])
