"""The application: its areas of work, the keys that reach them, and what every screen asks of it."""

from __future__ import annotations

import gc
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar, TypeVar

from textual import work
from textual.binding import Binding, BindingType
from textual.reactive import var
from textual.screen import Screen

from stockroom.errors import StockroomError
from stockroom.soundness import check_once_a_day
from stockroom.store.limits import limits_reached
from stockroom.store.open import Store, open_store
from stockroom.store.stockroom_settings import own_form
from stockroom.tui.areas import AREAS, first_screen
from stockroom.tui.database import DatabaseThread
from stockroom.tui.drafts import Drafts
from stockroom.tui.long_work import LongWork
from stockroom.tui.painting import PaintedApp
from stockroom.tui.ringing import ring_for_waits, take_up_waits
from stockroom.tui.studio import read_studio
from stockroom.tui.themes import THEMES, begin_in_own_look
from stockroom.tui.waiting import Waiting

if TYPE_CHECKING:
    from stockroom.domain.occasion import Occasion
    from stockroom.progress import Progress
    from stockroom.tui.finding import Found

T = TypeVar("T")

LOOK_EVERY_SECONDS = 2.0
"""How often the screens ask whether anything was booked, here or by another window."""
TAKE_UP_WAITS_EVERY_SECONDS = 10.0
"""How often it is asked what other windows wait for."""


class StockroomApp(PaintedApp):
    """The stockroom on screen."""

    TITLE = "Stockroom"
    CSS_PATH = "app.tcss"
    MODES: ClassVar[dict[str, str | Callable[[], Screen[Any]]]] = {area: first_screen(area) for area in AREAS}
    DEFAULT_MODE = "due"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f1,question_mark", "explain", "Help", key_display="?", tooltip="Explain this screen", id="help"),
        Binding("f2", "area('due')", "What is due", show=False, id="due"),
        Binding("f3", "area('shelf')", "The shelf", show=False, id="shelf"),
        Binding("f4", "area('make')", "Make up a solution", show=False, id="make"),
        Binding("f5", "area('use')", "Use for a job", show=False, id="use"),
        Binding("f6", "area('check')", "Check a jar", show=False, id="check"),
        Binding("f7", "area('jobs')", "Jobs and what they cost", show=False, id="jobs"),
        Binding("f8", "area('plan')", "What is booked for the days to come", show=False, id="plan"),
        Binding("f9", "area('buy')", "What to buy, and orders", show=False, id="buy"),
        Binding("f10", "area('count')", "Count a place", show=False, id="count"),
        Binding("f12", "area('bench-book')", "The bench book", show=False, id="bench-book"),
        Binding("L", "code('L')", "A label is scanned, or its code typed", show=False, priority=True, id="scan"),
        Binding("T", "code('T')", "A bench card is scanned", show=False, priority=True, id="scan-card"),
        Binding("P", "papers", "Papers to hang up, sign or hand over", show=False, priority=True, id="papers"),
        Binding("ctrl+f", "find", "Find", priority=True, id="find", tooltip="Find anything by a few letters"),
        Binding("ctrl+q", "quit", "Leave", show=False, id="leave"),
    ]
    ENABLE_COMMAND_PALETTE = False

    by: var[str | None] = var(None)
    """Initials that book; None until somebody said who."""
    at_work: var[str] = var("")
    """What takes long just now, and how far it has come."""

    def __init__(self, path: Path, *, by: str | None, now: Callable[[], datetime], tour: bool = False) -> None:
        """Open the stockroom at a path, with three steps to begin with where `tour` says so.

        Raises DatabaseUnusable, and what `read_studio` raises.
        """
        super().__init__()
        begin_in_own_look(self)
        self._now, self._tour = now, tour
        self.fault: Exception | None = None
        self.drafts = Drafts(path, lambda: self.local)
        self.waiting = Waiting()
        self.long_work = LongWork(lambda: open_store(path))
        self.database = DatabaseThread(lambda: open_store(path))
        try:
            self.studio = self.database.run_before_start(lambda store: read_studio(store, by))
            self.revision = self.database.run_before_start(self._state)
            self.paint_in(self.database.run_before_start(own_form))
        except BaseException:
            self.database.close()
            raise
        self.set_reactive(StockroomApp.by, self.studio.by)

    def on_mount(self) -> None:
        self.set_interval(LOOK_EVERY_SECONDS, self.look_again)
        self.set_interval(1, self.ring)
        self.set_interval(0.5, self.tell_what_is_at_work)
        self.set_timer(LOOK_EVERY_SECONDS, self.look_through)
        self.call_after_refresh(self.take_up_waits)
        self.set_interval(TAKE_UP_WAITS_EVERY_SECONDS, self.take_up_waits)
        self.call_after_refresh(gc.enable)  # the screens stay open for a day; the command they came of does not
        if self._tour:
            self.call_after_refresh(self.action_tour)

    def on_unmount(self) -> None:
        self.long_work.close()
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

    def occasion(self, by: str, reason: str | None = None, at: datetime | None = None) -> Occasion:
        """Say who does something now, or did it at an earlier moment."""
        from stockroom.domain.occasion import Occasion

        now = self._now()
        return Occasion(by=by, now=now, at=at or now, zone=self.studio.zone, reason=reason or None)

    def ring(self) -> None:
        """Sound for every wait that is over, wherever one is, and say what comes next."""
        ring_for_waits(self)

    @work(group="waits", exclusive=True)
    async def take_up_waits(self) -> None:
        await take_up_waits(self)

    def tell_what_is_at_work(self) -> None:
        self.at_work = self.long_work.words

    @work(group="soundness")
    async def look_through(self) -> None:
        """Look through the file and copy it once a day, after the first paint; tell of damage, or that no copy is."""
        trouble = await self.take_long("looking through the file", check_once_a_day)
        if trouble:
            self.notify(trouble, severity="warning", timeout=30, markup=False)

    def _state(self, store: Store) -> object:
        """Return what stays the same as long as nothing is changed, the day is the same and no lot passes a limit."""
        local = self.local
        return store.revision(), local.date(), limits_reached(store, f"{local:%Y-%m-%dT%H:%M}")

    @work(exclusive=True, group="revision")
    async def look_again(self) -> None:
        """Ask whether anything is not as it was, and reload the screen only then."""
        try:
            revision, form = await self.database.run(lambda store: (self._state(store), own_form(store)))
        except StockroomError:
            return  # another window is writing; the next look tells
        if revision != self.revision and self.is_running:
            self.revision = revision
            for screen in self.screen_stack:
                refresh = getattr(screen, "refresh_if_old", None)
                if refresh is not None:
                    refresh()
        self.paint_in(form)

    async def ask_database(self, job: Callable[[Store], T]) -> T | None:
        """Run a job; tell what went wrong and return None where it could not be done."""
        try:
            return await self.database.run(job)
        except StockroomError as error:
            await self.tell(error)
            return None

    async def take_long(self, what: str, job: Callable[[Store, Progress], T]) -> T | None:
        """Run a job that may take long, `what` in words, as `ask_database` does, while keys go on being answered."""
        try:
            return await self.long_work.run(what, job)
        except StockroomError as error:
            await self.tell(error)
            return None

    async def tell(self, error: StockroomError) -> None:
        """Show what went wrong, and wait until it was read."""
        from stockroom.tui.questions.notice import Notice

        await self.push_screen_wait(Notice(error))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Leave letters to whoever is typing."""
        if (action == "code" and parameters) or action == "papers":
            typing = self.focused is not None and self.focused.check_consume_key("L", "L")
            # over a question nothing is opened: the actions ask about that, for the help, a question too, tells of them
            return not typing
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

    def action_find(self) -> None:
        """Find anything by a few letters, and open it."""
        from stockroom.tui.questions.find import Find

        if not self.screen.is_modal:
            self.push_screen(Find(), self._go_to)

    def _go_to(self, found: Found | None) -> None:
        if found is not None:
            found.go(self)

    @work
    async def action_who(self) -> None:
        """Ask anew who books."""
        from stockroom.tui.booking import who_books

        before, self.by = self.by, None
        if await who_books(self) is None:
            self.by = before

    @work
    async def action_undo_last(self) -> None:
        from stockroom.tui.undo_last import undo_one_of_the_last

        await undo_one_of_the_last(self)

    def action_other_look(self) -> None:
        """Change between lamp light and paper."""
        names = [theme.name for theme in THEMES]
        self.theme = names[(names.index(self.theme) + 1) % len(names)] if self.theme in names else names[0]

    def action_tour(self) -> None:
        from stockroom.tui.questions.tour import Tour

        self.push_screen(Tour())

    def action_explain(self) -> None:
        from stockroom.tui.questions.explanation import Explanation

        if not self.screen.is_modal:
            self.push_screen(Explanation(self.screen))

    def action_papers(self) -> None:
        from stockroom.tui.screens.papers import PapersScreen

        if not self.screen.is_modal and not isinstance(self.screen, PapersScreen):
            self.push_screen(PapersScreen())

    def action_code(self, begun: str = "") -> None:
        """Ask for a code. `begun` is what a hand scanner has sent so far."""
        from stockroom.tui.questions.code import AskCode

        if not self.screen.is_modal:
            self.push_screen(AskCode(begun), self._open_code)

    def _open_code(self, code: str | None) -> None:
        from stockroom.tui.screens.form import FormScreen

        if code is None:
            return
        if isinstance(self.screen, FormScreen) and code.startswith("L") and self.screen.put_lot(code):
            return
        self.open_code(code)

    def open_code(self, code: str) -> None:
        """Open what a code names."""
        from stockroom.tui.codes import open_code

        open_code(self, code)

    def open_form(self, name: str, **known: str) -> None:
        """Open a form with what is known filled in; Escape leads back, and booking it too."""
        from stockroom.tui.forms import find_form
        from stockroom.tui.screens.form import FormScreen

        self.push_screen(FormScreen(find_form(name), known))

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
