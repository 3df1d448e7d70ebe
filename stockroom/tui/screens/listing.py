"""What lists have in common: entries of a line or two, what Enter does with the marked one, fresh content."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from stockroom.store.open import Store
from stockroom.tui.page import Page
from stockroom.tui.widgets.told import hanging
from stockroom.tui.words import grouped


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One thing in a list."""

    key: str
    words: Content
    """Its first line."""
    does: str
    """What Enter does with it, in words."""
    below: tuple[Content, ...] = ()
    """What stands beneath it, indented."""
    title: bool = False
    """Whether it only heads what follows, and cannot be marked."""


class Entries(OptionList):
    """A list; the line beneath it says what Enter does."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter", "select", "Do it", show=False)]


class ListingPage(Page):
    """A heading, a list, and a line that says what Enter does with the marked entry."""

    MOST = 500
    """More than these are not shown: nobody reads them, and the screen must stay quick."""

    def __init__(self) -> None:
        super().__init__()
        self.entries: Sequence[Entry] = ()
        self._width = 0
        """How wide it was when it was filled."""

    def body(self) -> ComposeResult:
        yield Static("", id="count", classes="heading")
        yield from self.above()
        yield Entries(markup=False)
        yield Static("", id="does", classes="quiet")

    def above(self) -> ComposeResult:
        """Compose what stands between heading and list."""
        yield from ()

    def read(self, store: Store) -> Sequence[Entry]:
        """Read the entries; runs in the thread of the database."""
        raise NotImplementedError

    def heading(self) -> str:
        """Say what the list holds, from the entries just read."""
        raise NotImplementedError

    def go_on(self, key: str) -> None:
        """Do with an entry what its `does` says."""
        raise NotImplementedError

    def load(self) -> None:
        self._load()

    @work(exclusive=True, group="load")
    async def _load(self) -> None:
        found = await self.fetch(self.read)
        if found is not None:
            self.fill(found)

    def fill(self, found: Sequence[Entry]) -> None:
        """Show other entries and keep the mark on the one that was marked, or on its place."""
        shown = self.query_one(Entries)
        at = shown.highlighted or 0
        marked = self.marked
        self.entries = found
        shown.clear_options()
        self._width = self.size.width
        shown.add_options(
            [Option(laid_out(entry, self._width - 4), disabled=entry.title) for entry in found[: self.MOST]]
        )
        shown.highlighted = _marked_again(found[: self.MOST], marked, at)
        self.query_one("#count", Static).update(Content(self.heading()))
        self._say_what_enter_does()

    def on_resize(self) -> None:
        if self.entries and self.size.width != self._width:
            self.fill(self.entries)

    @property
    def marked(self) -> Entry | None:
        """The marked entry."""
        at = self.query_one(Entries).highlighted
        return self.entries[at] if at is not None and at < len(self.entries) else None

    @on(OptionList.OptionHighlighted)
    def _say_what_enter_does(self) -> None:
        marked = self.marked
        self.query_one("#does", Static).update(Content(f"Enter: {marked.does}" if marked else ""))

    @on(OptionList.OptionSelected)
    def _chosen(self, event: OptionList.OptionSelected) -> None:
        if event.option_index < len(self.entries):
            self.go_on(self.entries[event.option_index].key)


def title(key: str, words: Content | str, *below: Content) -> Entry:
    """Head what follows in a list."""
    head = words if isinstance(words, Content) else Content.styled(words, "bold $primary")
    return Entry(key=key, words=head, below=below, does="", title=True)


def _marked_again(found: Sequence[Entry], marked: Entry | None, at: int) -> int | None:
    """Return where the mark belongs: on what was marked, else on its place or the next that can be marked."""
    can = [index for index, entry in enumerate(found) if not entry.title]
    same = [index for index in can if marked and found[index].key == marked.key]
    return next(iter(same), next((index for index in can if index >= at), can[-1] if can else None))


def laid_out(entry: Entry, width: int) -> Content:
    """Write an entry so that what does not fit in a line goes on indented beneath it."""
    width = max(20, width)
    lines = hanging(entry.words, width, 4)
    lines += [Content("  ") + line for part in entry.below for line in part.wrap(width - 2)]
    return Content("\n").join(lines)


def of_all(shown: int, total: int) -> str:
    """Say honestly how many of how many are shown: `500 of 8,214`."""
    return f"{grouped(shown)} of {grouped(total)}" if shown < total else grouped(total)
