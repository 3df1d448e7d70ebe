"""`calc cut`, `calc reorder` and `calc order-size`."""

from __future__ import annotations

import pytest
from conftest import CommandLine

MONTHS_48 = (
    "0 0 0 0 0 5 0 0 4 0 0 0  0 0 0 0 0 5 0 8 0 0 5 5  0 7 0 4 0 0 0 0 0 0 5 0  7 6 4 0 0 4 0 6 5 0 0 0"  # see science
)


def test_a_sheet_is_cut_either_way_round_with_its_bound_and_layout(stockroom: CommandLine) -> None:
    """297 x 210 from 760 x 560: five by cuts from edge to edge, by area no more than six (computed)."""
    found = stockroom.json("calc", "cut", "--sheet", "760 x 560 mm", "--piece", "297 x 210 mm")
    assert (found["pieces"], found["bound"], found["exact"], len(found["layout"])) == (5, 6, True, 5)
    assert found["layout"][0] == {"x_mm": 0, "y_mm": 0, "length_mm": 297, "width_mm": 210, "turned": False}


@pytest.mark.parametrize(("grain", "pieces"), [("along", 4), ("across", 3)])
def test_grain_locks_the_way_round(stockroom: CommandLine, grain: str, pieces: int) -> None:
    asked = ["calc", "cut", "--sheet", "760 x 560 mm", "--piece", "297 x 210 mm", "--grain", grain]
    assert stockroom.json(*asked)["pieces"] == pieces


def test_trim_and_gap_cost_pieces(stockroom: CommandLine) -> None:
    asked = ["calc", "cut", "--sheet", "40 x 30 cm", "--piece", "10 x 10 cm"]
    assert stockroom.json(*asked)["pieces"] == 12
    assert stockroom.json(*asked, "--trim", "2 mm")["pieces"] == 6
    assert stockroom.json(*asked, "--gap", "1 mm")["pieces"] == 6


def test_the_layout_is_drawn(stockroom: CommandLine) -> None:
    drawn = stockroom("calc", "cut", "--sheet", "40 x 20 cm", "--piece", "20 x 20 cm", "--pieces", "5").out
    assert drawn.splitlines()[:3] == [
        "2 pieces of 20 x 20 cm from 40 x 20 cm, 100 % of the sheet; its area would never give more than 2.",
        "For 5: 3 sheets.",
        "+" + "-" * 35 + "+" + "-" * 35 + "+",
    ]


def test_pieces_too_small_to_draw_are_told_in_words(stockroom: CommandLine) -> None:
    drawn = stockroom("calc", "cut", "--sheet", "70 x 100 cm", "--piece", "1 x 1 cm").out
    assert drawn.splitlines()[1:] == ["70 x 100 pieces, from 0, 0 mm"]


def test_a_roll_is_cut_to_length(stockroom: CommandLine) -> None:
    """Four pieces of 30 cm lie side by side on 1.2 m; seven take two rows of 40 cm."""
    found = stockroom.json("calc", "cut", "--roll", "1.2 m", "--piece", "40 x 30 cm", "--pieces", "7")
    assert (found["pieces"], found["length_mm"], len(found["layout"])) == (7, 800, 7)
    words = stockroom("calc", "cut", "--roll", "1.2 m", "--piece", "40 x 30 cm", "--pieces", "7").out
    assert words.startswith("Take 800 mm of the roll for 7 pieces of 40 x 30 cm, which has room for 8.")


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        (["--piece", "1 x 1 cm"], "Is it a sheet or a roll?"),
        (["--piece", "1 x 1 cm", "--sheet", "2 x 2 cm", "--roll", "1 m"], "Is it a sheet or a roll?"),
        (["--piece", "1 x 1 cm", "--roll", "1 m"], "Say --pieces N"),
        (["--piece", "2 x 3 m", "--roll", "1 m", "--pieces", "2"], "too narrow"),
        (["--piece", "5 mL", "--sheet", "2 x 2 cm"], "not a size of two sides"),
        (["--piece", "1 x 1 cm", "--sheet", "2 x 2 cm", "--gap", "-1 mm"], "negative"),
    ],
)
def test_a_cut_that_cannot_be_is_refused(stockroom: CommandLine, asked: list[str], message: str) -> None:
    ran = stockroom("calc", "cut", *asked)
    assert (ran.code, ran.out) == (2, "")
    assert message in ran.err


def test_a_typed_history_says_which_rule_it_allows(stockroom: CommandLine) -> None:
    many = stockroom.json("calc", "reorder", "--history", MONTHS_48, "--delivery", "2 months")
    assert (many["rule"], many["uses"]) == ("smoothed rate", 15)
    assert 10 <= many["point"] < many["order_when_below"]
    few = stockroom.json("calc", "reorder", "--uses", "2 3 1", "--over", "24 months", "--delivery", "2 months")
    assert few["rule"] == "plain rate"
    none = stockroom.json("calc", "reorder", "--history", "0 0 0 0", "--delivery", "2 months")
    assert (none["rule"], none["point"], none["order_when_below"]) == ("by hand", None, None)


def test_the_interval_of_a_few_uses_is_exact(stockroom: CommandLine) -> None:
    """Three uses in two years: 0.6187 and 8.7673 in that time (F. Garwood, Biometrika 28 (1936) 437-442)."""
    found = stockroom.json("calc", "reorder", "--uses", "2; 3; 1", "--over", "2 years", "--delivery", "10 days")
    assert (found["per_year"]["low"], found["per_year"]["high"]) == pytest.approx((0.6187 / 2, 8.7673 / 2), abs=5e-5)
    assert "3 uses: likely 0.3 to 4.4 a year." in found["why"]


def test_a_steady_rate_is_that_of_the_textbook(stockroom: CommandLine) -> None:
    """Demand 30 ± 3 a day, delivery 7 ± 4 days, 90 %: printed safety stock 154 on top of 210 (see science)."""
    found = stockroom.json(
        "calc", "reorder", "--rate", "30 a day", "--spread", "3", "--delivery", "7 days", "--delivery-spread", "4 days",
        "--chance", "10 %",
    )  # fmt: skip
    assert found["rule"] == "steady rate"
    assert found["point"] == pytest.approx(210 + 153.94, abs=0.2)
    assert found["order_when_below"] == 365


def test_a_bare_rate_counts_uses_of_one_size(stockroom: CommandLine) -> None:
    """Six a month: over a month at most 10 with 95 % (Poisson, see science); below 11, order."""
    asked = ["calc", "reorder", "--rate", "6/month", "--delivery", "1 month"]
    found = stockroom.json(*asked)
    assert (found["rule"], found["point"], found["order_when_below"]) == ("rate as told", 10, 11)
    in_fives = stockroom.json("calc", "reorder", "--rate", "30/month", "--size", "5", "--delivery", "1 month")
    assert (in_fives["point"], in_fives["order_when_below"]) == (50, 55)


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        ([], "Give one of --history"),
        (["--history", "0 5", "--rate", "1 a day"], "Give one of --history"),
        (["--uses", "3 2 1"], "Say --over"),
        (["--uses", "3 0 1", "--over", "1 year"], "leave it out"),
        (["--rate", "1 a day", "--over", "1 year"], "--over goes with --uses"),
        (["--rate", "1 a day", "--size", "0"], "greater than nothing"),
        (["--rate", "ten"], "is not a rate"),
        (["--history", " "], "No number was given"),
        (["--history", "0 5 x"], "x"),
        (["--rate", "1 a day", "--chance", "0"], "cannot be planned for"),
        (["--rate", "1 a day", "--spread", "1", "--size", "2"], "give one of the two"),
    ],
)
def test_a_history_that_cannot_be_is_refused(stockroom: CommandLine, asked: list[str], message: str) -> None:
    ran = stockroom("calc", "reorder", "--delivery", "10 days", *asked)
    assert (ran.code, ran.out) == (2, "")
    assert message in ran.err


def test_order_size_gives_whole_packs_and_what_a_year_costs(stockroom: CommandLine) -> None:
    """The check made up for packs in the science tests: 20 cost 2,285.20 a year, 30 would cost 2,356.80."""
    asked = ("calc", "order-size", "--per-year", "952", "--order-cost", "27", "--keeping", "100")
    assert stockroom.json(*asked)["quantity"] == 22.67
    packed = stockroom.json(*asked, "--pack", "10")
    assert (packed["quantity"], packed["packs"], packed["yearly_cost"]) == (20, 2, 2285.2)


def test_order_size_at_price_breaks_compares_the_whole_cost(stockroom: CommandLine) -> None:
    """Open lecture notes on operations research (NeoPrimate, IEOR), quantity discounts: 1,000 at 109,500 a year."""
    asked = ("calc", "order-size", "--per-year", "12000", "--order-cost", "50", "--keeping-percent", "20")
    found = stockroom.json(*asked, "--price", "10", "--break", "500 = 9.50", "--break", "1000 = 9")
    assert (found["quantity"], found["price"], found["yearly_cost"]) == (1000, 9, 109500)


@pytest.mark.parametrize(
    "wrong",
    [
        ("--keeping", "0"),
        ("--keeping", "x"),
        ("--keeping", "1", "--price", "2"),
        ("--keeping-percent", "20"),
        ("--keeping-percent", "20", "--price", "10", "--break", "500"),
        ("--keeping-percent", "20", "--price", "10", "--break", "500 = 11"),
        (),
    ],
)
def test_order_size_refuses_what_gives_no_answer(stockroom: CommandLine, wrong: tuple[str, ...]) -> None:
    failed = stockroom("calc", "order-size", "--per-year", "10", "--order-cost", "5", *wrong)
    assert (failed.code, bool(failed.err.strip())) == (2, True)
