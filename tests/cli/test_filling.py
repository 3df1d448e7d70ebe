"""How large a fill is: a tray to a depth, the most that can be made, and how often a jar still does."""

from __future__ import annotations

from typing import Any

import pytest

NOW = ("--on", "2026-11-28T10:00")
BATH = "calcium-hydroxide-1-in-4"
POWDER_BATH = "calcium-hydroxide-1-in-4-with-methyl-cellulose-powder"


@pytest.fixture
def jar(stockroom: Any) -> str:
    """Two litres of stock on the shelf, and a job with one object."""
    stockroom.json(*NOW, "job", "new", "Charts", "--object", "Sheet 1, 30 x 40 cm")
    code: str = stockroom.json(*NOW, "receive", "calcium-hydroxide-solution", "2 L", "--cost", "2.00")["code"]
    return code


def test_a_tray_of_the_studios_own_gives_one_fill_by_its_depth(stockroom: Any, jar: str) -> None:
    """By hand: 30 x 40 cm to 8 mm are 960 mL; a quarter of it is 240 mL."""
    used = stockroom.json(
        *NOW, "use", BATH, "--job", "Charts", "--tray", "30 x 40", "--depth", "8 mm", "--fills", "2", "--tested", "AB"
    )
    assert (used["fill"], used["fills"], used["tray"]) == ("960", 2, "30 x 40 cm tray, 8 mm")
    assert used["drawn"][0]["amount"] == "480"


@pytest.mark.parametrize(
    "words",
    [
        ("--tray", "30 x 40"),
        ("--depth", "8 mm"),
        ("--tray", "100 mL beaker", "--depth", "8 mm"),
        ("--tray", "30 x 40", "--depth", "8 mL"),
        ("--tray", "30 x 40", "--depth", "0 mm"),
        ("--tray", "30 x 40", "--depth", "8 mm", "--qty", "1 L"),
        ("--most", "--qty", "1 L"),
        ("--most", "--tray", "30 x 40", "--depth", "8 mm"),
    ],
)
def test_what_is_no_fill_draws_nothing(stockroom: Any, jar: str, words: tuple[str, ...]) -> None:
    assert stockroom(*NOW, "use", BATH, "--job", "Charts", *words).code == 2
    assert stockroom.json(*NOW, "lot", jar)["amount"] == "2000"


def test_a_treatment_without_a_bath_fills_no_tray(stockroom: Any, jar: str) -> None:
    for words in (("--most",), ("--tray", "30 x 40", "--depth", "8 mm")):
        failed = stockroom(*NOW, "use", "press-between-webs", "--job", "Charts", *words)
        assert failed.code == 2
        assert "has no bath" in failed.err


def test_the_most_that_can_be_made_is_what_the_scarcest_thing_allows_and_books_nothing(
    stockroom: Any, jar: str
) -> None:
    """By hand: 8 g of powder at 0.5 % w/v are 1.6 L in all, two fills of 800 mL; the stock would do for 8 L."""
    stockroom.json(*NOW, "receive", "methyl-cellulose", "8 g", "--cost", "1")
    most = stockroom.json(*NOW, "use", POWDER_BATH, "--job", "Charts", "--most", "--fills", "2")
    assert (most["fill"], most["most"]) == ("800", {"limited_by": ["Methyl cellulose"]})
    assert most["action"] is None
    assert "Methyl cellulose ends it" in stockroom(*NOW, "use", POWDER_BATH, "--job", "Charts", "--most").out
    assert stockroom(*NOW, "use", POWDER_BATH, "--job", "Charts", "--qty", "801 mL", "--fills", "2").code == 1


def test_where_nothing_can_be_made_the_most_says_what_is_short(stockroom: Any, jar: str) -> None:
    short = stockroom.json(*NOW, "use", POWDER_BATH, "--job", "Charts", "--most", code=1)
    assert [one["material"] for one in short["short"]] == ["methyl-cellulose"]


def test_where_nothing_metered_is_used_there_is_no_most(stockroom: Any, jar: str) -> None:
    failed = stockroom(*NOW, "use", "conditioned-wash-water", "--job", "Charts", "--most")
    assert failed.code == 2
    assert "Nothing that is metered limits" in failed.err


def test_a_jar_says_for_how_many_fills_it_is_enough(stockroom: Any, jar: str) -> None:
    """By hand: 1,760 mL left are 7 times 240 mL, and once the 1 L of the booking (1 in 2 of 2 L)."""
    assert stockroom.json(*NOW, "lot", jar)["enough_for"] == []
    stockroom.json(
        *NOW, "use", BATH, "--job", "Charts", "--tray", "30 x 40", "--depth", "8 mm", "--fills", "1", "--tested", "AB"
    )
    stockroom.json(*NOW, "book", "calcium-hydroxide-1-in-2", "--job", "Charts", "--for", "2026-12-05", "--qty", "2 L")
    booked, used = stockroom.json(*NOW, "lot", jar)["enough_for"]
    assert (booked["recipe"], booked["fills"], booked["fill"], booked["tray"]) == (
        "calcium-hydroxide-1-in-2", 1, "2000", None,
    )  # fmt: skip
    assert (used["recipe"], used["fills"], used["fill"], used["tray"]) == (BATH, 7, "960", "30 x 40 cm tray, 8 mm")
    assert "for 7 fills of 960 mL (30 x 40 cm tray, 8 mm)" in stockroom(*NOW, "lot", jar).out
    stockroom.json(*NOW, "take", jar, "900 mL", "--why", "spilled")
    assert "not for one fill of 2 L" in stockroom(*NOW, "lot", jar).out


def test_what_was_undone_says_nothing_of_the_next_fill(stockroom: Any, jar: str) -> None:
    used = stockroom.json(*NOW, "use", BATH, "--job", "Charts", "--qty", "1 L", "--tested", "AB")
    stockroom.json(*NOW, "undo", used["action"], "--why", "mistyped")
    assert stockroom.json(*NOW, "lot", jar)["enough_for"] == []
