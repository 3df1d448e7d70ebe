"""A bath as a procedure: ticked off step by step, waits that sound, and only what was poured is booked."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest

from stockroom.actions.costing import used_for
from stockroom.domain.occasion import Occasion
from stockroom.errors import Unreadable
from stockroom.science.quantities import show
from stockroom.store.history import actions_of_person
from stockroom.store.jobs import find_job
from stockroom.store.open import Store
from stockroom.tui.drafts import Drafts
from stockroom.tui.waiting import Step, Wait, Waiting, clock_words, length_of, waits_in, waits_kept


class Clock:
    """A clock that a test puts forward."""

    def __init__(self) -> None:
        self.now = datetime(2026, 11, 25, 13, 10, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now


@pytest.mark.parametrize(
    ("wait", "minutes"), [("20 min", 20), ("2 minutes", 2), ("1 h", 60), ("24 h", 1440), ("2 days", 2880)]
)
def test_a_wait_is_read_as_recipes_write_it(wait: str, minutes: int) -> None:
    assert length_of(wait) == timedelta(minutes=minutes)


def test_a_wait_that_is_none_is_refused() -> None:
    with pytest.raises(Unreadable):
        length_of("a while")


def test_what_is_left_of_a_wait_is_told_to_the_second_and_from_an_hour_on_to_the_minute() -> None:
    assert [clock_words(timedelta(seconds=seconds)) for seconds in (5, 754, 4805)] == ["0:05", "12:34", "1 h 20 min"]


def test_a_wait_is_over_once_and_stays_until_the_work_goes_on() -> None:
    clock = Clock()
    waiting = Waiting(clock)
    step = Step("use", frozenset({("job", "J001R")}), 2)
    waiting.begin(step, Wait(until=clock.now + timedelta(minutes=2), words="Soak", next_words="Next: dry"))
    assert waiting.over() == []
    clock.now += timedelta(minutes=2)
    assert [wait.words for wait in waiting.over()] == ["Soak"]
    assert waiting.over() == []
    assert [wait.words for wait in waiting.all()] == ["Soak"]
    waiting.stop_all("use", {"job": "J001R"})
    assert waiting.all() == []


@pytest.mark.parametrize("kept", [None, [], {"1": None}, {"x": {}}, {"1": {"until": "soon", "words": 1, "next": 2}}])
def test_waits_that_cannot_be_read_are_none(kept: object) -> None:
    assert waits_in({"waits": kept}) == {}


async def begin_bath(shown, stocked: dict[str, str]) -> None:  # type: ignore[no-untyped-def]
    shown.app.open_form("use", recipe="calcium-hydroxide-1-in-4", job=stocked["job"], fill="400 mL", fills="3")
    await shown.sees("3 fills of 400 mL")
    await shown.answer_media()
    await shown.press("ctrl+n")
    await shown.sees("fill 1 of 3: 0 of 2 steps", "[ ]  1. Draw 100 mL")


async def test_only_the_fills_that_were_poured_are_booked_with_the_colour_of_the_water(
    screens, stocked, store: Store
) -> None:
    before = store.revision()
    async with screens() as shown:
        await begin_bath(shown, stocked)
        await shown.press("space", "space")
        await shown.sees("2 of 2 steps", "[x]  2.", "All is done: Ctrl+S books it, F pours one more fill.")
        await shown.sees("Enter: take the tick away")
        await shown.press("f")
        await shown.sees("What colour is the water?")
        await shown.answer("pale yellow")
        await shown.press("enter")
        await shown.sees("fill 2 of 3: 0 of 2 steps", "14:10 fill 1 comes out: water pale yellow")
        assert store.revision() == before
        await shown.press("e")
        await shown.answer("clear")
        await shown.press("enter")
        await shown.sees("b Book it", "2 fills of 400 mL")
        await shown.press("b")
        await shown.sees("Used for J001R", "200 mL")
        await shown.press("enter")
        await shown.sees("looking 14 days ahead")
        assert not shown.app.drafts.all()
    assert [show(one.quantity) for one in used_for(store, find_job(store, stocked["job"]))] == ["200 mL"]
    details = json.loads(actions_of_person(store, "AB", 1)[0].details)
    assert details["notes"] == [
        "14:10 fill 1 comes out: water pale yellow",
        "14:10 stopped early in fill 2: water clear",
    ]


async def test_leaving_and_coming_back_loses_nothing(screens, stocked, store: Store) -> None:
    before = store.revision()
    async with screens() as shown:
        await begin_bath(shown, stocked)
        await shown.press("space")
        await shown.sees("1 of 2 steps")
        await shown.until(lambda: any(one.progress for one in shown.app.drafts.all()), "the progress to be kept")
    async with screens() as shown:
        await shown.sees("* begun, not booked", "1 step done")
        await shown.press("home")
        await shown.sees("Enter: go on with its steps")
        await shown.press("enter")
        await shown.sees("fill 1 of 3: 1 of 2 steps", "[x]  1.", "[ ]  2.")
        await shown.press("escape")
        await shown.sees("3 fills of 400 mL", "tested by AB")
    assert store.revision() == before


async def test_a_wait_runs_from_the_tick_on_and_sounds_wherever_one_is(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    clock, rung = Clock(), []
    async with screens() as shown:
        shown.app.waiting.clock = clock
        shown.app.bell = lambda: rung.append(clock.now)
        shown.app.open_form("make", recipe="calcium-hydroxide-saturated", amount="500 mL")
        await shown.sees("1 jar: 500 mL")
        await shown.press("ctrl+n")
        await shown.sees("0 of 5 steps")
        await shown.press("space", "space", "space")
        await shown.sees("step 3: wait 1 h 0 min more, until 15:10")
        await shown.press("f3")
        clock.now += timedelta(minutes=61)
        shown.app.ring()
        await shown.sees("The wait is over: Close the jar", "Next: Label it")
        assert len(rung) == 1
        await shown.press("f2")
        await shown.sees("step 3: the wait was over at 15:10")


async def test_a_wait_of_an_ended_session_is_told_in_the_next_one_from_its_start(screens, stocked) -> None:
    clock = Clock()
    async with screens() as shown:
        shown.app.waiting.clock = clock
        shown.app.open_form("make", recipe="calcium-hydroxide-saturated", amount="500 mL")
        await shown.sees("1 jar: 500 mL")
        await shown.press("ctrl+n")
        await shown.sees("0 of 5 steps")
        await shown.press("space", "space", "space")
        await shown.sees("step 3: wait 1 h 0 min more, until 15:10")
        await shown.until(
            lambda: any(one.progress.get("waits") for one in shown.app.drafts.all()), "the wait to be kept"
        )
    for minutes, told in ((20, "Wait 40:00 more, until 15:10. Next: Label it"), (90, "! The wait was over at 15:10. ")):
        clock.now = Clock().now + timedelta(minutes=minutes)
        rung: list[datetime] = []
        async with screens() as shown:
            shown.app.waiting.clock = clock
            shown.app.bell = lambda rung=rung: rung.append(clock.now)
            shown.app.waiting.take_up({})  # what was told by the true clock
            shown.app.take_up_waits()
            await shown.sees("* begun, not booked", "waits until 2026-11-25, 15:10", told)
            await shown.press("f3")
            await shown.sees("[F3 Shelf]", told)
            assert len(rung) == (minutes > 60)
            if minutes > 60:
                await shown.sees("The wait was over at 15:10: Close the jar", "Next: Label it")
                await shown.press("f2")
                await shown.press("home", "delete")
                await shown.until(lambda: not shown.app.waiting.all(), "the wait to go with the form")


async def test_what_another_window_waits_for_is_told_here_until_it_went_on_there(
    screens, stocked, store: Store
) -> None:
    async with screens() as shown:
        known = {"recipe": "calcium-hydroxide-saturated"}
        there = Drafts(store.path, lambda: shown.app.local)
        until = shown.app.waiting.clock() + timedelta(minutes=30)
        waits = waits_kept({2: Wait(until=until, words="Shake it", next_words="Next: label it.")})
        there.keep("make", known, known, {}, {"done": [0, 1, 2], "waits": waits, **known})
        shown.app.take_up_waits()
        await shown.sees("Wait ", "Next: label it.")
        there.forget("make", known)
        shown.app.take_up_waits()
        await shown.until(lambda: "Next: label it." not in shown.text, "the line to go")


async def test_steps_of_one_recipe_are_not_those_of_another(screens, stocked) -> None:
    async with screens() as shown:
        await begin_bath(shown, stocked)
        await shown.press("space")
        await shown.sees("1 of 2 steps")
        await shown.until(lambda: any(one.progress for one in shown.app.drafts.all()), "the progress to be kept")
        await shown.press("escape")
        await shown.sees("Use for a job")
        shown.screen.query_one("#recipe").choose("wash", "Wash")
        await shown.until(lambda: not any(one.progress for one in shown.app.drafts.all()), "the steps to be dropped")
        shown.screen.action_clear()
        await shown.press("escape")
