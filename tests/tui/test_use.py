"""Using for a job on screen: what is drawn, what is short, and the booking that is done with it."""

from __future__ import annotations

import json
from collections.abc import Callable

from stockroom.actions.bookings import book
from stockroom.actions.costing import used_for
from stockroom.actions.measures import new_measure
from stockroom.actions.receiving import Delivery, receive
from stockroom.actions.recipes import new_recipe
from stockroom.domain.occasion import Occasion
from stockroom.science.quantities import show
from stockroom.store.history import actions_of_person
from stockroom.store.jobs import bookings_of, find_job
from stockroom.store.lots import find_lot, shelf
from stockroom.store.open import Store
from stockroom.tui.forms import find_form
from stockroom.tui.forms.form import work_out
from stockroom.tui.screens.form import FormScreen

BLEACH = """
[recipe]
key = "brightening"
name = "Brightening bath"
kind = "bath"
batch = "100 mL"
[[line]]
material = "hydrogen-peroxide-3"
amount = "10 mL"
"""
"""Invented: it is not a bath to use."""


async def choose_bath(shown, recipe: str = "1 in 4 calcium hydroxide bath") -> None:  # type: ignore[no-untyped-def]
    await shown.press("f5", "enter")
    await shown.answer(recipe)
    await shown.press("enter")
    await shown.until(lambda: not shown.screen.is_modal, "the recipe to be taken")
    await shown.press("enter")
    await shown.choose("harbour")


async def test_two_fills_draw_twice_from_the_jar_and_the_job_bears_the_cost(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        await choose_bath(shown, "calcium 1 in 4")
        await shown.fill("fill", "500 mL")
        await shown.fill("fills", "2")
        await shown.answer_media()
        await shown.sees("2 fills of 500 mL", "250 mL  Calcium hydroxide solution", stocked["jar"], "tested by AB")
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees(f"Used for {stocked['job']}", "250 mL")
        await shown.press("enter")
        await shown.sees("Enter chooses a job")
    assert show(find_lot(store, stocked["jar"]).amount) == "750 mL"
    assert [show(one.quantity) for one in used_for(store, find_job(store, stocked["job"]))] == ["250 mL"]


async def test_what_is_short_is_said_for_each_material_and_cannot_be_booked(screens, stocked, store: Store) -> None:
    before = store.revision()
    async with screens() as shown:
        await choose_bath(shown, "calcium 1 in 4")
        await shown.answer_media()
        await shown.fill("fill", "10 L")
        await shown.sees("Not enough on the shelf", "2.5 L needed, 1 L fit to use, 1.5 L short")
        await shown.press("ctrl+s")
        await shown.sees("! Not booked")
        await shown.press("enter")
    assert store.revision() == before


async def test_fills_that_are_no_whole_number_are_refused_in_words(screens, stocked) -> None:
    async with screens() as shown:
        await choose_bath(shown, "calcium 1 in 4")
        await shown.fill("fills", "two")
        await shown.sees("'two' is not a number of fills")


async def test_a_booking_that_is_due_opens_the_form_filled_in_and_is_done_with_it(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    receive(store, occasion(), Delivery(material="polyester-web-light", quantity="10 m2", cost=4000))
    receive(store, occasion(), Delivery(material="blotter", quantity="20 pieces", cost=4000))
    today = occasion().today
    booked = book(store, "calcium-hydroxide-1-in-4", stocked["job"], today, today=today, fill="8 L", fills=1)
    async with screens() as shown:
        await shown.sees("! short", booked.booking.code)
        await shown.press("L")
        await shown.answer(booked.booking.code)
        await shown.press("enter")
        await shown.sees("Use for a job", f"{stocked['job']} Harbour charts", "8 L")
        await shown.fill("fill", "1 L")
        await shown.answer_media()
        await shown.sees("250 mL  Calcium hydroxide solution")
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees(f"Used for {stocked['job']}")
        await shown.press("enter")
    job = find_job(store, stocked["job"])
    assert [one.state for one in bookings_of(store, job.id)] == ["done"]


async def test_the_common_cautions_stand_below_the_steps(screens, stocked) -> None:
    """What the program knows of the materials is said on screen as by command; common practice, no source."""
    async with screens(size=(120, 60)) as shown:
        await choose_bath(shown, "calcium 1 in 4")
        await shown.fill("fill", "500 mL")
        await shown.sees(
            "Common cautions", "nothing goes back into", "Local rules say what may go down the drain, into"
        )


async def choose_answer(shown, words: str) -> None:  # type: ignore[no-untyped-def]
    shown.screen.query_one("#tested").focus()
    await shown.press("enter")
    await shown.choose(words)


async def test_a_wet_treatment_is_not_booked_before_media_are_answered_for(screens, stocked, store: Store) -> None:
    """Media, inks and colours are tested before anything wet or alkaline: common practice, no source."""
    before = store.revision()
    async with screens(size=(100, 40)) as shown:
        shown.app.open_form("use", recipe="calcium-hydroxide-1-in-4", job=stocked["job"], fill="400 mL")
        await shown.sees("one fill of 400 mL", "! Media, inks and colours tested for this alkaline treatment? By whom?")
        await shown.press("ctrl+s")
        await shown.sees("Still to fill in: Media tested.")
        await shown.press("ctrl+n")
        await shown.until(lambda: isinstance(shown.screen, FormScreen), "to stay at the form")
        await choose_answer(shown, "not tested")
        await shown.press("ctrl+s")
        await shown.sees("Still to fill in: Why all the same.")
        assert store.revision() == before
        await shown.fill("not_tested", "a trial on blank paper")
        await shown.sees("NOT tested: a trial on blank paper")
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees("Used for", "NOT tested: a trial on blank")
        await shown.press("enter")
    details = json.loads(actions_of_person(store, "AB", 1)[0].details)
    assert details["media"] == {"bath": "alkaline", "by": None, "not_tested": "a trial on blank paper"}


async def test_that_nobody_was_asked_will_do_for_alkali_and_not_for_bleach(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    new_recipe(store, occasion(), BLEACH, "here")
    receive(store, occasion(), Delivery(material="hydrogen-peroxide-3", quantity="1 L", cost=550, use_by="2027-06-01"))
    async with screens(size=(100, 40)) as shown:
        shown.app.open_form("use", recipe="calcium-hydroxide-1-in-4", job=stocked["job"], fill="400 mL")
        await shown.sees("one fill of 400 mL", "By whom?")
        await choose_answer(shown, "not asked")
        await shown.press("ctrl+s")
        await shown.sees("b Book it", "nobody said whether media")
        await shown.press("escape", "ctrl+r", "escape")
        shown.app.open_form("use", recipe="brightening", job=stocked["job"])
        await shown.sees("bleaching treatment? By whom?")
        shown.screen.query_one("#tested").focus()
        await shown.press("enter")
        await shown.sees("tested by AB", "not tested")
        assert "not asked" not in shown.text
        await shown.press("escape")
        await shown.answer_media("not asked")
        await shown.press("ctrl+s")
        await shown.sees("! Not booked", "Answer it in the field Media tested; nothing was booked.")
        await shown.press("enter")


async def test_a_tray_and_a_depth_say_one_fill_and_the_record_keeps_the_tray(screens, stocked, store: Store) -> None:
    """20 x 30 cm at 8 mm is 480 mL: arithmetic."""
    new_measure(store, "small tray", "tray", size="20 x 30 cm")
    async with screens(size=(100, 40)) as shown:
        shown.app.open_form("use", recipe="calcium-hydroxide-1-in-4", job=stocked["job"])
        await shown.answer_media()
        await shown.press("ctrl+t")
        await shown.answer("small")
        await shown.sees("1 of ")
        await shown.press("enter")
        await shown.sees("How deep")
        shown.screen.query_one("#depth").value = "8 mm"
        await shown.sees("= 480 mL")
        await shown.press("enter")
        await shown.sees("small tray, 8 mm", "one fill of 480 mL")
        await shown.press("ctrl+s")
        await shown.sees("b Book it")
        await shown.press("b")
        await shown.sees("Used for")
        await shown.press("enter")
    assert json.loads(actions_of_person(store, "AB", 1)[0].details)["tray"] == "small tray, 8 mm"


async def test_as_much_as_there_is_fills_the_field_and_says_what_ends_it(screens, stocked) -> None:
    """1 L of stock makes 4 L of a bath of 1 in 4: arithmetic."""
    async with screens(size=(100, 40)) as shown:
        shown.app.open_form("use", recipe="calcium-hydroxide-1-in-4", job=stocked["job"], fills="1")
        await shown.sees("one fill of")
        await shown.press("ctrl+t")
        await shown.choose("as much")
        await shown.sees("4 L is the most that can be made", "Calcium hydroxide solution", "one fill of 4 L")


def test_offcuts_of_a_treatment_go_back_to_the_shelf(stocked, store: Store, occasion: Callable[..., Occasion]) -> None:
    """Of web of 7,000 cm2 at 7.00 a sheet, an offcut of 10 x 20 cm is worth 0.20: arithmetic."""
    for material in ("polyester-web-heavy", "blotter"):
        receive(
            store, occasion("2026-11-01"), Delivery(material=material, quantity="10 sheets", cost=7000, as_one=True)
        )
    web = shelf(store, "polyester-web-heavy")[0].code
    known = {"recipe": "press-between-webs", "job": stocked["job"], "objects": "1", "offcuts": f"{web}=10 x 20 cm"}
    worked = work_out(find_form("use"), store, occasion(), known)
    assert worked.plan is not None, worked
    assert [(one.size, one.value) for one in worked.plan.offcuts] == [("10 x 20 cm", 20)]
