"""Waste cans begun and ended on screen, and the books closed and opened again."""

from __future__ import annotations

from collections.abc import Callable

from stockroom.actions.discarding import discard
from stockroom.domain.occasion import Occasion
from stockroom.planning.due import Due
from stockroom.store.lots import find_lot
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import closed_until
from stockroom.store.waste_cans import waste_cans
from stockroom.tui.forms import find_form
from stockroom.tui.going_on import way_on


async def confirm(shown, *told: str) -> None:  # type: ignore[no-untyped-def]
    """Book what the form shows, and read the result."""
    await shown.press("ctrl+s")
    await shown.sees("b Book it")
    await shown.press("b")
    await shown.sees(*told)
    await shown.press("enter")


async def test_a_can_is_begun_and_ends_when_it_was_collected(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    async with screens() as shown:
        shown.app.open_form("new-can", cap="vented")
        await shown.sees("Begin a waste can", "your local rules", "Still to fill in: Written on it, Takes")
        await shown.fill("title", "Alkaline waste")
        await shown.fill("capacity", "5 kg")
        await shown.sees("! ")
        assert not waste_cans(store)
        await shown.fill("capacity", "5 L")
        await shown.sees("takes  5 L", "cap    vented")
        await confirm(shown, "Begun: Alkaline waste")
        (can,) = waste_cans(store)
        assert can.vented
        way = way_on(store, Due(kind="can-full", code=can.lot.code, name="it", by=None, why="because"))
        shown.app.open_form(way.form, **way.known)
        await shown.sees("Still to fill in: What was done", "in it  nothing was poured in yet")
        await shown.press("escape")
        discard(store, occasion(why="past its date"), stocked["old"], "100 mL", to=can.lot.code)
        jars = next(asked for asked in find_form("check").fields if asked.key == "lot").choose
        assert jars and [offer.key for offer in jars(store, {})] == [stocked["jar"]]  # what is in a can is not checked
        shown.app.open_form("end-can", lot=can.lot.code, how="collected")
        poured = f"2026-11-25 100 mL of {find_lot(store, stocked['old']).material.name} ({stocked['old']})"
        await shown.sees("Alkaline waste", "takes  5 L", f"in it  {poured}")
        await confirm(shown, "Ended: Alkaline waste", poured)
    assert not waste_cans(store)
    assert find_lot(store, can.lot.code).state == "ended"


async def test_the_books_are_closed_up_to_a_day_and_opened_again_with_a_reason(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("close-books")
        await shown.sees("Still to fill in: Up to")
        await shown.fill("until", "2026-11-25")
        await shown.sees("2026-11-25 is not over yet")
        await shown.fill("until", "2026-10-31")
        await shown.sees("closed up to  2026-10-31, that day too")
        await confirm(shown, "The books are closed")
        assert closed_until(store) == "2026-10-31"
        shown.app.open_form("open-books")
        await shown.sees("Still to fill in: From")
        await shown.fill("first", "2026-10-15")
        await shown.sees("Why are they opened again? Write it in the field Why")
        await shown.fill("why", "an invoice was forgotten")
        await shown.sees("closed up to  2026-10-14, that day too")
        await confirm(shown, "The books are open again")
    assert closed_until(store) == "2026-10-14"
