"""Choose one of a list that typing narrows."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, OptionList, Static

from stockroom.store.fold import fold, holds, words_to_find
from stockroom.tui.questions.offer import Offer
from stockroom.tui.questions.question import Question
from stockroom.tui.texts import one_line
from stockroom.tui.widgets.narrowing import NarrowingInput


class Choose(Question[Offer]):
    """Typing narrows by every word; arrows move; Enter takes what is marked."""

    MOST = 200

    def __init__(self, title: str, offers: Sequence[Offer], *, none: str, typed: str = "", adds: str = "") -> None:
        """`adds` is the title of the form that adds what is not there yet."""
        super().__init__(title)
        self._offers, self._none, self._typed, self._adds = offers, none, typed, adds
        self._shown: list[Offer] = []

    def body(self) -> ComposeResult:
        yield NarrowingInput(self._typed, placeholder="type to narrow", select_on_focus=False, compact=True)
        yield OptionList(markup=False)
        yield Static("", classes="keys")

    def on_mount(self) -> None:
        self.query_one(OptionList).can_focus = False
        self.narrow()

    @on(Input.Changed)
    def narrow(self) -> None:
        words = words_to_find(self.query_one(Input).value)
        found = [one for one in self._offers if holds(fold(f"{one.words} {one.detail}"), words)]
        self._shown = found[: self.MOST]
        shown = self.query_one(OptionList)
        shown.clear_options()
        shown.add_options([_line(one) for one in self._shown])
        if self._shown:
            shown.highlighted = 0
        self.query_one(".keys", Static).update(Content(self._count(len(found))))
        self.call_after_refresh(self.refresh)  # where it has become smaller, its old edge would be left beneath it

    def _count(self, found: int) -> str:
        if not self._offers:
            return self._none
        if not found:
            add = f" Or add it: Esc, then Ctrl+F, '{self._adds}'." if self._adds else ""
            return f"Nothing has these words. Take some back.{add}"
        if found > self.MOST:
            return f"{self.MOST} of {found}: type to narrow."
        return f"{found} of {len(self._offers)}. Arrows move, Enter takes it, Esc goes back."

    @on(NarrowingInput.Move)
    def move(self, event: NarrowingInput.Move) -> None:
        getattr(self.query_one(OptionList), f"action_{event.way}")()

    @on(Input.Submitted)
    def take(self) -> None:
        marked = self.query_one(OptionList).highlighted
        if marked is not None and self._shown:
            self.dismiss(self._shown[marked])

    @on(OptionList.OptionSelected)
    def take_clicked(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(self._shown[event.option_index])


def _line(offer: Offer) -> Content:
    if not offer.detail:
        return Content(one_line(offer.words))
    return Content.assemble(one_line(offer.words), "  ", (one_line(offer.detail), "dim"))
