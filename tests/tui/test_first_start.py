"""The first start: a stockroom of one's own or the demo, and three steps to begin with."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from textual.widgets import Input

from stockroom.actions.beginning import begin
from stockroom.errors import BadInput
from stockroom.store.open import open_store
from stockroom.store.studio import all_people
from stockroom.tui.first_start import FirstStart


def first_start(path: Path) -> FirstStart:
    def own(answers: Mapping[str, str]) -> Path:
        return begin(path, **{key: answer for key, answer in answers.items() if answer}).path

    def demo() -> Path:
        raise BadInput("there is no room for the demo")

    offered = {"currency": "EUR", "time_zone": "Europe/Berlin"}
    return FirstStart(path, begin=own, demo=demo, offered=offered)


async def test_a_stockroom_of_ones_own_is_begun_with_ones_initials(tmp_path: Path) -> None:
    app = first_start(tmp_path / "own.db")
    async with app.run_test() as pilot:
        await pilot.press("enter")
        await pilot.press("enter")
        assert not (tmp_path / "own.db").exists()  # nobody said who
        app.query_one("#initials", Input).value = "CD"
        await pilot.press("enter")
        await app.workers.wait_for_complete()
    assert app.return_value == tmp_path / "own.db"
    with open_store(tmp_path / "own.db") as store:
        assert [person.initials for person in all_people(store)] == ["CD"]


async def test_what_cannot_be_begun_is_told_and_begins_nothing(tmp_path: Path) -> None:
    app = first_start(tmp_path / "own.db")
    async with app.run_test() as pilot:
        await pilot.press("enter")
        app.query_one("#initials", Input).value = "CD"
        app.query_one("#currency", Input).value = "[/]"
        await pilot.press("enter")
        await app.workers.wait_for_complete()
        assert not (tmp_path / "own.db").exists()
        await pilot.press("escape", "down", "enter")
        await app.workers.wait_for_complete()
        assert app.return_value is None
        await pilot.press("ctrl+q")


async def test_the_tour_goes_through_three_steps(screens, stocked) -> None:
    async with screens() as shown:
        shown.app.action_tour()
        await shown.sees("1 of 3: what is due")
        await shown.press("enter")
        await shown.sees("2 of 3: finding")
        await shown.press("enter")
        await shown.sees("3 of 3: booking")
        await shown.press("enter")
        await shown.until(lambda: not shown.screen.is_modal, "the tour to end")
