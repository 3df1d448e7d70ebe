"""Dates and numbers on the screens in the form the studio chose."""

from __future__ import annotations

import ast
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from tui.test_hostile_text import HOSTILE

import stockroom.tui
from stockroom.actions.receiving import Delivery, receive
from stockroom.actions.studio_choices import edit_choices, studio_choices
from stockroom.actions.taking import take
from stockroom.domain.occasion import Occasion
from stockroom.errors import Unreadable
from stockroom.science.days import read_day
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.reading import read_quantity
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import OwnForm, own_form
from stockroom.tui.own_form import InOwnForm, write_anew
from stockroom.tui.screens.statement import StatementScreen

BOTH = OwnForm(day_first=True, comma=True)


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ("2026-11-25", "25.11.2026"),
        ("use by 2027-11-02, 14:10 (12 months)", "use by 02.11.2027, 14:10 (12 months)"),
        ("from 2026-11-05 to 2026-11-19.", "from 05.11.2026 to 19.11.2026."),
        ("│ 1.5 g of lime │", "│ 1,5 g of lime │"),
        ("12.90 EUR, -0.21 EUR, +3.78 EUR", "12,90 EUR, -0,21 EUR, +3,78 EUR"),
        ("0.2 % or 0.25%", "0,2 % or 0,25%"),
        ("2.5 sheets and 1.5 pieces", "2,5 sheets and 1,5 pieces"),
        ("1.56 to 1.73 g/L, likeliest 1.65 g/L", "1,56 to 1,73 g/L, likeliest 1,65 g/L"),
        ("0.65 to 0.83, likeliest 0.73 L", "0,65 to 0,83, likeliest 0,73 L"),
        ("refills 0.65 to 0.83, likeliest 0.73, of 1 L each", "refills 0,65 to 0,83, likeliest 0,73, of 1 L each"),
        ("65.5 x 48 cm, 3 x 1.5 L, 30 × 40.5 cm", "65,5 x 48 cm, 3 x 1,5 L, 30 × 40,5 cm"),
        ("pH 8.2, pH 8.2 to 9.05", "pH 8,2, pH 8,2 to 9,05"),
        ("0.1 mol/L, 74.093 g/mol, 0.165 g/100 mL", "0,1 mol/L, 74,093 g/mol, 0,165 g/100 mL"),
        ("20.5 °C, 5.5 % RH, 1.2 m2, 0.5 h", "20,5 °C, 5,5 % RH, 1,2 m2, 0,5 h"),
        ("about 1.5 of it; of 1.2 or 1.3 mL", "about 1,5 of it; of 1,2 or 1,3 mL"),
        ("at 20 °C is 1.56 to 1.73   │", "at 20 °C is 1,56 to 1,73   │"),
        ("at 20 °C it is 1.56 to  ", "at 20 °C it is 1,56 to  "),
    ],
)
def test_dates_and_measured_numbers_are_written_anew(line: str, shown: str) -> None:
    assert write_anew(line, BOTH) == shown


@pytest.mark.parametrize(
    "line",
    [
        "L001W J001R P0015 K0029 E000C",
        "14:10 and 2 h 30 min, 14.30",
        "version 1.2, stockroom 0.1.0, Python 3.11.2",
        "Sigillum 12.345, page 3.4 of it",
        "maker's lot 2026-11-25",
        "maker's lot  24.117 g",
        "number 2026-11-25",
        "AB-12.5 g, X2026-11-25, 1.2.3 g, CaSO4.2 H2O",
        "stockroom-2026-11-25.db, label 2026-11-25.pdf, 2026-11-25T14:10, /copies/2026-11-25/",
        "2026-02-30, 2026-13-01, 1310-58-3, 0999-11-25",
        "You typed “1.5 mL” on “2026-11-25”.",
        "1.5 Loaves, 1.5 games, 10.25 ABC",
        "1,234.5 mL",
        "25.11.2026 and 1,5 mL",
        "",
    ],
)
def test_nothing_else_is_touched(line: str) -> None:
    assert write_anew(line, BOTH) == line


def test_each_choice_counts_alone() -> None:
    assert write_anew("1.5 mL on 2026-11-25", OwnForm(day_first=True)) == "1.5 mL on 25.11.2026"
    assert write_anew("1.5 mL on 2026-11-25", OwnForm(comma=True)) == "1,5 mL on 2026-11-25"
    assert write_anew("1.5 mL on 2026-11-25", OwnForm()) == "1.5 mL on 2026-11-25"


WRITTEN = st.lists(
    st.one_of(
        st.text(max_size=12),
        st.sampled_from(HOSTILE),
        st.dates().map(str),
        st.decimals(0, 9999, places=2).map(str),
        st.sampled_from([" ", " to ", " x ", ", likeliest ", "pH ", " mL", " EUR", " %", "“", "”", "│", "-", "."]),
    ),
    max_size=12,
).map("".join)


@given(WRITTEN)
def test_a_line_stays_as_wide_and_differs_only_in_the_signs_of_dates_and_decimals(line: str) -> None:
    shown = write_anew(line, BOTH)
    assert (len(shown), cell_len(shown)) == (len(line), cell_len(line))
    assert all(
        was == now or (was in "0123456789-." and now in "0123456789.,") for was, now in zip(line, shown, strict=True)
    )
    assert write_anew(shown, BOTH) == shown


@given(st.dates(date(1900, 1, 1), date(2199, 12, 31)), st.integers(1, 10**9))
def test_what_is_shown_is_read_as_what_it_was(day: date, quanta: int) -> None:
    assert read_day(write_anew(day.isoformat(), BOTH), today=day) == day
    written = show(Quantity(Dimension.VOLUME, quanta))
    shown = write_anew(written, BOTH)
    try:
        assert read_quantity(shown).quantity == read_quantity(written).quantity
    except Unreadable as refused:  # three places behind a comma might be thousands, and are asked about
        assert written.split()[0] in " ".join(refused.details["readings"])


def test_a_number_is_found_across_styles_and_each_segment_keeps_its_own() -> None:
    bold = Style(bold=True)
    segments = [Segment("on 2026-"), Segment("11-25: 1.", bold), Segment("5"), Segment(" mL")]
    written = InOwnForm(BOTH).apply(segments, Color(0, 0, 0))
    assert [(one.text, one.style) for one in written] == [
        ("on 25.11", None),
        (".2026: 1,", bold),
        ("5", None),
        (" mL", None),
    ]


def choose(store: Store, occasion: Callable[..., Occasion]) -> None:
    edit_choices(store, occasion(), dates="day-first", decimal_sign="comma")


@pytest.mark.parametrize("no_colour", [False, True])
async def test_screens_show_the_chosen_form_at_once_and_fields_and_labels_what_they_hold(
    screens,  # type: ignore[no-untyped-def]
    store: Store,
    occasion: Callable[..., Occasion],
    stocked: dict[str, str],
    no_colour: bool,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    if no_colour:
        monkeypatch.setenv("NO_COLOR", "1")
    hostile = "[A3] 2.5 mL [/red] \x1b[31m 2026-01-31 مرحبا"
    came = Delivery(
        material="ethanol", quantity="1.5 L", cost=1250, use_by="2026-11-20", place="shelf", lot_number="2026-11-25"
    )
    lot = str(receive(store, occasion("2026-11-01", why=hostile), came).codes[0])
    async with screens(size=(120, 45)) as shown:
        await shown.sees("2026-11-20")
        assert not any(isinstance(one, InOwnForm) for one in shown.app.get_line_filters())
        # Chosen in another window: the next look tells.
        choose(store, occasion)
        await shown.sees("20.11.2026")
        assert "2026-11-20" not in shown.text

        shown.app.open_code(lot)
        await shown.sees("20.11.2026", "1,5 L", "12,50 EUR", "maker's lot  2026-11-25")
        await shown.sees("[A3] 2,5 mL [/red] [U+001B][31m 31.01.2026 مرحبا")
        await shown.sees("use by 2026-11-20")  # on its label, beside what the page says
        await shown.press("l")
        await shown.sees("As it will print", "│  use by 2026-11-20", "│  received 2026-11-01")
        await shown.press("escape", "escape")

        shown.app.open_form("use", recipe="calcium-hydroxide-1-in-4", job=stocked["job"])
        await shown.sees("one fill of 1 L", "0,03 EUR")
        await shown.fill("fill", "2.5 L")
        await shown.sees("One fill         2.5 L", "one fill of 2,5 L", "0,07 EUR")
        edit_choices(store, occasion(), dates="year-first", decimal_sign="point")
        await shown.sees("one fill of 2.5 L", "0.07 EUR")


async def test_it_is_chosen_on_screen_and_counts_there_at_once(
    screens,  # type: ignore[no-untyped-def]
    store: Store,
    occasion: Callable[..., Occasion],
    stocked: dict[str, str],
) -> None:
    async with screens(size=(80, 24)) as shown:
        await shown.press("ctrl+f")
        await shown.answer("studio choos")
        await shown.sees("What the studio chooses")
        await shown.press("enter")
        await shown.sees("Nothing is changed yet.", "year first, until chosen")
        await shown.press("enter")
        await shown.choose("day")
        await shown.sees("dates on screen: nothing → day-first")
        await shown.press("enter")
        await shown.sees("as in “1.5 mL”")
        await shown.choose("comma")
        await shown.fill("limit", "100")
        await shown.sees("A limit of “100” is none")
        await shown.fill("limit", "")
        await shown.sees("decimal sign: nothing → comma")
        await shown.press("ctrl+s")
        await shown.sees("nothing is done until you say so")
        await shown.press("b")
        await shown.sees("Kept: what it chooses")
        await shown.press("enter")
        await shown.sees("20.11.2026")
    assert own_form(store) == BOTH
    found = studio_choices(store)
    assert found.limit_source.startswith("until the studio chooses")
    assert found.dates_source.startswith("chosen by the studio, AB")


async def test_a_paper_stays_as_it_will_print(
    screens,  # type: ignore[no-untyped-def]
    store: Store,
    occasion: Callable[..., Occasion],
    stocked: dict[str, str],
) -> None:
    take(store, occasion(), stocked["jar"], "2.5 mL", job=stocked["job"])
    choose(store, occasion)
    async with screens(size=(120, 45)) as shown:
        shown.app.open_code(stocked["job"])
        await shown.sees("2,5 mL", "25.11.2026")
        shown.app.push_screen(StatementScreen(stocked["job"]))
        await shown.sees("2.5 mL", "2026-11-25")
        assert "2,5 mL" not in shown.text


def test_every_field_of_the_screens_keeps_what_was_typed() -> None:
    """A field of the library itself would show what was typed in another form."""
    for path in Path(stockroom.tui.__path__[0]).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in ("Input", "TextArea", "MaskedInput"), path
