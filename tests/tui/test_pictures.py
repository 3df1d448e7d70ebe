"""Pictures in characters: what stands where, told by signs and words and never by colour alone."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from stockroom.actions.costing import Bar
from stockroom.actions.planned import Moment
from stockroom.domain.materials import Material
from stockroom.domain.open_days import ClosedTime, OpenDays
from stockroom.domain.papers import Column, Heading, Paper, Rows, Words
from stockroom.planning.projection import Point
from stockroom.science.quantities import Dimension
from stockroom.science.ranges import Range
from stockroom.tui.pictures.bars import draw_bars
from stockroom.tui.pictures.canvas import Canvas, Days
from stockroom.tui.pictures.jar import ROWS, draw_jar
from stockroom.tui.pictures.paper import draw_paper
from stockroom.tui.pictures.stock import draw_stock
from stockroom.tui.pictures.strength import Dated, draw_strength, span
from stockroom.tui.pictures.weeks import CELL, LEFT, draw_weeks

TODAY = date(2026, 11, 25)
SIZES = [(34, 8), (60, 10), (78, 12), (118, 18), (158, 30)]


def percent(low: float, best: float, high: float) -> Range:
    return Range(low=low, best=best, high=high, unit="%")


def titrated(days_ago: int, low: float, best: float, high: float) -> Dated:
    return Dated(day=TODAY - timedelta(days=days_ago), figure=percent(low, best, high))


def test_a_paper_tells_its_titles_by_weight_and_typed_text_is_no_markup() -> None:
    columns = (Column(title="Lot"), Column(title="Amount", right=True))
    paper = Paper(
        title="Held [/red]",
        blocks=(
            Heading(text="[b]Shelf[/b]"),
            Words(text="Danger", strong=True),
            Rows(columns=columns, rows=(("$primary", "1 L"), ("-", "2 L")), sums=(("In all", "3 L"),)),
        ),
    )
    drawn = draw_paper(paper, 40)
    assert drawn.plain.splitlines() == [
        "Held [/red]", "", "[b]Shelf[/b]", "", "Danger", "", "Lot       Amount", "────────  ──────", "$primary     1 L",
        "-            2 L", "     In all: 3 L",
    ]  # fmt: skip
    bold = {drawn.plain[span.start : span.end] for span in drawn.spans if "bold" in str(span.style)}
    assert bold == {"Held [/red]", "[b]Shelf[/b]", "Danger", "Lot       Amount"}
    assert all(max(map(len, draw_paper(paper, wide).plain.splitlines())) <= wide for wide in (20, 60, 120))


def test_what_falls_outside_the_sheet_is_left_off() -> None:
    canvas = Canvas(5, 2)
    canvas.put(3, 0, "abc")
    canvas.put(-1, 1, "xyz")
    canvas.put(0, 7, "below")
    assert canvas.content.plain == "   ab\nyz"


@pytest.mark.parametrize("length", [1, 10, 59, 60, 90, 1000])
def test_a_day_stands_in_one_column_and_a_column_ends_with_a_day(length: int) -> None:
    days = Days(TODAY, TODAY + timedelta(days=length), 9, 60)
    assert days.column(TODAY) == 9
    assert days.column(TODAY + timedelta(days=length)) == 68
    for column in range(9, 69):
        last = days.day(column)
        assert days.column(last) <= column
        assert last == days.last or days.column(last + timedelta(days=1)) > column


@pytest.mark.parametrize(("held", "rows"), [(0, 0), (1, 1), (500, 3), (1000, 6)])
def test_a_jar_is_as_full_as_it_is(held: int, rows: int) -> None:
    drawn = draw_jar(held, 1000, solid=False).plain
    assert drawn.count("≈≈≈≈≈≈≈≈≈") == (1 if rows else 0)
    assert drawn.count("░░░░░░░░░") == max(0, rows - 1)
    assert len(drawn.splitlines()) == ROWS + 3
    assert "▓" not in drawn


def test_solid_at_the_bottom_is_drawn_and_solid_nobody_can_tell_of_is_a_question() -> None:
    assert "▓▓▓▓▓▓▓▓▓" in draw_jar(500, 1000, solid=True).plain
    assert "?????????" in draw_jar(500, 1000, solid=None).plain


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_each_check_is_a_bar_from_lowest_to_highest_against_saturation_and_limit(width: int, height: int) -> None:
    checks = [titrated(100, 94, 100, 106), titrated(50, 88, 93, 99), titrated(5, 70, 75, 80)]
    first, last = span(TODAY - timedelta(days=120), checks, TODAY, None)
    drawn = draw_strength(checks, 90, first, last, TODAY, None, width, height).plain
    lines = drawn.splitlines()
    assert len(lines) <= height and max(map(len, lines)) <= width
    assert sum(line.count("●") for line in lines) == 3
    saturated = next(number for number, line in enumerate(lines) if "100 %" in line)
    limit = next(number for number, line in enumerate(lines) if "90 %" in line)
    weak = max(number for number, line in enumerate(lines) if "●" in line)
    assert saturated < limit < weak  # the last check lies wholly below the limit
    assert "─" in lines[saturated] and "╌" in lines[limit]


def test_checks_of_one_day_stand_beside_each_other() -> None:
    checks = [titrated(50, 94, 100, 106), titrated(50, 95, 101, 107)]
    first, last = span(TODAY - timedelta(days=60), checks, TODAY, None)
    assert draw_strength(checks, 90, first, last, TODAY, None, 70, 12).plain.count("●") == 2


def test_a_figure_above_the_picture_is_a_hollow_dot_at_its_edge() -> None:
    checks = [titrated(10, 150, 160, 170)]
    first, last = span(TODAY - timedelta(days=60), checks, TODAY, None)
    lines = draw_strength(checks, 90, first, last, TODAY, None, 70, 12).plain.splitlines()
    assert "○" in lines[0] and "●" not in "".join(lines)


def acetone() -> Material:
    return Material(id=1, key="acetone", name="Acetone", kind="solvent", dimension=Dimension.VOLUME)


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_stock_falls_where_it_is_taken_and_the_line_is_seen_through_it(width: int, height: int) -> None:
    litre = 1_000_000
    points = [
        Point(day=TODAY, quantity=litre),
        Point(day=TODAY + timedelta(days=30), quantity=litre // 4, changes=(("booking", "K001W", -3 * litre // 4),)),
        Point(day=TODAY + timedelta(days=60), quantity=0, changes=(("expiry", "L001W", -litre // 4),)),
    ]
    last = TODAY + timedelta(days=90)
    lines = draw_stock(acetone(), points, litre // 2, last, width, height).plain.splitlines()
    assert len(lines) <= height and max(map(len, lines)) <= width
    curve = lines[: height - 5]
    full = [line.count("█") + line.count("▒") for line in curve]
    assert full == sorted(full)  # the lower, the longer it lasts
    line = next(each for each in curve if "╌" in each)
    assert "▒" in line and line.lstrip().startswith("500")
    assert [sign for sign in "-×" if any(sign in each for each in lines[height - 3 :])] == ["-", "×"]


def test_a_little_is_never_drawn_as_nothing() -> None:
    points = [
        Point(day=TODAY, quantity=1_000_000),
        Point(day=TODAY + timedelta(days=1), quantity=1, changes=(("booking", "K001W", -999_999),)),
    ]
    drawn = draw_stock(acetone(), points, None, TODAY + timedelta(days=90), 60, 12).plain
    assert "▁" in drawn


def moment(days: int, kind: str, late: bool = False) -> Moment:
    return Moment(day=TODAY + timedelta(days=days), kind=kind, code="", words="", late=late)


def test_each_thing_stands_on_its_day_with_how_many_there_are() -> None:
    moments = [moment(3, "booking"), moment(3, "booking"), moment(1, "make", late=True), moment(-2, "order")]
    lines = draw_weeks(moments, OpenDays(), TODAY, TODAY + timedelta(days=3), 78).plain.splitlines()
    rows = {line[:LEFT].strip(): line for line in lines[2:]}
    assert rows["booked"][LEFT + 3 * CELL] == "2"
    assert rows["make"][LEFT + CELL : LEFT + 2 * CELL] == "1!"
    assert rows["order"][LEFT : LEFT + CELL] == "1!"  # what should have begun stands today, with a sign
    assert lines[1][LEFT + 3 * CELL] == "▼"
    assert "today" in lines[0] and "Mon 30 Nov" in lines[0]


def test_closed_days_are_shaded_and_what_falls_on_them_is_seen() -> None:
    away = OpenDays(times=(ClosedTime(first=TODAY + timedelta(days=2), last=TODAY + timedelta(days=4)),))
    lines = draw_weeks([moment(3, "booking")], away, TODAY, None, 78).plain.splitlines()
    booked = next(line for line in lines if line.startswith("booked"))
    assert booked[LEFT + 2 * CELL : LEFT + 5 * CELL] == "▒▒1 ▒▒"


@pytest.mark.parametrize("width", [66, 78, 118])
def test_bars_are_as_long_as_what_they_stand_for(width: int) -> None:
    bars = [
        Bar(name="[/] bath", expected=2000, actual=1000, to_come=500),
        Bar(name="mend", expected=0, actual=1, to_come=0),
        Bar(name="later", expected=400, actual=0, to_come=400),
    ]
    drawn = draw_bars(bars, "EUR", width).plain
    lines = drawn.splitlines()
    assert max(map(len, lines)) <= width
    expected, actual = lines[1], lines[2]
    assert expected.count("█") + expected.count("░") == pytest.approx(2 * actual.count("█"), abs=1)
    assert "20.00 EUR, 5.00 EUR of it still to come" in expected
    assert lines[3:5] == ["mend", "  so far    █  0.01 EUR, not booked before"]
    assert "4.00 EUR still to come" in lines[6] and len(lines) == 7


def test_nothing_costs_nothing_and_draws_nothing() -> None:
    assert draw_bars([], "EUR", 80).plain == ""
    assert draw_bars([Bar(name="free", expected=0, actual=0, to_come=0)], "EUR", 80).plain == ""
