"""The bench book on screen: what the studio calls its own is added, changed, retired and taken back."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from stockroom.actions.measures import new_measure
from stockroom.actions.suppliers import new_supplier
from stockroom.domain.occasion import Occasion
from stockroom.store.edits import edits_of
from stockroom.store.materials import find_material
from stockroom.store.offers import current_offers
from stockroom.store.open import Store
from stockroom.store.studio import all_people, all_places, find_measure
from stockroom.store.suppliers import all_suppliers
from stockroom.tui.bench_book.nouns import NOUNS
from stockroom.tui.forms import find_form
from stockroom.tui.forms.form import work_out
from stockroom.tui.screens.thing import open_thing


async def confirm(shown, *told: str, verb: str = "Keep") -> None:  # type: ignore[no-untyped-def]
    """Show what would be kept once more, keep it, and close what tells of it."""
    key = verb[0].lower()
    await shown.sees(f"^s {verb} it")
    await shown.press("ctrl+s")
    await shown.sees(f"{key} {verb} it", f"{key} {verb.lower()}s it. Esc goes back: nothing is done until you say so.")
    await shown.press(key)
    await shown.sees("Enter when you have read it.", *told)
    assert " . Enter" not in shown.text
    await shown.press("enter")
    await shown.until(lambda: not shown.screen.is_modal, "the result to close")


async def put(shown, field: str, text: str) -> None:  # type: ignore[no-untyped-def]
    """Put an answer into a field of a form, of whatever kind it is."""
    await shown.until(lambda: hasattr(shown.screen, "_fields") and shown.screen._ready, "the form")
    shown.screen._fields.lines[field].put(text)
    await shown.pilot.pause(0)


async def test_it_is_one_key_away_and_narrowed_by_words_and_kinds(screens, stocked) -> None:
    async with screens(size=(80, 24)) as shown:
        await shown.press("f12")
        await shown.sees("The bench book: ", "[All]Recipes", "Calcium hydroxide bath, 1 in 2")
        await shown.press("tab")
        await shown.sees("[Recipes]", "Recipes: ")
        await shown.fill("words", "calcium saturated")
        await shown.sees("Recipes: 1", "Calcium hydroxide solution, saturated")
        await shown.press("shift+tab")
        await shown.sees("[All]")
        await shown.fill("words", "no such thing")
        await shown.sees("Nothing in the bench book has these words.")
        await shown.press("tab")
        await shown.fill("words", "places shelf")
        await shown.sees("Recipes: none has these words, 1 of other kinds. Enter shows them.")
        await shown.press("enter")
        await shown.sees("The bench book: 1", "Places")
        await shown.press("enter")
        await shown.sees("What is kept there", stocked["lime"], "e Change", "x Retire")


async def test_a_place_is_named_renamed_retired_and_taken_back(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("new-place")
        await put(shown, "name", "Shelf")
        await shown.sees("! There is a place 'shelf' already.")
        await put(shown, "name", "Drawer [b2]")
        await confirm(shown, "Kept: Drawer [b2]")
        await shown.sees("Drawer [b2]", "Nothing is kept there.")
        await shown.press("e")
        await put(shown, "name", "Drawer 2")
        await put(shown, "why", "painted")
        await shown.sees("name: Drawer [b2] → Drawer 2")
        await confirm(shown, "Kept: Drawer 2")
        await shown.sees("name Drawer [b2] → Drawer 2 (painted)")
        await shown.press("x")
        await shown.sees("Retire: offer it no more", "offered no more")
        await confirm(shown, "Retired: Drawer 2", verb="Retire")
        await shown.sees("retired on 2026-11-25", "b Back into use")
        await shown.press("b")
        await confirm(shown, "In use again: Drawer 2")
        await shown.until(lambda: "retired on 2026" not in shown.text.splitlines()[1], "the page as it is now")
        shown.app.open_form(
            "retire", noun="place", of=str(next(one.id for one in all_places(store) if one.name == "shelf"))
        )
        await shown.sees("! shelf still holds")
        await shown.press("escape")
    assert "Drawer 2" in [one.name for one in all_places(store)]


async def test_hazards_of_a_material_are_changed_with_a_reason(screens, store: Store) -> None:
    async with screens(size=(120, 40)) as shown:
        shown.app.open_form("edit-material", of="acetone")
        await shown.sees("Nothing is changed yet", "flame")
        await put(shown, "hazards", "H2 burns")
        await shown.sees("Look again at: Hazards", "accepted is a code")
        await put(shown, "hazards", "H225 Highly flammable liquid and vapour")
        await shown.sees("! Why do the hazards change (hazards)?")
        await put(shown, "why", "sheet of 3 May")
        await shown.sees("hazards: ", "→ H225", "it leaves out H3")
        await confirm(shown, "Kept: Acetone")
    assert find_material(store, "acetone").hazards == ("H225 Highly flammable liquid and vapour",)
    assert [row["reason"] for row in edits_of(store, "material", "acetone")] == ["sheet of 3 May"]


async def test_what_is_wrong_with_a_long_field_is_seen_where_there_is_little_room(screens, store: Store) -> None:
    async with screens(size=(80, 24)) as shown:
        shown.app.open_form("edit-material", of="acetone")
        await shown.sees("Nothing is changed yet")
        shown.screen.query_one("#hazards").focus()
        await shown.press("x")
        await shown.sees("Look again at: Hazards", "is a code and its words", "damage.")
        await shown.press("ctrl+r", "escape")


async def test_a_material_is_added_with_pictograms_in_words(screens, store: Store) -> None:
    async with screens(size=(120, 40)) as shown:
        shown.app.open_form("new-material")
        await put(shown, "name", "Agar")
        await shown.sees("Still to fill in: Measured by")
        await put(shown, "measured_by", "mass")
        await put(shown, "pictograms", "corosion")
        await shown.sees("Look again at: Pictograms", "'corosion' is no pictogram")
        await put(shown, "pictograms", "corrosion, flame")
        await put(shown, "low", "2 L")
        await shown.sees("Look again at: Buy when below")
        await put(shown, "low", "100 g")
        await shown.sees("GHS05 corrosion", "GHS02 flame")
        await confirm(shown, "Kept: Agar")
        await shown.sees("What its label warns of", "corrosion (GHS05)", "Price and order", "100 g")
    assert find_material(store, "agar").pictograms == ("GHS05", "GHS02")


async def test_people_measures_and_suppliers_are_added(screens, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("new-person")
        await put(shown, "initials", "ab")
        await put(shown, "name", "Another")
        await shown.sees("! AB belongs to")
        await put(shown, "initials", "CD")
        await confirm(shown, "Kept: Another")
        await shown.sees("CD Another", "Nothing is left open.")
        shown.app.open_form("new-measure")
        await put(shown, "name", "blue spoon")
        await put(shown, "kind", "balance")
        await shown.sees("Smallest step", "Still to fill in: Smallest step")
        await put(shown, "kind", "spoon")
        await put(shown, "capacity", "2.5 g")
        await shown.sees("Look again at: Holds")
        await put(shown, "capacity", "2.5 mL")
        await confirm(shown, "Kept: blue spoon")
        await shown.sees("capacity  2.5 mL", "Spoonfuls weighed", "None yet", "w Weigh spoonfuls")
        shown.app.open_form("new-supplier")
        await put(shown, "name", "Paper goods")
        await put(shown, "delivery", "ten")
        await shown.sees("Look again at: Delivery, days")
        await put(shown, "delivery", "10")
        await put(shown, "minimum_order", "50.00")
        await confirm(shown, "Kept: Paper goods")
        await shown.sees("10 days, as promised", "50.00 EUR")
    assert [one.initials for one in all_people(store)] == ["AB", "CD"]
    assert find_measure(store, "blue spoon").capacity_ul == 2500
    assert [one.lead_days for one in all_suppliers(store)] == [10]


def test_every_kind_has_its_forms_and_a_page(store: Store) -> None:
    for each in NOUNS.values():
        assert find_form(each.new).name == each.new
        assert find_form(each.edit).name == each.edit


@pytest.mark.parametrize("name", [name for each in NOUNS.values() for name in (each.new, each.edit)])
def test_what_stands_in_an_empty_field_is_not_cut_off(name: str) -> None:
    """The narrowest place for a field of one line is beside the plan, on a wide screen: 39 columns."""
    for asked in find_form(name).fields:
        assert asked.rows or len(asked.hint) <= 39, asked.hint
        assert len(asked.words) <= 16, asked.words


async def test_what_a_supplier_asks_is_kept_and_ended_on_its_page(screens, store: Store) -> None:
    supplier = new_supplier(store, "Laboratory [A3]", delivery=5)
    async with screens(size=(100, 30)) as shown:
        open_thing(shown.app, "supplier", str(supplier.id))
        await shown.sees("Nothing it asks is kept yet", "o Price seen")
        await shown.press("o")
        await put(shown, "material", "acetone")
        await put(shown, "pack", "2 sheets")
        await shown.sees("Look again at: Pack")
        await put(shown, "pack", "1 L")
        await put(shown, "price", "9,80 or so")
        await shown.sees("! ")
        await put(shown, "price", "9.80")
        await put(shown, "breaks", "10 = 8.50")
        await shown.sees("1 L for 9.80 EUR, from 10 packs 8.50 EUR")
        await confirm(shown, "Kept: a price of Laboratory [A3]")
        await shown.sees("Acetone: 1 L for 9.80 EUR, from 10 packs 8.50 EUR, seen 2026-11-25")
        await shown.press("d")
        await put(shown, "material", "acetone")
        await shown.sees("no more")
        await confirm(shown, "Sold no more: a pack of Laboratory [A3]", verb="Note")
        await shown.sees("Nothing it asks is kept yet")
    assert current_offers(store) == []


async def test_what_a_spoon_holds_is_weighed_from_its_page(screens, store: Store) -> None:
    spoon, beaker = (
        new_measure(store, "blue", "spoon", capacity="1.25 mL"),
        new_measure(store, "jug", "beaker", capacity="500 mL"),
    )
    async with screens(size=(100, 30)) as shown:
        open_thing(shown.app, "measure", str(beaker.id))
        await shown.sees("capacity  500 mL", "e Change")
        assert "Weigh spoonfuls" not in shown.text
        open_thing(shown.app, "measure", str(spoon.id))
        await shown.sees("w Weigh spoonfuls")
        await shown.press("w")
        await put(shown, "material", "methyl-cellulose")
        await put(shown, "masses", "0.5 g, 2 mL")
        await shown.sees("Look again at: Spoonfuls")
        await put(shown, "masses", "0,52 g, 0,55 g; 0.5 g,0,6 g")
        await shown.sees("520 mg, 550 mg, 500 mg, 600 mg")
        await put(shown, "masses", "0.5 g, 2 g")
        await shown.sees("is no one spoonful")
        await put(shown, "masses", "0.5 g, 0.55 g")
        await confirm(shown, "Kept: what blue holds")
        await shown.sees("Weighed, levelled", "500 mg, 550 mg (2026-11-25, AB)")


def test_the_day_of_a_safety_sheet_is_read_as_any_day_that_is_typed(
    store: Store, occasion: Callable[..., Occasion]
) -> None:
    form, answers = find_form("edit-material"), {"of": "acetone", "name": "Acetone", "safety_sheet_date": "2024-31-31"}
    assert set(work_out(form, store, occasion(), answers).wrong) == {"safety_sheet_date"}
    plan = work_out(form, store, occasion(why="so"), {**answers, "safety_sheet_date": "yesterday"}).plan
    assert plan is not None
    assert [one.became for one in plan.changed if one.field == "safety_sheet_date"] == ["2026-11-24"]
