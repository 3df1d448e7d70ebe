"""Finding: a few letters of anything, or a code, lead to it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from stockroom.actions.jobs import new_job
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store
from stockroom.tui.finding import Finder, to_do
from stockroom.tui.screens.form import FormScreen
from stockroom.tui.screens.job import JobScreen
from stockroom.tui.screens.lot import LotScreen


def words(store: Store, typed: str) -> list[str]:
    return [found.words for found in Finder(store).find(typed)]


def test_every_kind_of_thing_is_found_by_a_few_letters(stocked, store: Store) -> None:
    assert any(stocked["jar"] in told for told in words(store, "calc hydr sol"))
    assert "J001R  Harbour charts" in words(store, "harb")
    assert "Acetone" in words(store, "ACET")
    assert "Calcium hydroxide bath, 1 in 4" in words(store, "1 in 4")
    assert words(store, "throw")[0] == words(store, "discard")[0] == "Throw away (discard)"
    assert words(store, "zzz") == []


def test_a_whole_code_comes_first(stocked, store: Store) -> None:
    assert words(store, stocked["jar"].lower())[0] == f"Open {stocked['jar']}"
    assert words(store, stocked["job"])[0] == f"Open {stocked['job']}"


def test_before_anything_is_typed_it_offers_what_can_be_done(store: Store) -> None:
    assert words(store, "") == [found.words for found in to_do()]
    assert {"What is due", "Receive a delivery", "Check a jar", "Undo one of your last"} <= set(words(store, ""))


def test_each_letter_searches_what_was_read_once_until_something_is_changed(
    stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    finder, read = Finder(store), list[str]()
    assert finder.find("railway") == []
    store.connection.set_trace_callback(read.append)
    told = [found.words for found in finder.find("calcium hydr")]
    store.connection.set_trace_callback(None)
    assert told == words(store, "calcium hydr")
    assert not [sql for sql in read if "FROM recipe" in sql or "FROM material ORDER" in sql or "FROM job" in sql]
    new_job(store, "Railway posters", today=occasion().today, client=None, objects=())
    assert any("Railway posters" in found.words for found in finder.find("railway"))


@pytest.mark.parametrize(
    ("typed", "leads_to", "told"),
    [
        ("L006M", LotScreen, "What was done"),
        ("harbour", JobScreen, "Booked, and done"),
        ("receive", FormScreen, "Receive a delivery"),
        ("wheat starch paste", FormScreen, "Make up a solution"),
    ],
)
async def test_one_key_some_letters_and_enter_open_it(screens, stocked, typed: str, leads_to: type, told: str) -> None:
    async with screens() as shown:
        await shown.press("ctrl+f")
        await shown.answer(typed)
        await shown.press("enter")  # faster than the answer comes: it is waited for
        await shown.until(lambda: isinstance(shown.screen, leads_to), "the screen it leads to")
        await shown.sees(told)


async def test_it_opens_from_a_form_too_and_finds_the_areas(screens, stocked) -> None:
    async with screens() as shown:
        await shown.press("f4", "ctrl+f")
        await shown.answer("what is due")
        await shown.press("enter")
        await shown.sees("[F2 Due]")
        await shown.press("ctrl+f")
        await shown.answer("[/]")
        await shown.sees("Nothing has these letters.")
        await shown.press("escape")
