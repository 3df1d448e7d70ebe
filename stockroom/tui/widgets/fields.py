"""The fields of a form: which are asked, what was answered, and how a choice or a scanned lot gets into them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from textual import getters, on, work
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Input

from stockroom.domain.codes import read_code
from stockroom.errors import StockroomError
from stockroom.store.open import Store
from stockroom.tui.app import StockroomApp
from stockroom.tui.forms import find_form
from stockroom.tui.forms.fields import split
from stockroom.tui.forms.form import Answers, Asked, Asks, asked_now
from stockroom.tui.questions.choice import Choose
from stockroom.tui.questions.offer import Offer
from stockroom.tui.widgets.chosen import Chosen
from stockroom.tui.widgets.line import Line


class Fields(VerticalScroll, can_focus=False):
    """One line for each field; what is rarely wanted is asked only where it is wanted."""

    app = getters.app(StockroomApp)

    def __init__(self, form: Asks) -> None:
        super().__init__(id="fields")
        self._form = form
        self.lines = {asked.key: Line(asked) for asked in form.fields}
        first = {one.key for one in asked_now(form, {}) if not one.rare}
        for key, line in self.lines.items():
            line.display = key in first
        self.beside: dict[str, str] = {}
        """Answers that no field holds, such as the booking that is done."""
        self._all = False
        """Whether what is rarely wanted is asked too."""
        self.asked_for: frozenset[str] = frozenset()
        """What is rarely wanted and is wanted now, by what stands in the way of the plan."""
        self._begun: str | None = None
        """What was typed since a choice was asked for."""

    def compose(self) -> ComposeResult:
        yield from self.lines.values()

    def _given(self) -> dict[str, str]:
        return self.beside | {key: line.answer for key, line in self.lines.items() if line.answer}

    def answers(self, *, in_words: bool = False) -> dict[str, str]:
        """Return what was answered, choices by their keys or in words; fields that are not asked do not count."""
        lines, given = self.lines, self._given()
        asked = {one.key for one in asked_now(self._form, given)}
        kept = {key: answer for key, answer in given.items() if key in asked or key in self.beside}
        return {key: lines[key].words if key in lines else answer for key, answer in kept.items()} if in_words else kept

    def missing(self) -> list[Line]:
        """Return the lines that are still to be filled in."""
        return [line for line in self.lines.values() if line.display and line.asked.needed and not line.answer]

    async def put_in(self, known: Mapping[str, str]) -> bool:
        """Fill in what is known and what follows from it, choices in words; say whether it could be done."""
        local = self.app.local

        def look_up(store: Store) -> tuple[Answers, dict[str, str]]:
            told = self._form.expand(store, known, local)
            return told, {one.key: words_of(one, store, told) for one in self._form.fields if one.key in told}

        found = await self.app.ask_database(look_up)
        if found is None or not self.is_attached:
            return False
        told, words = found
        lines = self.lines
        self.beside = {key: answer for key, answer in told.items() if key not in lines}
        for key, line in lines.items():
            line.put(told.get(key), words.get(key))
        self.show_asked()
        empty = next((line for line in lines.values() if line.display and not line.answer), None)
        if known and empty is not None:
            empty.field.focus()
        return True

    def show_asked(self, *, more: bool | None = None) -> None:
        """Show the fields that are asked now; with `more`, those that are rarely wanted too, or no longer."""
        self._all = self._all if more is None else more
        asked = {one.key for one in asked_now(self._form, self._given())}
        for key, line in self.lines.items():
            wanted = self._all or key in self.asked_for or not line.asked.rare or line.answer is not None
            line.display = key in asked and wanted

    @property
    def shows_all(self) -> bool:
        return self._all

    def empty(self) -> None:
        self.beside = {}
        for line in self.lines.values():
            line.put(None)
        self.show_asked()
        next(iter(self.lines.values())).field.focus()

    @property
    def takes_lots(self) -> bool:
        """Whether there is a line for a lot that is scanned."""
        return any(line.asked.takes == "lots" or (line.asked.takes and line.display) for line in self.lines.values())

    def put_lot(self, code: str, field: Input | None = None) -> bool:
        """Put a lot that was scanned into a line for it; say whether there is one. `field` is where it was sent to."""
        several = next((line for line in self.lines.values() if line.asked.takes == "lots"), None)
        if several is not None:
            before = split(several.answer) if several.answer else ()
            own = several.field is field  # there the next one is scanned, or Enter books
            several.put(", ".join([*before, code] if code not in before else before) + (", " if own else ""))
            if own and field is not None:
                field.action_end()
            return True
        one = [line for line in self.lines.values() if line.asked.takes == "lot" and line.display]
        if one:
            # the line one is at, else the first that is empty, else the first
            self._choose_lot(sorted(one, key=lambda line: (not line.field.has_focus, line.answer is not None)), code)
        return bool(one)

    @work
    async def _choose_lot(self, lines: Sequence[Line], code: str) -> None:
        """Put a lot into the first of the lines that offers it; into the first one where none does, which tells why."""
        answers = self.answers()

        def look_up(store: Store) -> tuple[int, str]:
            for number, line in enumerate(lines):
                offers = line.asked.choose(store, answers) if line.asked.choose else ()
                if words := next((offer.words for offer in offers if offer.key == code), None):
                    return number, words
            return 0, code

        found = await self.app.ask_database(look_up)
        if found is not None:
            number, words = found
            lines[number].put(code, words)

    @on(Chosen.Ask)
    @work
    async def _ask(self, event: Chosen.Ask) -> None:
        """Ask for one of a list and hold the answer; what is typed meanwhile goes on with the search."""
        if self._begun is not None:
            self._begun += event.typed
            return
        self._begun = event.typed.lstrip()
        try:
            answer = await self._offer(self.lines[event.chosen.id or ""].asked)
        finally:
            self._begun = None
        if answer is not None:
            event.chosen.choose(answer.key, answer.words)
            self.show_asked()
            self.call_after_refresh(self.screen.focus_next)  # what is asked only now has no place before

    async def _offer(self, asked: Asked) -> Offer | None:
        answers, choose = self.answers(), asked.choose
        offers = await self.app.ask_database(lambda store: choose(store, answers) if choose else [])
        if offers is None:
            return None
        adds = find_form(asked.adds).title if asked.adds else ""
        return await self.app.push_screen_wait(
            Choose(f"{asked.words}?", offers, none=asked.none, typed=self._begun or "", adds=adds)
        )


def words_of(asked: Asked, store: Store, answers: Answers) -> str:
    """Say a choice in the words in which it is offered."""
    key = answers[asked.key]
    if asked.choose is None:
        return key
    return next((offer.words for offer in asked.choose(store, answers) if offer.key == key), key)


def scanned(typed: str, *, in_list: bool = False) -> tuple[str, str | None]:
    """Split what a hand scanner sent into a field off what stood there: the code of a lot, or None.

    A scanner sends no space before it: a code after one was written by hand, as in a reason; `in_list` where codes
    stand one after the other.
    """
    plain = typed.strip()
    for match in re.finditer(r"(?=(L[0-9A-Z]{4,})$)", plain):  # what stood there may end in an L itself: 500 mL
        if plain[: match.start()].endswith(" ") and not in_list:
            continue
        try:
            return plain[: match.start()].rstrip(), read_code(match[1]).text
        except StockroomError:
            continue
    return typed, None
