"""The materials statement of a job as it will be handed over, to be read and saved."""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.actions.statement import statement
from stockroom.actions.statement_paper import statement_paper
from stockroom.domain.papers import Paper
from stockroom.store.open import Store
from stockroom.tui.files import hand_over
from stockroom.tui.page import Page
from stockroom.tui.pictures.paper import draw_paper
from stockroom.tui.widgets.as_it_stands import PrintedPaper


class StatementScreen(Page):
    """What was used on a job, as it was used."""

    CSS_PATH = "statement.tcss"
    HELP = """
What was used on this job, for the treatment record: solutions with their strength as used,
materials with their lots, by whom and when. P saves it as PDF, M as Markdown to be pasted
into a report.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("p", "save('.pdf')", "Save as PDF"),
        Binding("m", "save('.md')", "Save as Markdown"),
    ]

    def __init__(self, job: str) -> None:
        super().__init__()
        self.job = job

    def body(self) -> ComposeResult:
        yield Static(Content(f"{self.job}   materials statement"), classes="heading")
        with VerticalScroll(id="paper"):
            yield PrintedPaper(id="statement")

    def paper(self, store: Store) -> Paper:
        """Draw the statement up as of today."""
        return statement_paper(statement(store, self.job, self.app.local.date()))

    def load(self) -> None:
        self._load()

    @work(exclusive=True, group="load")
    async def _load(self) -> None:
        paper = await self.fetch(self.paper)
        if paper is not None:
            self.query_one("#statement", PrintedPaper).show(lambda wide, _: draw_paper(paper, wide))

    @work
    async def action_save(self, suffix: str) -> None:
        def write(store: Store, path: Path) -> Path:
            from stockroom.actions.papers import write_paper

            return write_paper(self.paper(store), path)

        await hand_over(self.app, f"statement-{self.job}{suffix}", write)
