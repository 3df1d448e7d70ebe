"""Papers on screen: chosen from one page, drawn up while one types, and handed over as what was read."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pypdfium2
import pytest

from stockroom.actions.taking import take
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store
from stockroom.store.seals import count_sealed
from stockroom.tui.papers import PAPERS, find_paper
from stockroom.tui.papers.asked import TODAY
from stockroom.tui.screens.papers import PapersScreen, draw_up, open_paper

LOCAL = datetime(2026, 11, 25, 13, 10, tzinfo=UTC)


def drawn(store: Store, name: str, **answers: str):  # type: ignore[no-untyped-def]
    return draw_up(find_paper(name), store, {**answers, TODAY: "2026-11-25"}, LOCAL)


@pytest.mark.parametrize(
    ("name", "key", "typed", "told"),
    [
        ("held", "on", "someday", "someday"),
        ("held", "on", "2026-11-26", "2026-11-26 is still to come"),
        ("held", "hazard", "flamable", "No statement here says 'flamable'"),
        ("held", "years", "old", "not a number of years"),
        ("value", "on", "tomorrow", "2026-11-26 is still to come"),
        ("losses", "until", "2030-01-01", "2030-01-01 is still to come"),
        ("register", "since", "1:4", "1:4"),
        ("wall", "days", "63", "not a number of days"),
        ("year-end", "year", "2027", "2027 is still to come"),
        ("year-end", "year", "26", "26 is too early"),
        ("recall", "maker_lot", "7731", "No lot has the maker's lot number"),
        ("final", "handling", "5 stones", "stones"),
    ],
)
def test_what_cannot_be_meant_is_told_beside_its_field(
    stocked, store: Store, name: str, key: str, typed: str, told: str
) -> None:
    found = drawn(store, name, material="acetone", job=stocked["job"], **{key: typed})
    assert found.paper is None
    assert told in found.wrong[key]


def test_a_first_day_after_the_last_is_told_beside_the_first(stocked, store: Store) -> None:
    for name, last in (("losses", "until"), ("register", "until"), ("value", "on")):
        found = drawn(store, name, material="acetone", since="2026-11-20", **{last: "2026-11-19"})
        assert list(found.wrong) == ["since"], name
        found = drawn(store, name, material="acetone", since="2026-11-20", **{last: "never"})
        assert list(found.wrong) == [last], name


async def test_every_paper_is_reached_by_one_key_and_read_at_80_columns(screens, stocked, store: Store) -> None:
    async with screens(size=(80, 24)) as shown:
        await shown.press("P")
        await shown.sees("Papers: to hang up", *(find_paper(name).title for name in PAPERS))
        await shown.press("P")  # there already
        for number, name in enumerate(PAPERS):
            await shown.press("home", *["down"] * number, "enter")
            await shown.sees(f"{find_paper(name).title}: {find_paper(name).use}", "^s Save as PDF", "? Help  ^f Find")
            assert all(len(line) <= 80 for line in shown.text.splitlines())
            await shown.press("escape")
            await shown.sees("Papers: to hang up")
        await shown.press("escape")
        await shown.sees("looking 14 days ahead")
        await shown.pilot.resize_terminal(80, 60)
        await shown.press("question_mark")
        await shown.sees("Papers to hang up, sign or hand over")
        await shown.press("escape", "ctrl+f")
        await shown.answer("papers")
        await shown.press("enter")
        await shown.until(lambda: isinstance(shown.screen, PapersScreen), "the papers")
        await shown.press("ctrl+f")
        await shown.answer("year")
        await shown.press("enter")
        await shown.sees("Sheet of a year: stock", "Stock and use, 2026-01-01 to 2026-11-25")


async def test_a_paper_is_drawn_up_while_one_types_and_handed_over_as_it_was_read(
    screens, stocked, store: Store, occasion: Callable[..., Occasion], tmp_path: Path
) -> None:
    take(store, occasion("2026-11-10"), stocked["lime"], "10 g", reason="spilled")
    before = store.revision()
    async with screens(size=(80, 24)) as shown:
        open_paper(shown.app, "losses")
        await shown.sees("Losses, from the first day to 2026-11-25", "spilled", "10 g")
        await shown.fill("until", "last weak")
        await shown.sees("Look again at: Up to.", "! ")
        await shown.press("ctrl+s")
        await shown.sees("Look again at: Up to.")
        await shown.fill("until", "2026-11-09")
        await shown.sees("Losses, from the first day to 2026-11-09", "In all: 0.00 EUR")
        assert "spilled" not in shown.text
        await shown.press("pagedown")  # the paper moves, not the fields
        await shown.fill("until", "")
        await shown.fill("since", "2026-11-10")
        await shown.press("ctrl+s")  # before the paper was drawn anew: what is saved is what stands in the fields
        await shown.sees("Saved as")
        await shown.press("ctrl+t")
        await shown.choose("markdown")
        await shown.sees("losses.md")
    (pdf,), (markdown,) = ((tmp_path / "home").rglob(f"losses.{kind}") for kind in ("pdf", "md"))
    document = pypdfium2.PdfDocument(pdf)
    text = document[0].get_textpage().get_text_range()
    assert "Losses, 2026-11-10 to 2026-11-25" in text and "spilled" in text
    assert "Losses, 2026-11-10 to 2026-11-25" in markdown.read_text("utf-8")
    assert store.revision() == before


async def test_a_table_is_offered_of_papers_that_have_one(screens, stocked, tmp_path: Path) -> None:
    async with screens(size=(80, 24)) as shown:
        open_paper(shown.app, "year-end", year="2026")
        await shown.sees("Stock and use, 2026-01-01")
        await shown.press("ctrl+t")
        await shown.choose("table")
        await shown.sees("year-end-2026.csv")
        await shown.press("escape")
        open_paper(shown.app, "held")
        await shown.sees("Held")
        await shown.press("ctrl+t")
        await shown.sees("Save it as what?", "2 of 2")
        await shown.press("escape")


async def test_a_bench_card_is_written_of_what_is_filled_in_and_books_nothing(
    screens, stocked, store: Store, tmp_path: Path
) -> None:
    def saved(name: str) -> list[Path]:
        return list((tmp_path / "home").rglob(name))

    before = count_sealed(store)
    async with screens(size=(80, 24)) as shown:
        shown.app.open_form("make")
        await shown.sees("Make up a solution", "^b Card", "? Help  ^f Find")
        await shown.press("ctrl+b")
        await shown.sees("Choose first what the card is of")
        await shown.press("escape")
        shown.app.open_form("make", recipe="calcium-hydroxide-saturated", amount="[/red]")
        await shown.sees("is not an amount that can be read")
        await shown.press("ctrl+b")
        await shown.until(lambda: shown.screen.is_modal, "what is wrong with the amount")
        await shown.press("escape")
        await shown.fill("amount", "2 L")
        await shown.sees("1 jar: 2 L")
        await shown.press("ctrl+b")
        await shown.until(lambda: bool(saved("card-calcium-hydroxide-saturated.pdf")), "the card")
        shown.screen.action_clear()
        await shown.press("escape")
        shown.app.open_form("use", recipe="calcium-hydroxide-1-in-4", job=stocked["job"], fill="400 mL")
        await shown.sees("one fill of 400 mL")
        await shown.press("ctrl+b")
        await shown.until(lambda: bool(saved("card-calcium-hydroxide-1-in-4.pdf")), "the card")
        shown.screen.action_clear()
        await shown.press("escape")
    (card,) = saved("card-calcium-hydroxide-saturated.pdf")
    text = pypdfium2.PdfDocument(card)[0].get_textpage().get_text_range()
    assert "2 L" in text
    assert count_sealed(store) == before
