"""Text that people typed is shown as typed on every screen: never markup, never an emoji code, never an escape."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, datetime

import pytest

from stockroom.actions.bookings import book
from stockroom.actions.jobs import new_job
from stockroom.actions.materials import edit_material
from stockroom.actions.offers import Asked, new_offer
from stockroom.actions.ordering import draft_order
from stockroom.actions.quoting import give_quote
from stockroom.actions.receiving import Delivery, receive
from stockroom.actions.suppliers import new_supplier
from stockroom.actions.using import use
from stockroom.domain.occasion import Occasion
from stockroom.errors import StockroomError
from stockroom.store.jobs import all_jobs
from stockroom.store.lots import find_lot
from stockroom.store.materials import all_materials
from stockroom.store.open import Store
from stockroom.store.recipes import all_recipes
from stockroom.store.studio import all_places
from stockroom.tui.bench_book.nouns import all_things
from stockroom.tui.forms import FORMS, find_form
from stockroom.tui.forms.form import work_out
from stockroom.tui.papers import PAPERS, find_paper
from stockroom.tui.papers.asked import TODAY
from stockroom.tui.questions.label import How, preview_labels
from stockroom.tui.screens.bench_book import BenchBookScreen
from stockroom.tui.screens.buy import BuyScreen
from stockroom.tui.screens.jar import JarScreen
from stockroom.tui.screens.job import JobScreen
from stockroom.tui.screens.label import LabelScreen
from stockroom.tui.screens.order import OrderScreen
from stockroom.tui.screens.papers import draw_up, open_paper
from stockroom.tui.screens.plan import PlanScreen
from stockroom.tui.screens.quote import QuoteScreen
from stockroom.tui.screens.statement import StatementScreen
from stockroom.tui.screens.stock import StockScreen
from stockroom.tui.screens.thing import ThingScreen
from stockroom.tui.screens.trace import TraceScreen
from stockroom.tui.widgets.line import Line

NOW = datetime(2026, 11, 25, 13, 10, tzinfo=UTC)

HOSTILE = [
    "[A3] kozo",
    "[/]",
    "[/red]",
    "drawer [b2]",
    "x [red]y",
    "1:100:5",
    "a [b=1",
    "=1+1",
    "'quoted' \"twice\"",
    "😀 :smile:",
    "مرحبا",
    "two\nlines\tand a tab",
    "escape \x1b[31m red",
    "[@click=app.quit]leave[/]",
    "$primary $name",
]


def shown_as(text: str) -> str:
    """Say how a text is shown: control characters made visible, white space as one space."""
    return " ".join(text.replace("\x1b", "[U+001B]").split())


def rename(store: Store, occasion: Callable[..., Occasion]) -> dict[str, str]:
    """Give materials with a lot past its date, recipes, places and jobs hostile names; return each name's lot."""
    materials = [one for one in all_materials(store) if one.metered and one.dimension == "volume"]
    materials += [one for one in all_materials(store) if one.metered and one.dimension == "mass"]
    lots: dict[str, str] = {}
    for text, material in zip(HOSTILE, materials, strict=False):
        with store.write():
            store.run(
                "UPDATE material SET name = :name, low_quanta = 9000000000 WHERE key = :key",
                name=text,
                key=material.key,
            )
            store.run("INSERT INTO place (name) VALUES (:name)", name=f"{text} place")
        amount = "1 L" if material.dimension == "volume" else "1 kg"
        came = Delivery(
            material=material.key, quantity=amount, cost=9, use_by="2026-11-20", place=f"{text} place", lot_number=text
        )
        lots[text] = str(receive(store, occasion("2026-11-01", why=text), came).codes[0])
        new_job(store, text, today=occasion().today, client=text, objects=(f"{text}, 30 x 40 cm",))
    for kind in ("stock", "bath", "treatment"):
        recipes = [one for one in all_recipes(store) if one.kind == kind]
        with store.write():
            for text, recipe in zip(HOSTILE, recipes, strict=False):
                store.run("UPDATE recipe SET name = :name WHERE key = :key", name=text, key=recipe.key)
    return lots


async def test_hostile_names_are_shown_as_typed_on_every_screen(
    screens, store: Store, occasion: Callable[..., Occasion]
) -> None:
    lots = rename(store, occasion)
    assert list(lots) == HOSTILE
    named = [shown_as(text) for text in HOSTILE]
    async with screens(size=(120, 60)) as shown:
        await shown.sees("! past use-by", *named)
        await shown.press("f3")
        await shown.sees("15 lots", *named)
        for text, code in lots.items():
            await shown.fill("words", code)
            await shown.press("enter")
            await shown.sees("What was done", code, f"{shown_as(text)} place", "█▀▀▀█")  # its label beside it
            await shown.press("escape")
            await shown.sees("[F3 Shelf]", "State")
        await shown.press("f4", "enter")
        await shown.sees("Recipe?", *named[: sum(one.kind == "stock" for one in all_recipes(store))])
        await shown.press("escape", "f5", "enter")
        await shown.sees("Treatment?", named[0], named[1])
        await shown.press("escape", "tab", "enter")
        await shown.sees("Job?", *named)
        await shown.press("escape", "f7")
        await shown.sees("15 jobs", *named)
        await shown.fill("words", "two")
        await shown.sees("1 job")
        await shown.press("enter")
        await shown.sees("Booked, and done", f"for       {named[11]}", f"1 {named[11]}, 30 x 40 cm")
        await shown.press("escape", "f9")
        await shown.sees("materials to buy", *named)
        await shown.press("f10")
        await shown.sees("Count which place?", *(f"{name} place" for name in named))
        await shown.press("ctrl+f")
        await shown.answer("kozo")
        await shown.sees(named[0], "found")
        await shown.press("escape", "f2", "u")
        await shown.sees("Undo which?", named[-1])
        await shown.press("escape")


async def test_hostile_names_are_shown_as_typed_where_they_are_drawn(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    """Buying, orders, stock ahead, a jar over time, the weeks, a job's bars, its statement and quote, and traces."""
    use(store, occasion("2026-11-20"), "calcium-hydroxide-1-in-4", stocked["job"], fill="400 mL", fills=1, tested="AB")
    today = occasion().today
    book(store, "calcium-hydroxide-1-in-4", stocked["job"], today, today=today, fill="8 L", fills=1)
    new_supplier(store, "Laboratory")
    new_offer(store, occasion(), Asked(supplier="Laboratory", material="calcium-hydroxide", pack="1 kg", price="9.80"))
    order = draft_order(store, occasion(), "Laboratory", "note").code
    quote = give_quote(store, occasion(), stocked["job"], note="[A3] [/red] :smile:").code
    edit_material(store, occasion(), "calcium-hydroxide", {"low": "600 g"})
    for text in HOSTILE[1::3]:
        named = shown_as(text)
        with store.write():
            for sql in (
                "UPDATE supplier SET name = :text",
                "UPDATE purchase_order SET note = :text",
                "UPDATE material SET name = :text WHERE key = 'calcium-hydroxide'",
                "UPDATE material SET name = :text WHERE key = 'calcium-hydroxide-solution'",
                "UPDATE recipe SET name = :text WHERE key = 'calcium-hydroxide-1-in-4'",
                "UPDATE job SET title = :text, client = :text",
                "UPDATE place SET note = :text",
            ):
                store.run(sql, text=text if "material" not in sql else f"{text} {'jar' if 'solution' in sql else ''}")
        pages = (
            BuyScreen(),
            OrderScreen(order),
            StockScreen("calcium-hydroxide"),
            JarScreen(stocked["jar"]),
            LabelScreen(stocked["jar"]),
            PlanScreen(),
            JobScreen(stocked["job"]),
            StatementScreen(stocked["job"]),
            QuoteScreen(quote),
            TraceScreen(stocked["lime"]),
            TraceScreen(stocked["job"]),
            ThingScreen("material", "calcium-hydroxide"),
            ThingScreen("recipe", "calcium-hydroxide-1-in-4"),
            ThingScreen("supplier", "1"),
            ThingScreen("place", next(str(one.id) for one in all_places(store) if one.note == text)),
            BenchBookScreen(),
        )
        async with screens(size=(120, 60)) as shown:
            for page in pages:
                shown.app.push_screen(page)
                await shown.until(lambda page=page: shown.screen is page, "the page")
                await shown.sees(named)
                await shown.press("escape")


async def test_hostile_names_are_shown_as_typed_on_papers(
    screens, store: Store, occasion: Callable[..., Occasion]
) -> None:
    lots = rename(store, occasion)
    job = next(one.code for one in all_jobs(store) if one.title == HOSTILE[0])
    async with screens(size=(120, 120)) as shown:
        open_paper(shown.app, "value", lots="yes")
        await shown.sees(*(shown_as(text) for text in HOSTILE))
        for name, known, text in (
            ("held", {"place": f"{HOSTILE[3]} place"}, HOSTILE[3]),
            ("recall", {"maker_lot": HOSTILE[1]}, HOSTILE[1]),
            ("register", {"material": find_lot(store, lots[HOSTILE[2]]).material.key}, HOSTILE[2]),
            ("statement", {"job": job}, HOSTILE[0]),
            ("final", {"job": job}, HOSTILE[0]),
        ):
            await shown.press("escape")
            open_paper(shown.app, name, **known)
            await shown.sees(find_paper(name).title, shown_as(text))
            await shown.until(lambda: shown.screen._paper is not None, "the paper")


@pytest.mark.parametrize("name", PAPERS)
def test_hostile_text_in_every_field_of_a_paper_is_answered_in_words(stocked, store: Store, name: str) -> None:
    """Whatever stands in a field: a paper, or words; never a fault."""
    asked, known = find_paper(name), {"material": "acetone", "job": stocked["job"], TODAY: "2026-11-25"}
    for field in asked.fields:
        for text in HOSTILE:
            found = draw_up(asked, store, {**known, field.key: " ".join(text.split())}, NOW)
            assert found.paper or found.trouble


async def test_a_paper_full_of_hostile_text_is_shown(screens, stocked) -> None:
    async with screens(size=(120, 60)) as shown:
        for name in PAPERS:
            open_paper(shown.app, name)
            await shown.sees(find_paper(name).use)
            for line, text in zip(shown.screen.query(Line), HOSTILE, strict=False):
                line.put(" ".join(text.split()), " ".join(text.split()))
            await shown.sees(shown_as(HOSTILE[0]), "! ")
            await shown.press("escape")


async def test_a_reason_is_kept_and_shown_as_typed(screens, stocked, store: Store) -> None:
    for text in ("[/]", "escape \x1b[31m red", "😀 :smile: 1:100:5"):
        async with screens() as shown:
            await shown.press("L")
            await shown.answer(stocked["jar"])
            await shown.press("enter")
            await shown.sees("What was done")
            await shown.press("x")
            await shown.sees("Throw away")
            await shown.fill("amount", "1 mL")
            await shown.fill("why", text)
            await shown.press("ctrl+s")
            await shown.sees("nothing is done until you say so")
            await shown.press("b")
            await shown.sees("Thrown away")
            await shown.press("enter")
            await shown.press("down")
            await shown.sees(f": {shown_as(text)}; u undoes it")
    reasons = [row["reason"] for row in store.rows("SELECT reason FROM action WHERE kind = 'discard' ORDER BY number")]
    assert reasons == ["[/]", "escape \x1b[31m red", "😀 :smile: 1:100:5"]


async def test_hostile_text_in_a_code_or_search_is_answered_in_words(screens, stocked) -> None:
    async with screens() as shown:
        for text in HOSTILE:
            await shown.press("L")
            await shown.answer(" ".join(text.split()))
            await shown.press("enter")
            await shown.sees("! ")
            await shown.press("escape")
        await shown.press("f3")
        for text in HOSTILE:
            await shown.fill("words", " ".join(text.split()))
            await shown.press("enter")
            await shown.sees("No lot has these words", "! ")


@pytest.mark.parametrize("field", ["copies", "first", "stock", "size", "printer"])
def test_hostile_text_in_what_is_wanted_of_a_label_is_answered_in_words(stocked, store: Store, field: str) -> None:
    for text in HOSTILE:
        with suppress(StockroomError):
            preview, _ = preview_labels(store, [stocked["jar"]], How(**{field: text}))
            assert preview.sketch


def known_of(stocked: dict[str, str]) -> dict[str, str]:
    """Answer every choice with something that is there, so that each form comes as far as its action."""
    return {
        "lot": stocked["jar"],
        "job": stocked["job"],
        "material": "acetone",
        "method": "titration",
        "of": stocked["receipt"],
        "booking": "K001W",
        "why": "because",
        "cost": "1.00",
        "amount": "1 mL",
    }


ABOUT = {
    "new-recipe": {"name": "Mine", "kind": "bath", "lines": "deionised-water = make up"},
    "edit-recipe": {"of": "calcium-hydroxide-1-in-4", "name": "Mine", "lines": "deionised-water = make up"},
    "new-material": {"name": "Mine", "measured_by": "mass"},
    "edit-material": {"of": "acetone", "name": "Mine"},
    "new-place": {"name": "Mine"},
    "edit-place": {"of": "1", "name": "Mine"},
    "new-measure": {"name": "Mine", "kind": "spoon", "capacity": "5 mL"},
    "new-person": {"name": "Mine", "initials": "MI"},
    "edit-person": {"of": "AB", "name": "Mine"},
    "studio-choices": {"dates": "day-first", "limit": "85 %"},
    "new-supplier": {"name": "Mine"},
    "new-label-stock": {"name": "Mine", "label": "70 x 37 mm"},
    "new-printer": {"name": "Mine", "measured": "149.2 x 150.6 mm"},
    "retire": {"noun": "material", "of": "acetone"},
}
"""What the forms of the bench book are about, so that each comes as far as its action."""


@pytest.mark.parametrize("name", FORMS)
def test_hostile_text_in_every_field_of_a_form_is_answered_in_words(
    stocked, store: Store, occasion: Callable[..., Occasion], name: str
) -> None:
    """Whatever stands in a field: a plan, or words; never a fault, and nothing is booked."""
    form, before = find_form(name), (store.revision(), all_things(store))
    for recipe in ("calcium-hydroxide-saturated", "calcium-hydroxide-1-in-4"):
        known = {**known_of(stocked), "recipe": recipe, **ABOUT.get(name, {})}
        for asked in form.fields:
            for text in HOSTILE:
                typed = text if asked.rows else " ".join(text.split())
                worked = work_out(form, store, occasion(), {**known, asked.key: typed})
                assert worked.plan or worked.trouble or worked.wrong or worked.missing
    assert (store.revision(), all_things(store)) == before


@pytest.mark.parametrize("name", ABOUT)
def test_what_is_only_shown_in_the_bench_book_is_not_kept(
    store: Store, occasion: Callable[..., Occasion], name: str
) -> None:
    before = all_things(store)
    worked = work_out(find_form(name), store, occasion(why="so"), ABOUT[name])
    assert worked.plan is not None, worked
    assert all_things(store) == before


@pytest.mark.parametrize("name", FORMS)
async def test_a_form_full_of_hostile_text_is_shown_and_books_nothing(
    screens, stocked, store: Store, name: str
) -> None:
    before = store.revision()
    async with screens(size=(120, 60)) as shown:
        shown.app.open_form(name)
        await shown.sees(find_form(name).title)
        for line, text in zip(shown.screen.query(Line), HOSTILE * 2, strict=False):
            line.put(" ".join(text.split()), " ".join(text.split()))
        shown.screen.action_more()
        await shown.sees(shown_as(HOSTILE[0]))
        shown.screen.action_clear()
        await shown.press("escape")
        await shown.sees("looking 14 days ahead")
    assert store.revision() == before
