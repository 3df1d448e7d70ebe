"""The first start: no stockroom is there yet; begin one, or look at the demo."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import ClassVar

from textual import on, work
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Input, OptionList, Static

from stockroom.errors import StockroomError
from stockroom.labels.plain_text import make_visible
from stockroom.tui.themes import begin_in_own_look
from stockroom.tui.widgets.as_it_stands import TypedInput
from stockroom.tui.widgets.keys import Keys

ASKED = (
    ("initials", "Your initials", "AB"),
    ("name", "Your name", "A. Bauer"),
    ("currency", "Currency", "EUR"),
    ("time_zone", "Time zone", "Europe/Berlin"),
)
"""What a stockroom of one's own is begun with: key, words, example."""


class FirstStart(App[Path]):
    """Ends with the path of the stockroom to open; with None where nothing was begun."""

    TITLE = "Stockroom"
    CSS_PATH = ["app.tcss", "first_start.tcss"]  # noqa: RUF012 - so it is declared above
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "ways", "Back"),
        Binding("ctrl+q", "quit", "Leave"),
    ]

    def __init__(
        self,
        path: Path,
        *,
        begin: Callable[[Mapping[str, str]], Path],
        demo: Callable[[], Path],
        offered: Mapping[str, str],
    ) -> None:
        """`begin` makes a stockroom of one's own from the answers, `demo` the demo; both return its path."""
        super().__init__()
        begin_in_own_look(self)
        self._path, self._make, self._demo, self._offered = path, begin, demo, offered
        self.fault: Exception | None = None

    def compose(self) -> ComposeResult:
        with Vertical(id="first"):
            yield Static(Content("No stockroom is here yet"), classes="heading")
            yield Static(Content(make_visible(f"It will be kept in {self._path}")), classes="quiet")
            yield OptionList(
                Content.assemble(
                    ("Begin a stockroom of your own", "bold"),
                    "\n  with the starter materials and recipes, each with its source; all of it is yours to change",
                ),
                Content.assemble(
                    ("Look at the demo first", "bold"),
                    "\n  a year in an invented studio, in a file of its own",
                ),
                markup=False,
                id="ways",
            )
            with Vertical(id="answers"):
                for key, words, example in ASKED:
                    yield Static(Content(words), classes="quiet")
                    yield TypedInput(self._offered.get(key, ""), placeholder=example, compact=True, id=key)
                yield Static(
                    Content("Currency and time zone are fixed afterwards. Enter begins the stockroom."), classes="quiet"
                )
            yield Static("", id="wrong", classes="caution")
        yield Keys()

    def on_mount(self) -> None:
        self.query_one("#answers").display = False
        self.query_one("#ways", OptionList).focus()

    @on(OptionList.OptionSelected)
    def _chosen(self, event: OptionList.OptionSelected) -> None:
        if event.option_index == 1:
            self._work(self._demo, "Building the demo: a year is booked, which takes a moment …")
        else:
            self.query_one("#ways").display = False
            self.query_one("#answers").display = True
            self.query_one(f"#{ASKED[0][0]}", Input).focus()

    @on(Input.Submitted)
    def _submitted(self) -> None:
        answers = {key: self.query_one(f"#{key}", Input).value.strip() for key, _, _ in ASKED}
        if not answers["initials"]:
            self.query_one("#wrong", Static).update(Content("! Write your initials: what you book is kept under them."))
            self.query_one("#initials", Input).focus()
            return
        self._work(lambda: self._make(answers), "Beginning …")

    @work(exclusive=True)
    async def _work(self, job: Callable[[], Path], words: str) -> None:
        """Do the work off the event loop; an error is told, and nothing was begun."""
        import asyncio

        told = self.query_one("#wrong", Static)
        told.update(Content(words))
        try:
            path = await asyncio.to_thread(job)
        except StockroomError as error:
            told.update(Content(f"! {make_visible(error.message)}"))
            return
        self.exit(path)

    def action_ways(self) -> None:
        self.query_one("#answers").display = False
        ways = self.query_one("#ways", OptionList)
        ways.display = True
        ways.focus()

    def _handle_exception(self, error: Exception) -> None:
        self.fault = self.fault or error
        super()._handle_exception(error)

    def _print_error_renderables(self) -> None:
        """Print nothing: the command line tells a fault in plain words and keeps the rest in a file."""
