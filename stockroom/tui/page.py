"""What every ordinary screen is: the line of areas, its own body, the keys at the foot, and fresh content."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar, TypeVar

from textual import getters
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.screen import Screen

from stockroom.errors import StockroomError
from stockroom.store.open import Store
from stockroom.tui.app import StockroomApp
from stockroom.tui.widgets.area_line import AreaLine
from stockroom.tui.widgets.page_keys import PageKeys
from stockroom.tui.words import on_screen

T = TypeVar("T")

SIDE_BY_SIDE: list[tuple[int, str]] | None = [(0, "-narrow"), (110, "-wide")]
"""The breakpoints of a screen that puts things beside each other where there is room."""


class Page(Screen[None]):
    """A screen that shows something of the stockroom, reloaded only when something changed."""

    app = getters.app(StockroomApp)
    AREA: ClassVar[str] = ""
    """Which area of work it belongs to; empty where it belongs to whichever it was opened from."""
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "back", "Back", id="back")]

    def __init__(self) -> None:
        super().__init__()
        self.area = self.AREA
        self.explained = self.HELP or ""
        self._seen: object = None
        self._loaded = False

    def compose(self) -> ComposeResult:
        yield AreaLine(self.area or self.app.current_mode)
        yield from self.body()
        yield PageKeys()

    def body(self) -> ComposeResult:
        """Compose what is between the line of areas and the keys."""
        yield from ()

    def on_screen_resume(self) -> None:
        if self._loaded:
            self.app.look_again()  # or what was changed a moment ago would be seen at the next look only
        self.refresh_if_old()

    def refresh_if_old(self) -> None:
        """Load again where something was changed, or the time has changed something, since this was loaded."""
        if not self._loaded or self._seen != self.app.revision:
            self._loaded, self._seen = True, self.app.revision
            self.load()

    def load(self) -> None:
        """Fetch what is shown, keeping cursor and typed text."""

    @property
    def is_here(self) -> bool:
        """Whether it can still show something: an answer may come when the screens are being left."""
        return self.app.is_running and self.is_attached and self.display

    async def fetch(self, job: Callable[[Store], T]) -> T | None:
        """Read something to show; None where it cannot be read (which is told) or nobody waits for it any more."""
        try:
            found = await self.app.database.run(job)
        except StockroomError as error:
            if self.is_here:
                self.notify(on_screen(error.message), severity="error", markup=False)
            return None
        return found if self.is_here else None

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer the way back only where there is one."""
        return action != "back" or self.app.screen_stack[0] is not self

    def action_back(self) -> None:
        self.app.pop_screen()
