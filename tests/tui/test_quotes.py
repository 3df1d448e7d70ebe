"""Quotes on screen: given from the job's page, looked at, accepted, compared with what was done, and handed over."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from stockroom.actions.bookings import book
from stockroom.actions.quoting import give_quote
from stockroom.actions.using import use
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store
from stockroom.store.quotes import find_quote, quotes

RECIPE = "calcium-hydroxide-1-in-4"
Occasions = Callable[..., Occasion]


@pytest.fixture
def booking(stocked: dict[str, str], store: Store, occasion: Occasions) -> str:
    today = occasion().today
    return book(store, RECIPE, stocked["job"], today, today=today, fill="400 mL", fills=1).booking.code


async def test_a_quote_is_given_from_the_jobs_page_after_a_dry_run(screens, stocked, booking, store: Store) -> None:
    """What is wrong is told beside its field, and nothing is kept before it is confirmed."""
    async with screens(size=(80, 24)) as shown:
        shown.app.open_code(stocked["job"])
        await shown.sees("q Quote")
        await shown.press("q")
        await shown.sees(
            "Give a quote for a job", "J001R Harbour charts", booking, "Calcium hydroxide bath, 1 in 4, 1 fill"
        )
        await shown.fill("valid", "someday")
        await shown.sees("Look again at: Holds until")
        await shown.fill("valid", "2026-11-01")
        await shown.sees("! 2026-11-01 is before the quote's own day", "Look again at: Holds until")
        await shown.fill("valid", "2026-12-31")
        await shown.fill("waste", "lots")
        await shown.sees("Look again at: For waste")
        await shown.fill("waste", "10 %")
        await shown.fill("handling", "5 stones")
        await shown.sees("Look again at: Handling")
        await shown.fill("handling", "5.00")
        await shown.fill("fills", "2-4")
        await shown.sees("! “2-4”: the range must hold the number booked, 1", "Look again at: Fills")
        await shown.fill("fills", "1-3")
        await shown.sees("1 to 3 fills", "waste, 10 %", "handling, 5.00", "in all", "holds until", "2026-12-31")
        assert not quotes(store)
        await shown.press("ctrl+s")
        await shown.sees("Give this quote for J001R Harbour charts?", "nothing is done until you say so")
        assert not quotes(store)
        await shown.press("b")
        await shown.sees("is given")
        (given,) = quotes(store)
        await shown.press("enter")
        await shown.sees(f"{given.code}   given, holds until 2026-12-31   as the client sees it", "Handling, 5.00")
        await shown.press("escape")
        await shown.sees("quote", given.code)
    assert (given.waste, given.handling, given.shows) == ("10 %", "5.00", "treatments")
    assert (given.lines[0].fills.low, given.lines[0].fills.high) == (1, 3)


async def test_a_quote_is_accepted_and_compared_with_what_was_done(
    screens, stocked, booking, store: Store, occasion: Occasions, tmp_path: Path
) -> None:
    before, code = (give_quote(store, occasion(), stocked["job"]).code for _ in range(2))
    use(store, occasion(), RECIPE, stocked["job"], fill="800 mL", fills=1, booking=booking, tested="AB")
    async with screens(size=(80, 24)) as shown:
        for each, told in ((before, "accepted: the final sheet"), (code, f"{before}, accepted before")):
            shown.app.open_code(each)
            await shown.sees("given, holds until 2026-12-25", "a Accept")
            await shown.press("a")
            await shown.sees("A quote was accepted", told)
            await shown.press("ctrl+s")
            await shown.sees("nothing is done until you say so")
            await shown.press("b")
            await shown.sees(f"Quote {each} is accepted")
            await shown.press("enter")
            await shown.sees(f"{each}   accepted on 2026-11-25")
            assert "a Accept" not in shown.text
        assert find_quote(store, before).state == "replaced"
        await shown.press("c")
        await shown.sees(f"Quote {code} against what was used", "another quantity", "Difference")
        assert all(len(line) <= 80 for line in shown.text.splitlines())
        await shown.press("p")
        await shown.sees("Saved as")
        await shown.press("v")
        await shown.sees("with every price", "version 1")
        await shown.press("v")
        await shown.sees("as the client sees it")
        await shown.press("m")
        await shown.sees(f"quote-{code}.md")
        await shown.press("x")
        await shown.sees("Take a quote back", "Still to fill in: Why")
        await shown.fill("why", "[/red] the client decided otherwise")
        await shown.sees("then   withdrawn")
        await shown.press("ctrl+s")
        await shown.sees("nothing is done until you say so")
        await shown.press("b")
        await shown.sees("is withdrawn")
        await shown.press("enter")
        await shown.sees(f"{code}   withdrawn")
        assert "x Take back" not in shown.text
    saved = sorted(path.name for path in (tmp_path / "home").rglob(f"quote-{code}*"))
    assert saved == [f"quote-{code}-compared.pdf", f"quote-{code}.md"]
    assert find_quote(store, code).state == "withdrawn"


async def test_a_job_without_bookings_is_not_quoted_and_it_says_what_to_do(screens, stocked, store: Store) -> None:
    async with screens(size=(80, 24)) as shown:
        shown.app.open_form("quote", job=stocked["job"])
        await shown.sees("! No treatment is booked for J001R")
        await shown.press("ctrl+s")
        await shown.sees("No treatment is booked")
        await shown.press("escape")
        shown.screen.action_clear()
        await shown.press("escape")
    assert not quotes(store)
