"""A bath or a making as a procedure: steps ticked off, waits running, and booked only when that is said."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, ClassVar, Generic, TypeVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from stockroom.actions.carrying_out import Outcome
from stockroom.domain.occasion import Occasion
from stockroom.errors import StockroomError
from stockroom.planning.steps import StepToDo
from stockroom.store.open import Store
from stockroom.tui.booking import book_form, moment_of
from stockroom.tui.forms.form import Answers, Form
from stockroom.tui.questions.text import AskText
from stockroom.tui.screens.listing import Entry, ListingPage
from stockroom.tui.studio import working_people
from stockroom.tui.texts import cautions_text, one_line
from stockroom.tui.waiting import Step, Wait, length_of, wait_words, waits_in, waits_kept
from stockroom.tui.widgets.told import Told
from stockroom.tui.words import on_screen

Kind = TypeVar("Kind", bound=Outcome)


class ProcedureScreen(ListingPage, Generic[Kind]):
    """The steps of a plan, one after the other."""

    CSS_PATH = "procedure.tcss"
    HELP = """
The steps, one after the other. Space ticks the marked one off; where a wait follows, it runs
from then on, sounds when it is over, and names the next step, wherever you are meanwhile.

One more fill says that another fill is poured: only fills poured are booked. Stop early
notes when and why. Both ask for the colour of the water. Nothing is booked before Ctrl+S;
leaving and coming back loses nothing.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "tick", "Tick", priority=True),
        Binding("f", "fill", "One more fill"),
        Binding("e", "stop", "Stop early"),
        Binding("ctrl+s", "book", "Book", priority=True),
    ]

    def __init__(self, form: Form[Kind], answers: Answers, words: Answers, known: Answers) -> None:
        super().__init__()
        self._form, self._answers, self._words, self._known = form, dict(answers), dict(words), dict(known)
        self._steps: Sequence[StepToDo] = ()
        self._cautions = Content("")
        self._ticked: set[int] = set()
        self._poured, self._notes = 1, [line for line in self._answers.pop("notes", "").split("\n") if line]
        self._waits: dict[int, Wait] = {}
        self._planned: int | None = None
        """Fills that were planned before any was poured."""
        self._fills = "job" in self._answers
        self._trouble: str | None = None
        self._waits_for: str | None = None
        self.done: Kind | None = None
        """What was booked from here; the form beneath tells of it."""

    def above(self) -> ComposeResult:
        yield Told(id="cautions", classes="caution")
        yield Static("", id="waits", classes="quiet")

    def on_mount(self) -> None:
        kept = self.app.drafts.read(self._form.name, self._known)
        if kept and kept.progress.get("recipe") == self._answers.get("recipe"):
            self._take_up(kept.progress)
        self.set_interval(1, self._tell_waits)

    def _take_up(self, progress: dict[str, Any]) -> None:
        """Go on where it was left."""
        self._ticked = {int(step) for step in progress.get("done", [])}
        self._poured, self._notes = int(progress.get("poured", 1)), [str(note) for note in progress.get("notes", [])]
        self._waits = waits_in(progress)

    def _keep(self) -> None:
        progress = {
            "done": sorted(self._ticked),
            "poured": self._poured,
            "notes": self._notes,
            "waits": waits_kept(self._waits),
            "recipe": self._answers.get("recipe"),
        }
        answers = self._answers
        self._keep_in_thread(json.loads(json.dumps(progress)), answers)

    @work(group="keep")
    async def _keep_in_thread(self, progress: dict[str, Any], answers: Answers) -> None:
        drafts, words = self.app.drafts, self._words
        await self.app.database.run(lambda store: drafts.keep(self._form.name, self._known, answers, words, progress))

    def to_book(self) -> dict[str, str]:
        """Return the answers as they are booked: the fills that were poured, and what was seen on the way."""
        if not self._fills:
            return self._answers
        return self._answers | {"fills": str(self._poured)} | ({"notes": "\n".join(self._notes)} if self._notes else {})

    def read(self, store: Store) -> Sequence[Entry]:
        answers = self.to_book()
        by = self.app.by or working_people(store)[0].initials
        occasion = self.app.occasion(by, answers.get("why"), moment_of(self.app, answers.get("day")))
        try:
            plan: Any = self._form.act(store, occasion, answers, dry_run=True, confirmed=None)
        except StockroomError as error:
            self._trouble = error.message
            return self.entries
        self._trouble, self._waits_for = None, self._form.waits(plan)
        if self._planned is None:
            self._planned = self._fills_planned(store, occasion)
        self._steps = [step for step in plan.steps if not step.caution]
        self._cautions = cautions_text(plan.steps, plan.cautions)
        return self._entries()

    def _fills_planned(self, store: Store, occasion: Occasion) -> int | None:
        """Ask how many fills the form itself says; None where there are none, or more than the shelf has."""
        if not self._fills:
            return None
        try:
            plan: Any = self._form.act(store, occasion, self._answers, dry_run=True, confirmed=None)
        except StockroomError:
            return None
        return int(plan.fills)

    def _entries(self) -> Sequence[Entry]:
        return [
            Entry(
                key=str(number),
                words=self._line(number, step),
                does="take the tick away" if number in self._ticked else "tick it off",
            )
            for number, step in enumerate(self._steps)
        ]

    def _line(self, number: int, step: StepToDo) -> Content:
        wait = f"  (then wait {one_line(step.wait)})" if step.wait else ""
        done = number in self._ticked
        return Content.assemble(
            ("[x] " if done else "[ ] ", "bold"),
            (f"{number + 1:>2}. {one_line(step.words)}{wait}", "dim" if done else ""),
        )

    def fill(self, found: Sequence[Entry]) -> None:
        super().fill(found)
        told = self._cautions
        if self._trouble:
            told = Content.assemble(
                ("! ", "bold $text-error"), on_screen(self._trouble), "\n" if told.plain else "", told
            )
        self.query_one("#cautions", Told).tell(told)
        self._run_waits()
        self._tell_waits()
        self._mark_next()

    def _mark_next(self) -> None:
        left = [number for number in range(len(self._steps)) if number not in self._ticked]
        if left:
            self.query_one("Entries").highlighted = left[0]  # type: ignore[attr-defined]

    def heading(self) -> str:
        title = self._form.question(self._words).rstrip("?")
        planned = (
            f" of {self._planned}" if self._planned and self._planned > 1 and self._planned >= self._poured else ""
        )
        fill = f", fill {self._poured}{planned}" if self._fills else ""
        return one_line(f"{title}{fill}: {len(self._ticked)} of {len(self._steps)} steps")

    def go_on(self, key: str) -> None:
        self.action_tick()

    def action_tick(self) -> None:
        """Tick the marked step off, or take the tick away."""
        if self.marked is None:
            return
        number, now = int(self.marked.key), self.app.waiting.clock()
        for step in [step for step, wait in self._waits.items() if step == number or wait.until <= now]:
            self._stop_wait(step)  # the work goes on: what is over need not be told any more
        if number in self._ticked:
            self._ticked.discard(number)
        else:
            self._ticked.add(number)
            wait, words = self._steps[number].wait, one_line(self._steps[number].words)
            if wait:
                self._waits[number] = Wait(until=now + length_of(wait), words=words, next_words="")
        self._waits = {step: replace(wait, next_words=self._after(step)) for step, wait in self._waits.items()}
        self._keep()
        self.fill(self._entries())

    def _after(self, number: int) -> str:
        """Say what is done once the wait of a step is over."""
        left = [step for step in range(number + 1, len(self._steps)) if step not in self._ticked]
        return one_line(f"Next: {self._steps[left[0]].words}" if left else "It was the last step.")

    def _step(self, number: int) -> Step:
        return Step(self._form.name, frozenset(self._known.items()), number)

    def _run_waits(self) -> None:
        for number, wait in self._waits.items():
            self.app.waiting.begin(self._step(number), wait)

    def _stop_wait(self, number: int) -> None:
        del self._waits[number]
        self.app.waiting.stop(self._step(number))

    def _tell_waits(self) -> None:
        """Say how long each wait still takes, and what was noted."""
        now = self.app.waiting.clock()
        told = []
        for number, wait in sorted(self._waits.items()):
            told.append(f"step {number + 1}: {wait_words(wait, now, self.app.studio.zone)}")
        told += self._notes
        if self._steps and len(self._ticked) == len(self._steps):
            told.append(f"All is done: Ctrl+S books it{', F pours one more fill' if self._fills else ''}.")
        waits = self.query_one("#waits", Static)
        waits.display = bool(told)
        waits.update(Content("\n".join(one_line(line) for line in told)))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in ("fill", "stop"):
            return self._fills
        return super().check_action(action, parameters)

    @work
    async def action_fill(self) -> None:
        """Note the water of this fill; the next one is poured, and its steps are to be done again."""
        if await self._note(f"Fill {self._poured} comes out"):
            self._poured += 1
            self._ticked.clear()
            self._stop_waits()
            self._keep()
            self.load()

    @work
    async def action_stop(self) -> None:
        """Note when it was stopped and why, and go on to booking what was poured."""
        if await self._note(f"Stopped early in fill {self._poured}"):
            self._stop_waits()
            self._keep()
            self.load()
            await self._book()

    async def _note(self, what: str) -> bool:
        at = f"{self.app.local:%H:%M}"
        explained = f"{what} at {at}. What colour is the water? Add what else you saw; it stays in the record."
        seen = await self.app.push_screen_wait(AskText(what, explained, offered="clear"))
        if seen:
            self._notes.append(f"{at} {what.lower()}: water {seen}")
        return bool(seen)

    def _stop_waits(self) -> None:
        for number in list(self._waits):
            self._stop_wait(number)

    @work
    async def action_book(self) -> None:
        await self._book()

    async def _book(self) -> None:
        if self._waits_for:
            words = "Measure it, go back with Esc, and fill in Added and Reached: only then it can be booked."
            self.notify(on_screen(words), title=on_screen(self._waits_for), markup=False)
            return
        done = await book_form(self.app, self._form, self.to_book(), self._words, self._known)
        if done is None:
            return
        self._stop_waits()
        self.done = done
        self.dismiss()

    def action_back(self) -> None:
        self.dismiss()
