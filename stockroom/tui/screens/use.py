"""Using a bath or treatment for a job: what it draws, or exactly what is short."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input

from stockroom.actions.media import read_media_answer
from stockroom.actions.using import Using, use
from stockroom.domain.jobs import Booking, Job
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.store.jobs import all_jobs, find_booking, find_job
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes, find_recipe
from stockroom.tui.booking import Act
from stockroom.tui.next_step import show_result
from stockroom.tui.questions.choice import Offer
from stockroom.tui.screens.form import Field, FormScreen
from stockroom.tui.texts import using_text
from stockroom.tui.widgets.chosen import Chosen


class UseScreen(FormScreen[Using]):
    """A bath or treatment, drawn for a job in one step."""

    AREA = "use"
    HELP = """
Using a bath or a treatment for a job. Enter on the first two lines chooses; then say how
much one fill is (2 L, or leave it to the recipe) and how many fills: a bath changed once
takes two. Objects: their numbers or names, with commas; empty means not stated. Media
tested: the initials of who tested media, inks and colours, or why nobody did.

The plan is worked out while you type. What is short is said for each material, with what
there is of it. From lots draws from the bottles you name. Enter in a field, or Ctrl+S,
shows the plan once more and asks. Page up and page down move the plan.
"""

    def __init__(self) -> None:
        super().__init__()
        self._booked: Booking | None = None

    def fields(self) -> ComposeResult:
        yield Field("Treatment", Chosen("Enter chooses a bath or treatment", id="recipe"))
        yield Field("Job", Chosen("Enter chooses a job", id="job"))
        yield Field("One fill", Input(placeholder="the recipe's own amount", compact=True, id="fill"))
        yield Field("Fills", Input(placeholder="the recipe's own number", compact=True, id="fills"))
        yield Field("Objects", Input(placeholder="not stated, or 1, 3", compact=True, id="objects"))
        yield Field("Media tested", Input(placeholder="whose initials, or why not", compact=True, id="tested"))

    def still_to_choose(self) -> str:
        return "Choose a treatment and a job: Enter on each line. The plan appears here while you type."

    def act(self) -> Act[Using] | None:
        recipe, job = self.query_one("#recipe", Chosen).key, self.query_one("#job", Chosen).key
        if recipe is None or job is None:
            return None
        fill, fills, choices = self.typed("fill"), self.typed("fills"), self.choices()
        objects = tuple(word.strip() for word in (self.typed("objects") or "").split(",") if word.strip())
        tested = self.typed("tested")
        booked = self._booked
        booking = booked.code if booked and (booked.recipe_key, booked.job_code) == (recipe, job) else None

        def act(store: Store, occasion: Occasion, *, dry_run: bool, confirmed: Using | None) -> Using:
            by, not_tested = read_media_answer(store, tested)
            return use(
                store,
                occasion,
                recipe,
                job,
                fill=fill,
                fills=read_fills(fills),
                objects=objects,
                choices=choices,
                booking=booking,
                tested=by,
                not_tested=not_tested,
                dry_run=dry_run,
                confirmed=confirmed,
            )

        return act

    def told(self, plan: Using) -> Content:
        return using_text(plan, self.app.studio.currency)

    def waits_for(self, plan: Using) -> str | None:
        return plan.waits_for

    def question(self) -> str:
        return f"{self.query_one('#recipe', Chosen).words} for {self.query_one('#job', Chosen).words}?"

    def action_clear(self) -> None:
        self._booked = None
        super().action_clear()

    def put_in(self, **known: str) -> None:
        self._put_in(known)

    @work
    async def _put_in(self, known: dict[str, str]) -> None:
        found = await self.app.ask_database(lambda store: _known(store, known))
        if found is None:
            return
        job, recipe, self._booked = found
        self.query_one("#job", Chosen).choose(job.code, f"{job.code} {job.title}")
        if recipe and self._booked:
            self.query_one("#recipe", Chosen).choose(recipe.key, recipe.name)
            fill = self._booked.fill_quanta
            self.query_one("#fill", Input).value = show(Quantity(Dimension.VOLUME, fill)) if fill else ""
            self.query_one("#fills", Input).value = str(self._booked.fills or "")
            self.query_one("#fill", Input).focus()

    @on(Chosen.Ask, "#recipe")
    @work
    async def ask_recipe(self, event: Chosen.Ask) -> None:
        none = "There is no bath or treatment yet: 'stockroom recipe new'."
        await self.offer(event.chosen, "Which bath or treatment?", treatments, none, event.typed)

    @on(Chosen.Ask, "#job")
    @work
    async def ask_job(self, event: Chosen.Ask) -> None:
        none = "No job is open: 'stockroom job new TITLE' opens one."
        await self.offer(event.chosen, "Which job?", open_jobs, none, event.typed)

    async def after(self, done: Using) -> None:
        told = using_text(done, self.app.studio.currency, steps=False)
        await show_result(self.app, f"Used for {done.job}", told, action=done.action)


def read_fills(typed: str | None) -> int | None:
    """Read a number of fills; raises BadInput for anything but a whole number."""
    if typed is None:
        return None
    if not (typed.isascii() and typed.isdecimal() and len(typed) < 4):
        raise BadInput(f"'{typed}' is not a number of fills. Write a whole number, for example 2.")
    return int(typed)


def treatments(store: Store) -> Sequence[Offer]:
    """Return the recipes that are used for objects."""
    return [Offer(key=one.key, words=one.name, detail=one.kind) for one in all_recipes(store) if one.kind != "stock"]


def open_jobs(store: Store) -> Sequence[Offer]:
    """Return the jobs to which something can be booked."""
    return [
        Offer(
            key=one.code,
            words=f"{one.code} {one.title}",
            detail=", ".join(f"{thing.position} {thing.name}" for thing in one.objects),
        )
        for one in all_jobs(store, closed=False)
    ]


def _known(store: Store, known: dict[str, str]) -> tuple[Job, Recipe | None, Booking | None]:
    if "booking" not in known:
        return find_job(store, known["job"]), None, None
    booking = find_booking(store, known["booking"])
    return find_job(store, booking.job_code), find_recipe(store, booking.recipe_key), booking
