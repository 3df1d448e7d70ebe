"""The tray helper: a tray and a depth become a volume, or as much as there is is sought."""

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
from stockroom.tui.widgets.as_it_stands import TypedInput
from stockroom.tui.words import on_screen

MOST = "most"
"""The answer that as much is wanted as can be made from what is here."""
_OTHER = "other"


class AskTray(Question[str]):
    """Inside of the tray and depth; the volume is worked out while one types."""

    def __init__(self, size: str, name: str | None = None) -> None:
        """Ask for the depth of a tray of that size; with its name, the answer is `NAME, DEPTH` and no volume."""
        super().__init__("How much fills the tray?")
        self._sides, self._name = size, name

    def body(self) -> ComposeResult:
        yield Static(Content("The tray, inside"), classes="body")
        yield TypedInput(
            self._sides, placeholder="30 x 40 cm", compact=True, id="tray", disabled=self._name is not None
        )
        yield Static(Content("How deep the liquid stands"), classes="body")
        yield TypedInput(placeholder="8 mm", compact=True, id="depth")
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
            volume = self._volume()
            depth = self.query_one("#depth", Input).value.strip()
            self.dismiss(f"{self._name}, {depth}" if self._name else volume)
        except StockroomError as error:
            self.query_one("#volume", Static).update(Content(f"! {on_screen(error.message)}"))


async def ask_tray(app: StockroomApp, *, by_name: bool = False, most: bool = False) -> str | None:
    """Ask for one of the studio's trays, or another, and a depth; return the volume in words.

    With `by_name`, a tray of the studio is returned as `NAME, DEPTH`, so that the record keeps which it was. With
    `most`, as much as there is can be chosen too: `MOST`.
    """
    trays = await app.ask_database(_trays)
    if trays is None:
        return None
    offers = [*trays, Offer(key=_OTHER, words="Another tray", detail="type its size")]
    if most:
        offers.append(Offer(key=MOST, words="None: as much as there is", detail="the largest fill it makes"))
    chosen = offers[0] if len(offers) == 1 else await app.push_screen_wait(Choose("Which tray?", offers, none=""))
    if chosen is None:
        return None
    if chosen.key == MOST:
        return MOST
    if chosen.key == _OTHER:
        return await app.push_screen_wait(AskTray(""))
    return await app.push_screen_wait(AskTray(chosen.key, chosen.words if by_name else None))


def _trays(store: Store) -> list[Offer]:
    sizes = [(one, show_size(one.length_um, one.width_um)) for one in all_measures(store) if one.kind == "tray"]
    return [Offer(key=size, words=one.name, detail=size) for one, size in sizes if size]
