"""One quote's page: the sheet as the client sees it, every price behind it, and what was used since."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.actions.quote_papers import quote_paper, show_range
from stockroom.domain.papers import Paper
from stockroom.domain.quotes import Quote
from stockroom.store.open import Store
from stockroom.store.quotes import find_quote
from stockroom.tui.files import hand_over
from stockroom.tui.page import Page
from stockroom.tui.pictures.paper import draw_paper
from stockroom.tui.screens.listing import Entry
from stockroom.tui.widgets.as_it_stands import PrintedPaper

CLIENT, PRICES, COMPARED = "as the client sees it", "with every price", "against what was used"


class QuoteScreen(Page):
    """One quote."""

    CSS_PATH = "statement.tcss"
    HELP = """
One quote, first as the client sees it. V shows every price behind it and where it is from, C
compares it with what was used so far: line by line, each difference with its reason. What is
shown is what P saves as PDF, or M as Markdown. Nothing is sent by the program.

A marks it as accepted: the job's final sheet is then compared with it. X takes it back.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("a", "form('accept-quote')", "Accept"),
        Binding("x", "form('withdraw-quote')", "Take back"),
        Binding("v", "see('with every price')", "Prices"),
        Binding("c", "see('against what was used')", "Compare"),
        Binding("p", "save('.pdf')", "PDF", tooltip="Save what is shown as PDF"),
        Binding("m", "save('.md')", "Save as Markdown", show=False),
    ]
    _WHEN: ClassVar[dict[str, tuple[str, ...]]] = {
        "accept-quote": ("given", "replaced"),
        "withdraw-quote": ("given", "accepted", "replaced"),
    }

    def __init__(self, code: str) -> None:
        super().__init__()
        self.code, self._seen_as = code, CLIENT
        self._quote: Quote | None = None

    def body(self) -> ComposeResult:
        yield Static(Content(self.code), id="count", classes="heading")
        with VerticalScroll(id="paper"):
            yield PrintedPaper(id="statement")

    def paper(self, store: Store) -> Paper:
        """Draw up what is shown of it. Raises NotFound."""
        self._quote = quote = find_quote(store, self.code)
        if self._seen_as == COMPARED:
            from stockroom.actions.costing import costing
            from stockroom.actions.final_papers import comparison_paper

            found = costing(store, quote.job.code, self.app.local, with_waste=quote.waste is not None)
            return comparison_paper(store, quote, found)
        return quote_paper(store, replace(quote, shows="prices") if self._seen_as == PRICES else quote)

    def load(self) -> None:
        self._load()

    @work(exclusive=True, group="load")
    async def _load(self) -> None:
        paper = await self.fetch(self.paper)
        if paper is not None and self._quote is not None:
            state = state_words(self._quote, self.app.local.date())
            self.query_one("#count", Static).update(Content(f"{self.code}   {state}   {self._seen_as}"))
            self.query_one("#statement", PrintedPaper).show(lambda wide, _: draw_paper(paper, wide))
            self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "form":
            return self._quote is not None and self._quote.state in self._WHEN[str(parameters[0])]
        return super().check_action(action, parameters)

    def action_form(self, name: str) -> None:
        self.app.open_form(name, quote=self.code)

    def action_see(self, what: str) -> None:
        """Show it so, or again as the client sees it."""
        self._seen_as = CLIENT if self._seen_as == what else what
        self.query_one("#paper", VerticalScroll).scroll_home(animate=False)
        self.load()

    @work
    async def action_save(self, suffix: str) -> None:
        def write(store: Store, path: Path) -> Path:
            from stockroom.actions.papers import write_paper

            return write_paper(self.paper(store), path)

        what = {COMPARED: "-compared", PRICES: "-prices"}.get(self._seen_as, "")
        await hand_over(self.app, f"quote-{self.code}{what}{suffix}", write)


def state_words(quote: Quote, today: date) -> str:
    """Say how a quote stands, in a word or two."""
    if quote.state == "accepted":
        return f"accepted on {quote.accepted_on}"
    if quote.state != "given":
        return quote.state
    late = today.isoformat() > quote.valid_until
    return f"! given, held until {quote.valid_until}" if late else f"given, holds until {quote.valid_until}"


def quote_entry(quote: Quote, currency: str, today: date) -> Entry:
    """Write a quote as a line of its job's page."""
    least = "" if quote.complete else "at least "
    words = Content.assemble(
        (f"{quote.day}  quote   ", "bold"),
        f"{least}{show_range(quote.whole(currency), currency)}, {state_words(quote, today)}",
        (f"  {quote.code}", "dim"),
    )
    return Entry(key=quote.code, words=words, does="the quote: as a sheet, accepted, compared with what was used")
