"""Papers: the list of what can be had on paper, and each of them, read on screen before it is handed over."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path, PurePath
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static

from stockroom.domain.papers import Paper
from stockroom.errors import StockroomError
from stockroom.store.open import Store
from stockroom.tui.app import StockroomApp
from stockroom.tui.files import hand_over
from stockroom.tui.forms.form import Answers, read_answers, wrong_answer
from stockroom.tui.page import Page
from stockroom.tui.papers import PAPERS, find_paper
from stockroom.tui.papers.asked import TODAY, AskedPaper
from stockroom.tui.pictures.paper import draw_paper
from stockroom.tui.screens.listing import Entry, ListingPage
from stockroom.tui.screens.pauses import TYPING_PAUSE
from stockroom.tui.widgets.as_it_stands import PrintedPaper
from stockroom.tui.widgets.chosen import Chosen
from stockroom.tui.widgets.fields import Fields
from stockroom.tui.words import on_screen


def open_paper(app: StockroomApp, name: str, **known: str) -> None:
    """Open a paper with what is known filled in; Escape leads back."""
    app.push_screen(PaperScreen(find_paper(name), known))


class PapersScreen(ListingPage):
    """What can be had on paper."""

    HELP = """
What can be hung up, signed or handed over: each is read here first, as it will be printed, and
saved as PDF, text or Markdown. Enter opens the marked one. Quotes are on a job's page, orders
under F9, labels and bench cards where things are made.
"""

    def read(self, store: Store) -> Sequence[Entry]:
        papers = [find_paper(name) for name in PAPERS]
        width = max(len(one.title) for one in papers)
        return [
            Entry(
                key=one.name,
                words=Content.assemble((one.title.ljust(width), "bold"), f"  {one.use}"),
                does="read it, and save it",
            )
            for one in papers
        ]

    def heading(self) -> str:
        return "Papers: to hang up, to sign, to hand over"

    def go_on(self, key: str) -> None:
        open_paper(self.app, key)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What became of the answers: a paper, or what is in its way."""

    paper: Paper | None = None
    wrong: Mapping[str, str] = field(default_factory=dict)
    """What is wrong, by field."""
    trouble: str = ""
    """What is wrong with all of it together, or what is missing."""


def draw_up(asked: AskedPaper, store: Store, answers: Answers, local: datetime) -> Drawn:
    """Read every field, and draw the paper up where all of them can be read."""
    wrong, missing = read_answers(asked, store, answers)
    if wrong:
        return _look_again(asked, wrong)
    if missing:
        return Drawn(trouble=f"Still to fill in: {', '.join(missing)}. The paper appears here while you type.")
    try:
        return Drawn(paper=asked.draw(store, answers, local))
    except StockroomError as error:
        beside = wrong_answer(asked, answers, error)
        return _look_again(asked, beside) if beside else Drawn(trouble=f"! {on_screen(error.message)}")


def _look_again(asked: AskedPaper, wrong: Mapping[str, str]) -> Drawn:
    named = ", ".join(one.words for one in asked.fields if one.key in wrong)
    return Drawn(wrong=wrong, trouble=f"! Look again at: {named}.")


class PaperScreen(Page):
    """Fields above, the paper below, drawn up anew while one types."""

    CSS_PATH: ClassVar[list[str | PurePath]] = ["form.tcss", "papers.tcss"]
    AUTO_FOCUS = "Chosen, Input"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "save('.pdf')", "Save as PDF", priority=True),
        Binding("ctrl+t", "other_form", "As text", priority=True, tooltip="Save as text, Markdown or a table"),
        Binding("ctrl+r", "clear", "Clear the fields", priority=True, show=False),
        Binding("pageup", "scroll_paper(-1)", "Paper up", priority=True, show=False),
        Binding("pagedown", "scroll_paper(1)", "Down", priority=True, key_display="PgDn"),
    ]

    def __init__(self, asked: AskedPaper, known: Mapping[str, str]) -> None:
        super().__init__()
        self.asked, self.known, self.explained = asked, dict(known), asked.help
        self._fields = Fields(asked)
        self._paper: Paper | None = None
        self._ready = False

    def body(self) -> ComposeResult:
        yield Static(Content(f"{self.asked.title}: {self.asked.use}"), classes="heading")
        yield self._fields
        with VerticalScroll(id="paper", can_focus=False):
            yield PrintedPaper(id="paper-text")

    def on_mount(self) -> None:
        self._begin()

    @work
    async def _begin(self) -> None:
        if await self._fields.put_in(self.known):
            self._ready = True
            self.draw_again()

    def load(self) -> None:
        if self._ready:
            self.draw_again()

    @on(Input.Changed)
    @on(Chosen.Changed)
    def _changed(self) -> None:
        self._fields.show_asked()
        if self._ready:
            self.draw_again(TYPING_PAUSE)

    def answers(self) -> dict[str, str]:
        """Return what was answered, and what day it is."""
        return {**self._fields.answers(), TODAY: self.app.local.date().isoformat()}

    @work(exclusive=True, group="plan")
    async def draw_again(self, pause: float = 0) -> None:
        """Show the paper as it would be saved, or what stands in its way."""
        await asyncio.sleep(pause)
        answers, local = self.answers(), self.app.local
        drawn = await self.fetch(lambda store: draw_up(self.asked, store, answers, local))
        if drawn is None:
            return
        self._paper = drawn.paper
        for key, line in self._fields.lines.items():
            line.tell(drawn.wrong.get(key))
        self.query_one("#paper-text", PrintedPaper).show(
            lambda wide, _: draw_paper(drawn.paper, wide) if drawn.paper else Content(drawn.trouble)
        )

    def action_scroll_paper(self, way: int) -> None:
        paper = self.query_one("#paper", VerticalScroll)
        paper.scroll_relative(y=way * max(1, paper.size.height - 2), animate=False)

    def action_clear(self) -> None:
        self._fields.empty()

    @work
    async def action_other_form(self) -> None:
        """Ask in which form it is wanted, and save it so."""
        from stockroom.tui.questions.choice import Choose
        from stockroom.tui.questions.offer import Offer

        offers = [
            Offer(key=".txt", words="Text", detail="plain, to be read anywhere"),
            Offer(key=".md", words="Markdown", detail="to be pasted into a report"),
        ]
        if self._paper is not None and self._paper.records:
            offers.append(Offer(key=".csv", words="Table", detail="CSV, for a spreadsheet"))
        answer = await self.app.push_screen_wait(Choose("Save it as what?", offers, none=""))
        if answer is not None:
            await self._save(answer.key)

    @work
    async def action_save(self, suffix: str) -> None:
        await self._save(suffix)

    async def _save(self, suffix: str) -> None:
        """Draw it up once more from what stands in the fields now, and hand it over."""
        answers, local = self.answers(), self.app.local
        drawn = await self.fetch(lambda store: draw_up(self.asked, store, answers, local))
        if drawn is None:
            return
        paper = drawn.paper
        if paper is None:
            self.notify(drawn.trouble.removeprefix("! "), severity="warning", markup=False)
            return

        def write(store: Store, path: Path) -> Path:
            from stockroom.actions.papers import write_paper

            return write_paper(paper, path)

        await hand_over(self.app, f"{self.asked.stem(answers)}{suffix}", write)
