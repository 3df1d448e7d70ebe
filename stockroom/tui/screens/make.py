"""Making up a solution: choose the recipe, say how much, see the plan, book it, label the jar."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on, work
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input

from stockroom.actions.making import Making, make
from stockroom.domain.occasion import Occasion
from stockroom.science.quantities import show
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes, find_recipe
from stockroom.tui.booking import Act
from stockroom.tui.next_step import show_result
from stockroom.tui.questions.choice import Offer
from stockroom.tui.screens.form import Field, FormScreen
from stockroom.tui.texts import made_text, making_text
from stockroom.tui.widgets.chosen import Chosen


class MakeScreen(FormScreen[Making]):
    """A stock solution, kept in jars."""

    AREA = "make"
    HELP = """
Making up a stock solution. Enter on the first line chooses the recipe. Write amounts as
you would say them: 500 mL, 1.5 l, ½ L. Jars: 2 x 500 mL; the first ones are filled full.

The plan is worked out while you type: what is drawn from which lot, oldest date first, the
steps, the strength, the dates and the cost, or exactly what is short. Enter in a field, or
Ctrl+S, shows it once more and asks. Page up and page down move the plan.
"""

    def fields(self) -> ComposeResult:
        yield Field("Recipe", Chosen("Enter chooses a recipe", id="recipe"))
        yield Field("How much", Input(placeholder="the recipe's own amount", compact=True, id="amount"))
        yield Field("Jars", Input(placeholder="one jar, or for example 2 x 500 mL", compact=True, id="jars"))
        yield Field("Place", Input(placeholder="where it will stand", compact=True, id="place"))

    def still_to_choose(self) -> str:
        return "Choose a recipe: Enter on the first line. The plan appears here while you type."

    def act(self) -> Act[Making] | None:
        recipe = self.query_one("#recipe", Chosen).key
        if recipe is None:
            return None
        amount, jars, place, choices = self.typed("amount"), self.typed("jars"), self.typed("place"), self.choices()

        def act(store: Store, occasion: Occasion, *, dry_run: bool, confirmed: Making | None) -> Making:
            return make(
                store,
                occasion,
                recipe,
                amount,
                into=jars,
                choices=choices,
                place=place,
                dry_run=dry_run,
                confirmed=confirmed,
            )

        return act

    def told(self, plan: Making) -> Content:
        return making_text(plan, self.app.studio.currency)

    def waits_for(self, plan: Making) -> str | None:
        return plan.waits_for

    def question(self) -> str:
        return f"Make up {self.query_one('#recipe', Chosen).words}?"

    def put_in(self, **known: str) -> None:
        self._put_in(known)

    @work
    async def _put_in(self, known: dict[str, str]) -> None:
        recipe = await self.app.ask_database(lambda store: find_recipe(store, known["recipe"]))
        if recipe:
            self.query_one("#recipe", Chosen).choose(recipe.key, recipe.name)
            self.query_one("#amount", Input).focus()

    @on(Chosen.Ask, "#recipe")
    @work
    async def ask_recipe(self, event: Chosen.Ask) -> None:
        none = "There is no recipe for a stock yet: 'stockroom recipe new'."
        await self.offer(event.chosen, "Which recipe?", stocks, none, event.typed)

    async def after(self, done: Making) -> None:
        title = f"Made: {done.material_name}"
        lot = next((code for code in done.codes if code), None)
        await show_result(self.app, title, made_text(done, self.app.studio.currency), action=done.action, lot=lot)


def stocks(store: Store) -> Sequence[Offer]:
    """Return the recipes for what is kept in jars."""
    return [
        Offer(
            key=one.key,
            words=one.name,
            detail=f"usually {show(one.version.batch)}" if one.version.batch else "",
        )
        for one in all_recipes(store)
        if one.kind == "stock"
    ]
