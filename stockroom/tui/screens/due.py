"""What is due: the opening screen."""

from __future__ import annotations

from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import OptionList, Static

from stockroom.actions.whats_due import due_items
from stockroom.domain.codes import read_code
from stockroom.errors import Unreadable
from stockroom.planning.due import Due
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.recipes import recipe_making
from stockroom.tui.page import Page
from stockroom.tui.texts import one_line
from stockroom.tui.words import DUE, day_words, today_words

WITHIN_DAYS = 14


class DueList(OptionList):
    """Says at the foot what Enter does."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter", "select", "Go on with it")]


class DueScreen(Page):
    """Everything that has to be done, most urgent first."""

    AREA = "due"
    CSS_PATH = "due.tcss"
    HELP = """
What has to be done, most urgent first. Each entry says what, by when and why.
A sign (!) stands before what stops work: past its date, unfit, short, none left.

Enter goes on with the entry: to the page of the lot, to making what is low, to the
treatment that is booked, or to the shelf. To open anything by its code, scan its label
or press F6.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("u", "undo_last", "Undo your last"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._items: list[Due] = []

    def body(self) -> ComposeResult:
        yield Static("", id="count", classes="heading")
        yield DueList(markup=False)

    def load(self) -> None:
        self._load()

    @work(exclusive=True, group="load")
    async def _load(self) -> None:
        local = self.app.local
        items = await self.fetch(lambda store: due_items(store, local, WITHIN_DAYS))
        if items is not None:
            self._fill(items)

    def _fill(self, items: list[Due]) -> None:
        entries = self.query_one(OptionList)
        at = entries.highlighted or 0
        before = self._items[at] if at < len(self._items) else None
        same = [
            index for index, one in enumerate(items) if before and (one.kind, one.code) == (before.kind, before.code)
        ]
        self._items = items
        entries.clear_options()
        width = max((len(day_words(item.by)) for item in items), default=0)
        entries.add_options([entry(item, width) for item in items])
        if items:
            entries.highlighted = same[0] if same else min(at, len(items) - 1)
        day = today_words(self.app.local)
        count = f"{len(items)} thing{'s' if len(items) != 1 else ''} due" if items else "Nothing is due"
        self.query_one("#count", Static).update(Content(f"{day}   {count}, looking {WITHIN_DAYS} days ahead"))

    @on(OptionList.OptionSelected)
    def choose(self, event: OptionList.OptionSelected) -> None:
        self._go_on(self._items[event.option_index])

    @work
    async def _go_on(self, item: Due) -> None:
        match prefix_of(item.code):
            case "L" | "K" as known if known:
                self.app.open_code(item.code)
            case "A":
                self.notify(f"When it is back: stockroom bring-back {item.code} AMOUNT", title="On loan", markup=False)
            case _:
                way = await self.app.ask_database(lambda store: way_to_more(store, item.code))
                if way is not None and way[0] == "make":
                    self.app.fill_in("make", recipe=way[1])
                elif way is not None:
                    self.app.search_shelf(way[1])

    @work
    async def action_undo_last(self) -> None:
        from stockroom.tui.undo_last import undo_one_of_the_last

        await undo_one_of_the_last(self.app)


def entry(item: Due, width: int) -> Content:
    """Write one thing due in two lines: what, when (so many columns wide), which; then why."""
    return Content.assemble(
        (f"{DUE.get(item.kind, item.kind):<20}", "bold"),
        f"{day_words(item.by).ljust(width)}  ",
        (one_line(item.name), "bold"),
        (f"  {one_line(item.code)}", "dim"),
        f"\n  {one_line(item.why)}",
    )


def prefix_of(code: str) -> str:
    """Return the letter of a code's noun, or nothing for the key of a material."""
    try:
        found = read_code(code)
    except Unreadable:
        return ""
    return found.prefix if found.text == code else ""


def way_to_more(store: Store, key: str) -> tuple[str, str]:
    """Say how there will be more of a material: by making it (with its recipe), else by looking at the shelf."""
    recipe = recipe_making(store, key)
    return ("make", recipe.key) if recipe else ("shelf", find_material(store, key).name)
