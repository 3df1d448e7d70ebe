"""The application: its areas of work, the keys that reach them, and what every screen asks of it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any, ClassVar, TypeVar

from textual import work
from textual.app import App
from textual.binding import Binding, BindingType
from textual.constants import DEFAULT_THEME
from textual.reactive import var
from textual.screen import Screen
from textual.widgets import Input

from stockroom.domain.occasion import Occasion
from stockroom.errors import StockroomError
from stockroom.soundness import check_once_a_day
from stockroom.store.open import Store, open_store
from stockroom.tui.database import DatabaseThread
from stockroom.tui.studio import read_studio
from stockroom.tui.themes import THEMES

T = TypeVar("T")

LOOK_EVERY_SECONDS = 2.0
"""How often the screens ask whether anything was booked, here or by another window."""


def _due() -> Screen[Any]:
    from stockroom.tui.screens.due import DueScreen

    return DueScreen()


def _shelf() -> Screen[Any]:
    from stockroom.tui.screens.shelf import ShelfScreen

    return ShelfScreen()


def _make() -> Screen[Any]:
    from stockroom.tui.screens.make import MakeScreen

    return MakeScreen()


def _use() -> Screen[Any]:
    from stockroom.tui.screens.use import UseScreen

    return UseScreen()


class StockroomApp(App[None]):
    """The stockroom on screen."""

    TITLE = "Stockroom"
    CSS_PATH = "app.tcss"
    MODES: ClassVar[dict[str, str | Callable[[], Screen[Any]]]] = {
        "due": _due,
        "shelf": _shelf,
        "make": _make,
        "use": _use,
    }
    DEFAULT_MODE = "due"
    HORIZONTAL_BREAKPOINTS = [  # noqa: RUF012 - so it is declared above
        (0, "-narrow"),
        (110, "-wide"),
    ]
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f1,question_mark", "explain", "Help", key_display="?", tooltip="Explain this screen", id="help"),
        Binding("f2", "area('due')", "What is due", show=False, id="due"),
        Binding("f3", "area('shelf')", "The shelf", show=False, id="shelf"),
        Binding("f4", "area('make')", "Make up a solution", show=False, id="make"),
        Binding("f5", "area('use')", "Use for a job", show=False, id="use"),
        Binding("f6", "code", "Open by code: type or scan it", show=False, id="code"),
        Binding("L", "code('L')", "A scanned label begins here", show=False, priority=True, id="scan"),
        Binding("ctrl+q", "quit", "Leave", id="leave"),
    ]

    by: var[str | None] = var(None)
    """Initials that book; None until somebody said who."""

    def __init__(self, path: Path, *, by: str | None, now: Callable[[], datetime]) -> None:
        """Open the stockroom at a path. Raises DatabaseUnusable, and what `read_studio` raises."""
        super().__init__()
        for theme in THEMES:
            self.register_theme(theme)
        if DEFAULT_THEME == "textual-dark":  # nobody asked for another one
            self.theme = THEMES[0].name
        self._now = now
        self.revision: tuple[int, int] | None = None
        self.fault: Exception | None = None
        self.database = DatabaseThread(lambda: open_store(path))
        try:
            self.studio = self.database.run_before_start(lambda store: read_studio(store, by))
        except BaseException:
            self.database.close()
            raise
        self.set_reactive(StockroomApp.by, self.studio.by)

    def on_mount(self) -> None:
        self.set_interval(LOOK_EVERY_SECONDS, self.look_again)
        self.call_after_refresh(self.look_through)

    def on_unmount(self) -> None:
        self.database.close()

    def _handle_exception(self, error: Exception) -> None:
        self.fault = self.fault or error
        super()._handle_exception(error)

    def _print_error_renderables(self) -> None:
        """Print nothing: the command line tells a fault in plain words and keeps the rest in a file."""

    @property
    def local(self) -> datetime:
        """The moment taken as now, in the stockroom's zone."""
        return self._now().astimezone(self.studio.zone)

    def occasion(self, by: str, reason: str | None = None) -> Occasion:
        now = self._now()
        return Occasion(by=by, now=now, at=now, zone=self.studio.zone, reason=reason or None)

    @work(group="soundness")
    async def look_through(self) -> None:
        """Look through the file once a day, after the first paint, and tell of damage."""
        await self.ask_database(check_once_a_day)

    @work(exclusive=True, group="revision")
    async def look_again(self) -> None:
        """Ask whether anything was booked, and reload the screen only then."""
        try:
            revision = await self.database.run(lambda store: store.revision())
        except StockroomError:
            return  # another window is writing; the next look tells
        if revision != self.revision and self.is_running:
            self.revision = revision
            for screen in self.screen_stack:
                refresh = getattr(screen, "refresh_if_old", None)
                if refresh is not None:
                    refresh()

    async def ask_database(self, job: Callable[[Store], T]) -> T | None:
        """Run a job; tell what went wrong and return None where it could not be done."""
        try:
            return await self.database.run(job)
        except StockroomError as error:
            await self.tell(error)
            return None

    async def tell(self, error: StockroomError) -> None:
        """Show what went wrong, and wait until it was read."""
        from stockroom.tui.questions.notice import Notice

        await self.push_screen_wait(Notice(error))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Leave letters to whoever is typing."""
        if action == "code" and parameters:
            return not isinstance(self.focused, Input) and not self.screen.is_modal
        return True

    def action_area(self, area: str) -> None:
        """Go to an area of work; there already, go back to its first screen."""
        if self.screen.is_modal:
            return
        if area == self.current_mode:
            while len(self.screen_stack) > 1:
                self.pop_screen()
        else:
            self.switch_mode(area)

    def action_explain(self) -> None:
        from stockroom.tui.questions.explanation import Explanation

        if not self.screen.is_modal:
            self.push_screen(Explanation(self.screen))

    def action_code(self, begun: str = "") -> None:
        """Ask for a code. `begun` is what a hand scanner has sent so far."""
        from stockroom.tui.questions.code import AskCode

        if not self.screen.is_modal:
            self.push_screen(AskCode(begun), self._open_code)

    def _open_code(self, code: str | None) -> None:
        if code is not None:
            self.open_code(code)

    def open_code(self, code: str) -> None:
        """Open what a code that was found names: a lot's page, or the form for a job or booking."""
        if code.startswith("L"):
            from stockroom.tui.screens.lot import LotScreen

            if not (isinstance(self.screen, LotScreen) and self.screen.code == code):
                self.push_screen(LotScreen(code))
        elif code.startswith("J"):
            self.fill_in("use", job=code)
        else:
            self.fill_in("use", booking=code)

    @work
    async def fill_in(self, area: str, **known: str) -> None:
        """Go to a form and put in what is known already."""
        from stockroom.tui.screens.form import FormScreen

        await self.switch_mode(area)
        self.action_area(area)
        if isinstance(self.screen, FormScreen):
            self.screen.put_in(**known)

    def search_shelf(self, words: str) -> None:
        """Go to the shelf and narrow it to some words."""
        self._search_shelf(words)

    @work
    async def _search_shelf(self, words: str) -> None:
        from stockroom.tui.screens.shelf import ShelfScreen

        await self.switch_mode("shelf")
        self.action_area("shelf")
        if isinstance(self.screen, ShelfScreen):
            self.screen.search(words)
