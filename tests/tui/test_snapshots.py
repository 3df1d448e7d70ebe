"""What each screen says, kept as plain text: the same in lamp light, on paper and without colour.

After a change that is meant, `STOCKROOM_WRITE_SNAPSHOTS=1 pytest tests/tui/test_snapshots.py` writes them anew; the
difference is to be read like any other.
"""

from __future__ import annotations

import os
import re
from collections.abc import Awaitable, Callable
from difflib import unified_diff
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from stockroom.actions.bookings import book
from stockroom.actions.buying import order_lines
from stockroom.actions.checking import check
from stockroom.actions.judging import Readings
from stockroom.actions.materials import edit_material
from stockroom.actions.offers import Asked, new_offer
from stockroom.actions.quoting import give_quote
from stockroom.actions.suppliers import new_supplier
from stockroom.actions.taking import take
from stockroom.actions.using import use
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store

KEPT = Path(__file__).parent / "snapshots"
Visit = Callable[[Any, dict[str, str]], Awaitable[object]]


def area(key: str) -> Visit:
    return lambda shown, stocked: shown.press(key)


def form(name: str, **known: str) -> Visit:
    async def visit(shown: Any, stocked: dict[str, str]) -> None:
        shown.app.open_form(name, **{key: stocked.get(value, value) for key, value in known.items()})

    return visit


async def lot(shown: Any, stocked: dict[str, str]) -> None:
    shown.app.open_code(stocked["jar"])


async def job(shown: Any, stocked: dict[str, str]) -> None:
    shown.app.open_code(stocked["job"])


async def a_round(shown: Any, stocked: dict[str, str]) -> None:
    await shown.press("f10")
    await shown.sees("Count which place?")
    shown.screen.go_on("shelf")


def thing(noun: str, key: str) -> Visit:
    async def visit(shown: Any, stocked: dict[str, str]) -> None:
        import_module("stockroom.tui.screens.thing").open_thing(shown.app, noun, key)

    return visit


async def steps(shown: Any, stocked: dict[str, str]) -> None:
    shown.app.open_form("use", recipe="calcium-hydroxide-1-in-4", job=stocked["job"], fill="400 mL", tested="AB")
    await shown.sees("one fill of 400 mL")
    await shown.press("ctrl+n")


async def explained(shown: Any, stocked: dict[str, str]) -> None:
    await shown.press("f2")
    await shown.sees("looking 14 days ahead")
    await shown.press("question_mark")


async def finding(shown: Any, stocked: dict[str, str]) -> None:
    await shown.press("ctrl+f")
    await shown.answer("calcium")


async def confirming(shown: Any, stocked: dict[str, str]) -> None:
    shown.app.open_form("make", recipe="calcium-hydroxide-saturated", amount="500 mL")
    await shown.sees("1 jar: 500 mL")
    await shown.press("ctrl+s")


def opened(name: str, what: str) -> Visit:
    """Open a page by the name of its class, for what one of the codes names."""

    async def visit(shown: Any, stocked: dict[str, str]) -> None:
        module = import_module(f"stockroom.tui.screens.{name.lower()}")
        shown.app.push_screen(getattr(module, f"{name}Screen")(stocked.get(what, what)))

    return visit


SCREENS: dict[str, tuple[Visit, str]] = {
    "due": (area("f2"), "looking 14 days ahead"),
    "shelf": (area("f3"), "3 lots"),
    "jobs": (area("f7"), "1 job"),
    "plan": (area("f8"), "1 treatment booked"),
    "buy": (area("f9"), "Nobody is known to offer"),
    "count": (area("f10"), "Count which place?"),
    "round": (a_round, "Not seen yet"),
    "lot": (lot, "u undoes it"),
    "job": (job, "3.78 EUR in all"),
    "make": (form("make", recipe="calcium-hydroxide-saturated", amount="2 L"), "1 jar: 2 L"),
    "use": (form("use", recipe="calcium-hydroxide-1-in-4", job="job", fill="10 L"), "1.5 L short"),
    "check": (
        form("check", lot="jar", method="titration", amount="25 mL", acid="0.1 mol/L", used="10.8 mL"),
        "check by",
    ),
    "receive": (form("receive", material="acetone", amount="3 x 1 L", cost="10.00"), "3.34 EUR"),
    "media": (
        form("use", recipe="calcium-hydroxide-1-in-4", job="job", tested="not tested", fill="1 L"),
        "all the same",
    ),
    "cut": (form("cut", lot="lime", size="40 x 50 cm"), "is not measured by area"),
    "code": (opened("Label", "jar"), "The label of"),
    "take-wrong": (form("take", lot="jar", amount="1:4"), "Look again at"),
    "bench-book": (area("f12"), "[All]Recipes"),
    "recipe-page": (thing("recipe", "calcium-hydroxide-1-in-4"), "Lines"),
    "material-page": (thing("material", "calcium-hydroxide"), "What its label warns of"),
    "recipe-copy": (
        form("new-recipe", copy="calcium-hydroxide-1-in-4"),
        "Trial batch",
    ),
    "recipe-change": (form("edit-recipe", of="calcium-hydroxide-1-in-4"), "Nothing is changed yet"),
    "recipe-new": (form("new-recipe"), "Still to fill in: Name"),
    "material-new": (form("new-material", measured_by="mass", low="1 L"), "Look again at"),
    "studio-choices": (form("studio-choices", decimal_sign="comma", limit="0,5 %"), "decimal sign: nothing → comma"),
    "person-new": (form("new-person", initials="ab cd"), "Look again at"),
    "steps": (steps, "0 of 2 steps"),
    "explained": (explained, "What this screen does"),
    "finding": (finding, "found. Arrows move"),
    "confirming": (confirming, "b Book it"),
}
"""Each screen: how one comes there, and what it says when it is there."""


async def sources(shown: Any, stocked: dict[str, str]) -> None:
    await opened("Jar", "jar")(shown, stocked)
    await shown.sees("remake")
    await shown.press("s")


def on_paper(name: str, **known: str) -> Visit:
    async def visit(shown: Any, stocked: dict[str, str]) -> None:
        from stockroom.tui.screens.papers import open_paper

        if name == "list":
            shown.app.action_papers()
        else:
            open_paper(shown.app, name, **known)

    return visit


async def compared(shown: Any, stocked: dict[str, str]) -> None:
    await opened("Quote", "quote")(shown, stocked)
    await shown.sees("c Compare")
    await shown.press("c")


LOOKED_AT: dict[str, tuple[Visit, str]] = {
    "weeks": (area("f8"), "1 treatment booked"),
    "buying": (area("f9"), "1 draft to be placed"),
    "order": (opened("Order", "order"), "p Placed"),
    "stock": (opened("Stock", "calcium-hydroxide-solution"), "fit to use now"),
    "jar": (opened("Jar", "jar"), "remake"),
    "sources": (sources, "Where the figures come from"),
    "job-bars": (job, "so far"),
    "statement": (opened("Statement", "job"), "By: AB"),
    "quote": (opened("Quote", "quote"), "as the client sees it"),
    "quote-compared": (compared, "against what was used"),
    "papers": (on_paper("list"), "to hand over"),
    "paper-wall": (on_paper("wall"), "2026-12-01"),
    "paper-held": (on_paper("held"), "Held"),
    "paper-recall": (on_paper("recall", maker_lot="7731"), "To take off the shelf"),
    "paper-register": (on_paper("register", material="calcium-hydroxide"), "Brought forward"),
    "paper-wrong": (on_paper("losses", since="2026-11-20", until="someday"), "Look again at"),
    "giving-quote": (form("quote", job="job", fills="1-3", waste="10 %", handling="5.00"), "in all"),
    "trace-lot": (opened("Trace", "lime"), "Went into"),
    "trace-job": (opened("Trace", "job"), "2 lots"),
}
"""The same of what is only looked at, in a stockroom where there is more to see."""


@pytest.fixture
def busy(stocked: dict[str, str], store: Store, occasion: Callable[..., Occasion]) -> dict[str, str]:
    """A stockroom in which every page has something to show."""
    edit_material(store, occasion(), "acetone", {"low": "1 L"})
    take(store, occasion("2026-11-20"), stocked["lime"], "10 g", reason="lent", to_whom="[A3] kozo workshop")
    take(store, occasion("2026-11-21"), stocked["lime"], "100 g", job=stocked["job"])
    today = occasion().today
    book(store, "calcium-hydroxide-1-in-4", stocked["job"], today, today=today, fill="8 L", fills=1)
    return stocked


@pytest.fixture
def busier(busy: dict[str, str], store: Store, occasion: Callable[..., Occasion]) -> dict[str, str]:
    """With a checked jar, a bath drawn from it as booked, an offer, and an order."""
    recipe, at = "calcium-hydroxide-1-in-4", occasion("2026-11-04")
    booking = book(store, recipe, busy["job"], at.day, today=at.day, fill="400 mL", fills=1).booking.code
    use(store, at, recipe, busy["job"], fill="800 mL", fills=1, objects=("Sheet 1",), booking=booking, tested="AB")
    titration = {"sample": "25 mL", "acid": "0.1 mol/L", "temperature": "20 °C"}
    for day, used in (("2026-11-05", "10.9 mL"), ("2026-11-12", "10.4 mL"), ("2026-11-19", "8.4 mL")):
        readings = Readings(method="titration", values={**titration, "used": used}, sample="25 mL")
        check(store, occasion(day), busy["jar"], readings)
    new_supplier(store, "Laboratory [A3]", delivery=5)
    new_offer(store, occasion(), Asked(supplier="Laboratory [A3]", material="acetone", pack="1 L", price="9.80"))
    _, orders = order_lines(store, occasion())
    new_offer(
        store, occasion(), Asked(supplier="Laboratory [A3]", material="calcium-hydroxide", pack="500 g", price="12.90")
    )
    edit_material(store, occasion(), "calcium-hydroxide", {"low": "600 g"})
    quote = give_quote(store, occasion("2026-11-03"), busy["job"], waste="10 %", shows="materials").code
    return {**busy, "order": orders[0].code, "quote": quote}


LOOKS = pytest.mark.parametrize("look", ["lamp", "paper", "without colour"])
SIZES = pytest.mark.parametrize("size", [(80, 24), (120, 40)])


@LOOKS
@SIZES
async def test_each_screen_says_the_same_in_every_look(screens, busy, size, look, monkeypatch) -> None:
    await say_the_same(screens, SCREENS, busy, size, look, monkeypatch)


@LOOKS
@SIZES
async def test_what_is_looked_at_says_the_same_in_every_look(screens, busier, size, look, monkeypatch) -> None:
    await say_the_same(screens, LOOKED_AT, busier, size, look, monkeypatch)


async def say_the_same(
    screens: Any,
    pages: dict[str, tuple[Visit, str]],
    known: dict[str, str],
    size: tuple[int, int],
    look: str,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Hold what each page says against what was kept of it."""
    write = "STOCKROOM_WRITE_SNAPSHOTS" in os.environ
    if look == "without colour":
        monkeypatch.setenv("NO_COLOR", "1")
    different: list[str] = []
    async with screens(size=size) as shown:
        if look != "without colour":
            shown.app.theme = look
        for name, (visit, words) in pages.items():
            await visit(shown, known)
            await shown.sees(words)
            await at_rest(shown)
            said, kept = shown.text.rstrip() + "\n", KEPT / f"{name}-{size[0]}x{size[1]}.txt"
            if write:
                kept.parent.mkdir(exist_ok=True)
                kept.write_text(said, "utf-8")
            elif said != kept.read_text("utf-8"):
                told = unified_diff(
                    kept.read_text("utf-8").splitlines(), said.splitlines(), kept.name, "now", lineterm=""
                )
                different += told
            if look == "without colour":
                assert not colours(shown.app), name
            while len(shown.app.screen_stack) > 1:
                clear = getattr(shown.screen, "action_clear", None)
                if clear:
                    clear()
                await shown.press("escape")
    assert not different, "\n".join(different)


def test_what_the_readme_shows_of_the_screens_is_what_they_say() -> None:
    """A line of `…` stands for any lines."""
    readme = (Path(__file__).parents[2] / "README.md").read_text("utf-8")
    shown = re.findall(r"<!-- screen (\S+) -->\n```text\n(.+?)```", readme, re.DOTALL)
    assert len(shown) >= 4
    for name, picture in shown:
        said = (KEPT / f"{name}-80x24.txt").read_text("utf-8")
        for part in re.split(r"(?m)^…\n", picture):
            assert part in said, f"{name}: {part}"


async def at_rest(shown: Any) -> None:
    """Wait until what is read has been read, and the screen says the same twice."""
    reading = ("load", "plan", "find", "see")
    before = None
    while before != shown.text:
        await shown.until(
            lambda: (
                bool(shown.text.split("\n")[-1])  # the keys at the foot are there
                and all(worker.is_finished for worker in shown.app.workers if worker.group in reading)
            ),
            "the screen to be at rest",
        )
        before = shown.text
        await shown.pilot.pause(0.05)


def colours(app: Any) -> set[tuple[int, int, int]]:
    """Return what is shown in another colour than grey."""
    found: set[tuple[int, int, int]] = set()
    for strip in app.screen._compositor.render_strips():
        for segment in strip:
            for colour in (segment.style.color, segment.style.bgcolor) if segment.style else ():
                if colour is not None and colour.triplet is not None:
                    found.add(tuple(colour.triplet))
    return {colour for colour in found if len(set(colour)) > 1}
