"""What the typeface lacks, and what cannot be seen, is shown by number and never as an empty box."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.labels.fonts import BOLD, REGULAR, fit_to_font, load_face, measure
from stockroom.labels.plain_text import count_cells, make_visible, runs_right_to_left


@pytest.mark.parametrize("sign", list("µ½¼¾⅛°≥≤±×→–·…₀₁₂₃₄₅₆₇₈₉²³éüñßÅŐ"))
def test_the_typeface_has_the_signs_of_the_trade(sign: str) -> None:
    """Both weights print them as they are."""
    assert fit_to_font(sign) == (sign, ())
    assert all(ord(sign) in load_face(name).widths for name in (REGULAR, BOLD))


@pytest.mark.parametrize(
    ("typed", "shown", "lacking"),
    [
        ("5 μL", "5 µL", ()),
        ("ж", "[U+0436]", ("ж",)),
        ("α-amylase, 10 kΩ", "alpha-amylase, 10 kohm", ()),
        ("Ca²⁺ + 2 OH⁻", "Ca²+ + 2 OH−", ()),
        ("مرحبا", "[U+0645 and 4 more]", ("م", "ر", "ح", "ب", "ا")),
        ("a 😀 b", "a [U+1F600] b", ("😀",)),
        ("20 ℃", "20 °C", ()),
    ],
)
def test_other_letters_are_given_by_number(typed: str, shown: str, lacking: tuple[str, ...]) -> None:
    """The first of a run stands for it; the whole run is reported."""
    assert fit_to_font(typed) == (shown, lacking)


@given(st.text(max_size=60))
def test_any_fitted_text_can_be_measured(text: str) -> None:
    """After fitting, no character is without a width, and width grows with the letter size."""
    fitted, _ = fit_to_font(make_visible(text))
    assert measure(fitted, 2.0, False) == pytest.approx(2 * measure(fitted, 1.0, False))


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("a\x1b[31mb", "a[U+001B][31mb"),
        ("one\ntwo\tthree\u00a0four", "one two three four"),
        ("safe\u202etxt", "safe[U+202E]txt"),
        ("\x00\x7f\x9b", "[U+0000][U+007F][U+009B]"),
        ("\ud800", "[U+D800]"),
        ("e\u0301", "é"),
        ("👩‍🔬", "👩‍🔬"),
        ("  [A3] =1+1 ", "[A3] =1+1"),
    ],
)
def test_what_cannot_be_seen_is_made_visible(typed: str, shown: str) -> None:
    """Controls, changes of direction and broken characters become their numbers; white space becomes one space."""
    assert make_visible(typed) == shown


@given(st.text())
def test_visible_text_can_do_nothing_to_a_terminal_or_a_file(text: str) -> None:
    """No control character is left, making visible twice changes nothing, and it can be written as UTF-8."""
    shown = make_visible(text)
    assert all(character.isprintable() or character in "\u200c\u200d" for character in shown)
    assert make_visible(shown) == shown
    shown.encode()


def test_terminal_cells_and_direction() -> None:
    """Wide characters take two cells, marks that combine none; Arabic and Hebrew run from the right."""
    assert (count_cells("é"), count_cells("糊"), count_cells("q̇")) == (1, 2, 1)
    assert runs_right_to_left("a مرحبا") and runs_right_to_left("שלום")
    assert not runs_right_to_left("paste 糊 😀")
