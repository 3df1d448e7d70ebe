"""What every screen does: areas by key, help, the code field, who books, and news from another window."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest

from stockroom.actions.cards import make_card
from stockroom.actions.receiving import Delivery, receive
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store
from stockroom.store.studio import add_person
from stockroom.tui.screens.lot import LotScreen


async def test_it_opens_on_what_is_due_and_each_area_is_one_key_away(screens, stocked) -> None:
    async with screens() as shown:
        await shown.sees("[F2 Due]", "! past use-by", "Hydrogen peroxide 3 %", stocked["old"])
        for key, words in (
            ("f3", "[F3 Shelf]"),
            ("f4", "[F4 Make]"),
            ("f5", "[F5 Use]"),
            ("f6", "[F6 Check]"),
            ("f7", "[F7 Jobs]"),
            ("f8", "[F8 Plan]"),
            ("f9", "[F9 Buy]"),
            ("f10", "[F10 Count]"),
            ("f2", "[F2 Due]"),
        ):
            await shown.press(key)
            await shown.sees(words)


async def test_an_empty_stockroom_says_that_nothing_is_due(screens) -> None:
    async with screens() as shown:
        await shown.sees("Nothing is due")


async def test_question_mark_explains_the_screen_and_lists_its_keys(screens) -> None:
    async with screens() as shown:
        await shown.press("question_mark")
        await shown.sees("What this screen does", "most urgent first", "Undo your last")
        await shown.press("escape")
        await shown.sees("Nothing is due")


async def test_a_code_typed_after_one_key_opens_its_lot(screens, stocked) -> None:
    async with screens() as shown:
        await shown.press("L")
        await shown.answer(stocked["jar"].lower())
        await shown.press("enter")
        await shown.sees("What was done", "Calcium hydroxide solution", stocked["jar"])


async def test_a_scanned_label_opens_its_lot_without_any_key_before_it(screens, stocked) -> None:
    async with screens() as shown:
        await shown.press(*stocked["jar"], "enter")
        await shown.until(lambda: isinstance(shown.screen, LotScreen), "the lot's page")
        await shown.sees(stocked["jar"])


async def test_a_scanned_bench_card_opens_its_form(
    screens, stocked, store: Store, tmp_path: Path, occasion: Callable[..., Occasion]
) -> None:
    now = occasion().now
    made = make_card(store, "calcium-hydroxide-saturated", "2 L", tmp_path / "card.pdf", by="AB", now=now)
    async with screens() as shown:
        await shown.press(*made.code, "enter")
        await shown.sees("Make up a solution", "Calcium hydroxide solution, saturated", "1 jar: 2 L")
        await shown.press("ctrl+r", "escape")


async def test_a_wrong_character_in_a_code_is_told_at_once_and_nothing_opens(screens, stocked) -> None:
    wrong = stocked["jar"][:-1] + ("A" if stocked["jar"][-1] != "A" else "C")
    async with screens() as shown:
        await shown.press("L")
        await shown.answer(wrong)
        await shown.press("enter")
        await shown.sees("one character is wrong")
        assert not any(isinstance(screen, LotScreen) for screen in shown.app.screen_stack)
        await shown.press("escape")


async def test_the_code_of_a_job_opens_its_page(screens, stocked) -> None:
    async with screens() as shown:
        await shown.press("L")
        await shown.answer(stocked["job"])
        await shown.press("enter")
        await shown.sees(stocked["job"], "Harbour charts", "Booked, and done")


async def test_what_another_window_books_appears_and_the_cursor_stays(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    async with screens() as shown:
        await shown.press("f3")
        await shown.sees("3 lots")
        await shown.press("down", "down")
        await shown.sees("Hydrogen peroxide 3 %  " + stocked["old"])
        receive(store, occasion(), Delivery(material="acetone", quantity="1 L", cost=900))
        shown.app.look_again()
        await shown.sees("4 lots", "Acetone")
        assert "Hydrogen peroxide 3 %  " + stocked["old"] in shown.text


async def test_a_plan_is_worked_out_once_while_nothing_changes(
    screens, stocked, store: Store, occasion: Callable[..., Occasion], monkeypatch: pytest.MonkeyPatch
) -> None:
    from stockroom.tui.screens import buy, plan

    reckoned: list[str] = []

    def counting(module: object, name: str) -> None:
        real = getattr(module, name)

        def count(*arguments: object) -> object:
            reckoned.append(name)
            return real(*arguments)

        monkeypatch.setattr(module, name, count)

    counting(plan, "load_plan")
    counting(buy, "what_to_buy")
    async with screens() as shown:
        for key, words in [("f8", "Nothing is booked"), ("f9", "F9 Buy]")] * 3:
            await shown.press(key)
            await shown.sees(words)
            await shown.until(lambda: all(one.is_finished for one in shown.app.workers), "it to be worked out")
        assert sorted(reckoned) == ["load_plan", "what_to_buy"]
        receive(store, occasion(), Delivery(material="acetone", quantity="1 L", cost=900))
        await shown.press("f8")
        await shown.until(lambda: reckoned.count("load_plan") == 2, "the plan to be worked out anew")


async def test_what_passes_its_minute_is_shown_as_past_while_the_screen_is_left_open(
    screens, stocked, store: Store
) -> None:
    with store.write():
        store.run("UPDATE lot SET use_by = '2026-11-25T14:11' WHERE code = :code", code=stocked["jar"])
    async with screens() as shown:
        await shown.press("f3")
        await shown.sees("2026-11-25, 14:11")
        text = shown.text
        begun = shown.app.local
        for minutes, past in ((1, 1), (2, 2)):
            shown.app._now = lambda at=begun + timedelta(minutes=minutes): at
            shown.app.look_again()
            await shown.until(lambda count=past: shown.text.count("! past use-by") == count, f"{past} past their limit")
        assert text.count("! past use-by") == 1


async def test_typed_text_stays_when_something_is_booked_elsewhere(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    async with screens() as shown:
        await shown.press("f3")
        await shown.fill("words", "calcium")
        await shown.sees("2 lots")
        receive(store, occasion(), Delivery(material="calcium-hydroxide", quantity="1 kg", cost=900))
        shown.app.look_again()
        await shown.sees("3 lots", "calcium")


async def test_who_books_is_asked_once_where_several_people_might(screens, stocked, store: Store) -> None:
    with store.write():
        add_person(store, "CD", "C. Diaz")
    async with screens() as shown:
        await shown.sees("booking as –")
        await shown.press("u")
        await shown.sees("Who is booking?", "A. Bauer", "C. Diaz")
        await shown.press("down", "enter")
        await shown.sees("CD has booked nothing yet", "booking as CD")
        await shown.press("escape")
        await shown.press("u")
        await shown.sees("CD has booked nothing yet")
        await shown.press("escape")


def test_unknown_initials_are_refused_before_a_screen_opens(store: Store) -> None:
    from stockroom.errors import NotFound
    from stockroom.tui.app import StockroomApp

    with pytest.raises(NotFound, match="not the initials of anyone here"):
        StockroomApp(store.path, by="ZZ", now=lambda: None)  # type: ignore[arg-type, return-value]


def test_without_a_terminal_the_command_says_what_else_there_is(stockroom) -> None:
    ran = stockroom("screens")
    assert ran.code == 2
    assert "need a terminal" in ran.err
    assert "stockroom due" in ran.err
