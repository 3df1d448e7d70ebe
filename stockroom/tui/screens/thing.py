"""The page of one thing in the bench book: all that is kept of it, and what can be done with it."""

from __future__ import annotations

from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.tui.app import StockroomApp
from stockroom.tui.bench_book.nouns import NOUNS, ThingPage, read_page
from stockroom.tui.page import Page
from stockroom.tui.texts import one_line, sections
from stockroom.tui.widgets.told import Told


class ThingScreen(Page):
    """One recipe, material, place, measure, person, supplier, label stock or printer."""

    CSS_PATH = "thing.tcss"
    HELP = """
All that is kept of one thing: what it says of itself, what stands on it, and who changed it
when. E changes it: of a recipe that makes the next version, and what was made by an earlier
one stays as it was. C begins a new recipe as a copy, V shows what an earlier version said. X
offers it no more; nothing of the past changes, and B takes it back into use.

On a supplier's page O keeps what is asked for a pack, and D notes that a pack is sold no more.

F saves a recipe as the file that other studios take in, or of labels and printers the page on
which a printer is measured.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("e", "edit", "Change"),
        Binding("c", "copy", "Copy"),
        Binding("m", "make", "Make/use"),
        Binding("s", "shelf", "Shelf"),
        Binding("a", "ahead", "Ahead"),
        Binding("o", "price", "Price seen"),
        Binding("d", "end_price", "Sold no more"),
        Binding("w", "weigh", "Weigh spoonfuls"),
        Binding("v", "versions", "Versions"),
        Binding("f", "file", "Save as a file", show=False),
        Binding("n", "new", "Add another of its kind", show=False),
        Binding("x", "retire", "Retire"),
        Binding("b", "take_up", "Back into use"),
    ]
    _FOR: ClassVar[dict[str, tuple[str, ...]]] = {
        "copy": ("recipe",),
        "make": ("recipe",),
        "versions": ("recipe",),
        "price": ("supplier",),
        "end_price": ("supplier",),
        "shelf": ("material",),
        "ahead": ("material",),
        "file": ("recipe", "label stock", "printer"),
    }
    """Actions that only some kinds have."""

    def __init__(self, noun: str, key: str) -> None:
        super().__init__()
        self.noun, self.key = noun, key
        self._page: ThingPage | None = None

    def body(self) -> ComposeResult:
        yield Static("", id="thing", classes="heading")
        with VerticalScroll(id="parts"):
            yield Told(id="told")

    def on_mount(self) -> None:
        self.query_one("#parts").focus()

    def load(self) -> None:
        self._load()

    @work(exclusive=True, group="load")
    async def _load(self) -> None:
        local, currency = self.app.local, self.app.studio.currency
        found = await self.fetch(lambda store: [read_page(store, self.noun, self.key, currency, local)])
        if found is None:
            return
        self._page = page = found[0]
        self.refresh_bindings()
        if page is None:
            self.query_one("#told", Told).tell(Content("It is not here any more. Esc goes back."))
            return
        thing = page.thing
        retired = f"   (retired on {thing.retired_on})" if thing.retired_on else ""
        key = f"   {thing.key}" if self.noun in ("recipe", "material") else ""
        self.query_one("#thing", Static).update(Content(f"{one_line(thing.name)}{key}{retired}"))
        self.query_one("#told", Told).tell(sections(*page.parts))

    @property
    def _retired(self) -> bool:
        return self._page is not None and self._page.thing.retired_on is not None

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in ("edit", "copy", "make", "retire") and (self._page is None or self._retired):
            return False
        if action == "take_up":
            return self._retired
        if action == "weigh":
            return self._page is not None and self.noun == "measure" and self._page.thing.told == "spoon"
        if action in self._FOR:
            return self.noun in self._FOR[action]
        return super().check_action(action, parameters)

    def action_edit(self) -> None:
        self.app.open_form(NOUNS[self.noun].edit, of=self.key)

    def action_new(self) -> None:
        self.app.open_form(NOUNS[self.noun].new)

    def action_copy(self) -> None:
        self.app.open_form("new-recipe", copy=self.key)

    def action_make(self) -> None:
        """Open the form that makes it up, or uses it for a job."""
        told = self._page.thing.told if self._page else ""
        self.app.open_form("make" if told == "stock" else "use", recipe=self.key)

    def action_shelf(self) -> None:
        if self._page:
            self.app.search_shelf(self._page.thing.name)

    def action_ahead(self) -> None:
        from stockroom.tui.screens.stock import StockScreen

        self.app.push_screen(StockScreen(self.key))

    def action_weigh(self) -> None:
        self.app.open_form("weigh-spoon", of=self.key)

    def action_price(self) -> None:
        if self._page:
            self.app.open_form("new-offer", supplier=self._page.thing.name)

    def action_end_price(self) -> None:
        if self._page:
            self.app.open_form("end-offer", supplier=self._page.thing.name)

    @work
    async def action_versions(self) -> None:
        """Choose an earlier version, and show what became of it since."""
        from stockroom.tui.bench_book.versions import look_at_versions

        await look_at_versions(self.app, self.key)

    @work
    async def action_file(self) -> None:
        """Save the recipe as a file, or the page on which a printer is measured."""
        from stockroom.tui.bench_book.thing_files import save_thing

        await save_thing(self.app, self.noun, self.key)

    def action_retire(self) -> None:
        self.app.open_form("retire", noun=self.noun, of=self.key)

    def action_take_up(self) -> None:
        self.app.open_form("take-up", noun=self.noun, of=self.key)


def open_thing(app: StockroomApp, noun: str, key: str) -> None:
    """Open the page of something in the bench book."""
    app.push_screen(ThingScreen(noun, key))
