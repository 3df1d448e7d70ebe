"""The tray helper: a tray and a depth become a volume."""

from __future__ import annotations

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, Static

from stockroom.domain.sizes import show_size
from stockroom.errors import StockroomError
from stockroom.science.measuring import tray_fill
from stockroom.science.quantities import Dimension, show
from stockroom.science.reading import read_quantity, read_size
from stockroom.store.open import Store
from stockroom.store.studio import all_measures
from stockroom.tui.app import StockroomApp
from stockroom.tui.questions.choice import Choose
from stockroom.tui.questions.offer import Offer
from stockroom.tui.questions.question import Question
from stockroom.tui.words import on_screen


class AskTray(Question[str]):
    """Inside of the tray and depth; the volume is worked out while one types."""

    def __init__(self, size: str) -> None:
        super().__init__("How much fills the tray?")
        self._sides = size

    def body(self) -> ComposeResult:
        yield Static(Content("The tray, inside"), classes="body")
        yield Input(self._sides, placeholder="30 x 40 cm", compact=True, id="tray")
        yield Static(Content("How deep the liquid stands"), classes="body")
        yield Input(placeholder="8 mm", compact=True, id="depth")
        yield Static("", id="volume")
        yield Static(Content("Enter takes it, Esc leaves it as it was. Sides upright, floor level."), classes="keys")

    def on_mount(self) -> None:
        self.query_one("#depth" if self._sides else "#tray", Input).focus()

    def _volume(self) -> str:
        """Work the volume out. Raises Unreadable, BadInput."""
        tray, depth = self.query_one("#tray", Input).value, self.query_one("#depth", Input).value
        return show(tray_fill(*read_size(tray), read_quantity(depth, expect=Dimension.LENGTH).quantity.quanta))

    @on(Input.Changed)
    def work_out(self) -> None:
        told = self.query_one("#volume", Static)
        if not (self.query_one("#tray", Input).value and self.query_one("#depth", Input).value):
            told.update("")
            return
        try:
            told.update(Content(f"= {self._volume()}"))
        except StockroomError as error:
            told.update(Content(f"! {on_screen(error.message)}"))

    @on(Input.Submitted)
    @work
    async def answer(self) -> None:
        try:
            self.dismiss(self._volume())
        except StockroomError as error:
            self.query_one("#volume", Static).update(Content(f"! {on_screen(error.message)}"))


async def ask_tray(app: StockroomApp) -> str | None:
    """Ask for one of the studio's trays, or another, and a depth; return the volume in words."""
    trays = await app.ask_database(_trays)
    if trays is None:
        return None
    size = ""
    if trays:
        other = Offer(key="", words="Another tray", detail="type its size")
        chosen = await app.push_screen_wait(Choose("Which tray?", [*trays, other], none=""))
        if chosen is None:
            return None
        size = chosen.key
    return await app.push_screen_wait(AskTray(size))


def _trays(store: Store) -> list[Offer]:
    sizes = [(one, show_size(one.length_um, one.width_um)) for one in all_measures(store) if one.kind == "tray"]
    return [Offer(key=size, words=one.name, detail=size) for one, size in sizes if size]
