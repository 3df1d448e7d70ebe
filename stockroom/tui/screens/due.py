"""What is due: the opening screen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar
from zoneinfo import ZoneInfo

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from stockroom.actions.whats_due import due_items
from stockroom.domain.codes import prefix_of
from stockroom.labels.plain_text import make_visible as one_line
from stockroom.planning.due import Due
from stockroom.store.open import Store
from stockroom.tui.drafts import Draft, booked_since
from stockroom.tui.forms import find_form
from stockroom.tui.going_on import Way, way_on
from stockroom.tui.ringing import forget_draft
from stockroom.tui.screens.listing import Entry, ListingPage, of_all
from stockroom.tui.waiting import waits_in
from stockroom.tui.words import DUE, day_words, on_screen, today_words

WITHIN_DAYS = 14
FIRST = "first"
"""The key of what is offered where the shelf is empty."""


class DueScreen(ListingPage):
    """Everything that has to be done, most urgent first; above it what was begun and not booked."""

    AREA = "due"
    HELP = """
What has to be done, most urgent first. Each entry says what, by when and why.
A sign (!) stands before what stops work: past its date, unfit, short, none left.

Enter does it: the line beneath the list says what, and the right form opens with all that is
known filled in. Forms that were begun and not booked stand on top, marked with a star; delete
drops one. To open anything by its code, scan its label, or type it after Ctrl+F.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("o", "its_page", "Its page"),
        Binding("u", "undo_last", "Undo your last"),
        Binding("ctrl+q", "app.quit", "Leave"),
        Binding("delete", "drop", "Drop the form", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._ways: dict[str, Way] = {}
        self._drafts: dict[str, Draft] = {}
        self._due = 0

    def above(self) -> ComposeResult:
        yield Static("", id="last", classes="quiet")

    def read(self, store: Store) -> Sequence[Entry]:
        items = due_items(store, self.app.local, WITHIN_DAYS)
        shown = items[: self.MOST]
        width = max((len(day_words(item.by)) for item in shown), default=0)
        self._ways = {f"{item.kind} {item.code}": way_on(store, item) for item in shown}
        self._drafts = {f"draft {number}": draft for number, draft in enumerate(self.app.drafts.all())}
        self._due, zone = len(items), self.app.studio.zone
        found = [
            *(_begun(key, draft, booked_since(store, draft, zone), zone) for key, draft in self._drafts.items()),
            *(entry(key, item, width, self._ways[key].does) for key, item in _keyed(shown)),
        ]
        return found or _begin_with(store)

    def heading(self) -> str:
        shown, due = min(self._due, self.MOST), self._due
        count = f"{of_all(shown, due)} thing{'s' if due != 1 else ''} due" if due else "Nothing is due"
        return f"{today_words(self.app.local)}   {count}, looking {WITHIN_DAYS} days ahead"

    def fill(self, found: Sequence[Entry]) -> None:
        super().fill(found)
        self.call_after_refresh(self._tell_last)

    @work(exclusive=True, group="last")
    async def _tell_last(self) -> None:
        """Say what was booked last, once what is due stands there: telling it loads much, and nobody waits for it."""
        by, zone = self.app.by, self.app.studio.zone
        words = await self.fetch(lambda store: last_words(store, by, zone)) if by else ""
        if words is not None:
            last = self.query_one("#last", Static)
            last.display = bool(words)
            last.update(Content(one_line(words)))

    def go_on(self, key: str) -> None:
        if draft := self._drafts.get(key):
            if not draft.known and draft.form in self.app.MODES:
                self.app.action_area(draft.form)
            else:
                self.app.open_form(draft.form, **draft.known)
        elif way := self._ways.get(key):
            self._take(way)
        elif key == FIRST:
            self.app.open_form("receive")

    @work
    async def _take(self, way: Way) -> None:
        form = way.form
        if way.ask:
            from stockroom.tui.questions.choice import Choose
            from stockroom.tui.questions.offer import Offer

            offers = [Offer(key=form, words=words, detail=detail) for form, words, detail in way.ask]
            answer = await self.app.push_screen_wait(
                Choose(f"{way.known['booking']}: what became of it?", offers, none="")
            )
            if answer is None:
                return
            form = answer.key
        if way.area:
            self.app.action_area(way.area)
        elif form:
            self.app.open_form(form, **{name: value for name, value in way.known.items() if value})
        else:
            self.app.open_code(way.known["code"])

    def action_its_page(self) -> None:
        """Open the page of the lot, or the form of the booking, that the marked entry is about."""
        code = self.marked.key.partition(" ")[2] if self.marked else ""
        if prefix_of(code) in ("L", "K", "P"):
            self.app.open_code(code)
        elif self.marked and self.marked.key not in (*self._drafts, FIRST):
            self.app.search_shelf(code)

    def action_drop(self) -> None:
        draft = self._drafts.get(self.marked.key) if self.marked else None
        if draft:
            forget_draft(self.app, draft.form, draft.known)
            self.load()

    @work
    async def action_undo_last(self) -> None:
        from stockroom.tui.undo_last import undo_one_of_the_last

        await undo_one_of_the_last(self.app)

    def refresh_if_old(self) -> None:
        self._loaded = False  # what was begun and not booked is no booking, and no revision tells of it
        super().refresh_if_old()


def _begin_with(store: Store) -> list[Entry]:
    """Offer whoever has nothing on the shelf yet to book in what is there."""
    from stockroom.store.lots import any_lot

    if any_lot(store):
        return []
    told = Content("Book in first what stands there: bottles, packs, jars. What has no bill is found.")
    words = Content.styled("Nothing is on the shelf yet", "bold")
    return [Entry(key=FIRST, words=words, below=(told,), does="receive what is there")]


def last_words(store: Store, by: str, zone: ZoneInfo) -> str:
    """Say what a person booked last, so that whoever comes back knows whether it was booked."""
    from stockroom.actions.telling import tell
    from stockroom.store.history import actions_of_person

    last = actions_of_person(store, by, 1)
    told = tell(store, last[0], zone) if last else None
    return f"{by} booked last, {told.when}: {told.words}" if told else ""


def _keyed(items: Sequence[Due]) -> list[tuple[str, Due]]:
    return [(f"{item.kind} {item.code}", item) for item in items]


def entry(key: str, item: Due, width: int, does: str) -> Entry:
    """Write one thing due: what, when (so many columns wide), which; beneath it why."""
    words = Content.assemble(
        (f"{DUE.get(item.kind, item.kind):<20}", "bold"),
        f"{day_words(item.by).ljust(width)}  ",
        (one_line(item.name), "bold"),
        (f"  {one_line(item.code)}" if prefix_of(item.code) else "", "dim"),
    )
    return Entry(key=key, words=words, below=(Content(on_screen(item.why)),), does=does)


def _begun(key: str, draft: Draft, perhaps: str | None, zone: ZoneInfo) -> Entry:
    answers = (draft.words or draft.answers).items()
    told = ", ".join(one_line(answer) for key, answer in answers if key != "waits") or "nothing filled in yet"
    done = len(draft.progress.get("done", ()))
    words = Content.assemble(
        (f"{'! perhaps booked' if perhaps else '* begun, not booked':<20}", "bold $text-accent"),
        f"{draft.at.replace('T', ', ')}  ",
        (find_form(draft.form).title, "bold"),
        (f"  {done} step{'s' if done != 1 else ''} done" if done else "", "dim"),
    )
    waits = [
        Content(one_line(f"waits until {wait.until.astimezone(zone):%Y-%m-%d, %H:%M}. {wait.next_words}"))
        for wait in waits_in(draft.progress).values()
    ]
    does = "go on with its steps" if draft.progress else "go on with the form"
    if perhaps:
        words_of_it = f"the window was closed while it was booked. If it is this, delete drops the form: {perhaps}"
        waits = [Content(one_line(words_of_it))]
    return Entry(key=key, words=words, below=(Content(told), *waits), does=does)
