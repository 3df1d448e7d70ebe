"""The bench book: what the studio calls its own, by kind, narrowed by typing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from stockroom.store.open import Store
from stockroom.tui.bench_book.nouns import NOUNS, Thing, all_things
from stockroom.tui.questions.choice import Choose
from stockroom.tui.questions.offer import Offer
from stockroom.tui.screens.listing import Entry, of_all, title
from stockroom.tui.screens.narrowed import NarrowedPage
from stockroom.tui.screens.thing import open_thing
from stockroom.tui.texts import one_line
from stockroom.tui.words import grouped


class BenchBookScreen(NarrowedPage):
    """Everything the studio calls its own; Tab turns from kind to kind."""

    AREA = "bench-book"
    CSS_PATH = "bench_book.tcss"
    NARROWED_BY = "a name, a kind, a word of it"
    HELP = """
The bench book: the studio's own recipes, materials, places, measures, people, suppliers and
labels. Type words to narrow the list, Tab turns to the next kind, Enter opens a page: what is
kept of it, and from there to change it, copy a recipe, or retire it.

Ctrl+O adds something of the kind that is shown. What was retired stands last, and can be taken
back into use from its page. What the studio chooses, such as how dates stand on the screens, is
found by Ctrl+F and the word studio.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("tab", "turn(1)", "Next kind", priority=True),
        Binding("shift+tab", "turn(-1)", "Kind before", priority=True, show=False),
        Binding("ctrl+o", "new", "New", priority=True),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._noun: str | None = None
        self._things: dict[str, Thing] = {}
        self._elsewhere = 0
        """How many of other kinds have the words that none of this kind has."""

    def above(self) -> ComposeResult:
        yield Static("", id="kinds", classes="quiet")
        yield from super().above()

    def on_mount(self) -> None:
        self._show_kinds()

    def read(self, store: Store) -> Sequence[Entry]:
        found = all_things(store, self._noun, self._words)
        self._total = len(found)
        self._elsewhere = 0 if found or not self._words else len(all_things(store, words=self._words))
        self._things = {f"{one.noun} {one.key}": one for one in found[: self.MOST]}
        entries: list[Entry] = []
        for key, thing in self._things.items():
            if self._noun is None and (not entries or entries[-1].key.partition(" ")[0] != key.partition(" ")[0]):
                entries.append(title(f"{key.partition(' ')[0]} title", NOUNS[thing.noun].many))
            entries.append(_entry(key, thing))
        return entries

    def heading(self) -> str:
        many = NOUNS[self._noun].many if self._noun else "The bench book"
        if self._elsewhere:
            return f"{many}: none has these words, {grouped(self._elsewhere)} of other kinds. Enter shows them."
        if not self._total:
            return "Nothing in the bench book has these words." if self._words else "None yet: Ctrl+O adds one."
        return f"{many}: {of_all(len(self._things), self._total)}"

    def go_on(self, key: str) -> None:
        thing = self._things.get(key)
        if thing:
            open_thing(self.app, thing.noun, thing.key)

    def _show_kinds(self) -> None:
        line, before = Content(""), " "
        for words, noun in [("All", None), *((each.many, name) for name, each in NOUNS.items())]:
            line += Content("[" if noun == self._noun else before)
            line += Content.styled(words, f"{'bold ' if noun == self._noun else ''}@click=screen.turn_to({noun!r})")
            before = "]" if noun == self._noun else " "
        self.query_one("#kinds", Static).update(line + before)

    def open_marked(self) -> None:
        if self._elsewhere:
            self.action_turn_to(None)
        else:
            super().open_marked()

    def action_turn(self, way: int) -> None:
        """Turn to the next kind, or to all of them."""
        kinds = [None, *NOUNS]
        self.action_turn_to(kinds[(kinds.index(self._noun) + way) % len(kinds)])

    def action_turn_to(self, noun: str | None) -> None:
        self._noun = noun
        self._show_kinds()
        self.load()

    @work
    async def action_new(self) -> None:
        """Add something of the kind that is shown; asked where all are."""
        noun = self._noun
        if noun is None:
            from stockroom.tui.forms import find_form

            offers = [Offer(key=name, words=find_form(each.new).title) for name, each in NOUNS.items()]
            answer = await self.app.push_screen_wait(Choose("What is new?", offers, none=""))
            noun = answer.key if answer else None
        if noun:
            self.app.open_form(NOUNS[noun].new)


def _entry(key: str, thing: Thing) -> Entry:
    retired = f"  (retired on {thing.retired_on})" if thing.retired_on else ""
    words = Content.assemble(
        (one_line(thing.name), "" if thing.retired_on else "bold"), "  ", (one_line(thing.told), "dim"), retired
    )
    return Entry(key=key, words=words, does="its page: all that is kept of it, and to change it")
