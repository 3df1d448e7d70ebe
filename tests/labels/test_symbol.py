"""The symbol is read back by an independent decoder."""

from __future__ import annotations

from collections.abc import Callable

import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from stockroom.domain.codes import NOUNS, next_code
from stockroom.errors import BadInput
from stockroom.labels.symbol import QUIET_MODULES, Matrix, find_runs, make_symbol


def as_image(matrix: Matrix) -> Image.Image:
    image = Image.new("L", (len(matrix), len(matrix)), 255)
    image.putdata([0 if dark else 255 for row in matrix for dark in row])
    return image.resize((len(matrix) * 4, len(matrix) * 4), Image.Resampling.NEAREST)


@given(st.sampled_from(sorted(NOUNS)), st.integers(0, 29**4), st.booleans())
def test_every_code_is_read_back(prefix: str, after: int, small: bool) -> None:
    """Whatever the code, the fixed mask gives a symbol that reads as that code."""
    code = next_code(prefix, after)[1]
    found = zxingcpp.read_barcodes(as_image(make_symbol(code, small=small)))
    assert [(symbol.text, symbol.format) for symbol in found] == [(code, zxingcpp.BarcodeFormat.QRCode)]
    assert found[0].ec_level == "H"


def test_a_code_takes_version_2_and_the_small_form_version_1() -> None:
    """ISO/IEC 18004: a symbol of version V has 17 + 4V modules a side; four white ones go around it."""
    assert len(make_symbol("L001W")) == 25 + 2 * QUIET_MODULES
    assert len(make_symbol("L001W", small=True)) == 21 + 2 * QUIET_MODULES


@pytest.mark.parametrize(
    ("characters", "modules", "level"), [(20, 25, "H"), (21, 25, "Q"), (29, 25, "Q"), (30, 25, "M")]
)
def test_codes_are_packed_in_alphanumeric_mode(characters: int, modules: int, level: str) -> None:
    """Version 2 holds 20, 29 and 38 such characters at levels H, Q and M (ISO/IEC 18004, table 7; from memory)."""
    matrix = make_symbol("L" * characters)
    assert len(matrix) == modules + 2 * QUIET_MODULES
    assert zxingcpp.read_barcodes(as_image(matrix))[0].ec_level == level


def test_the_quiet_zone_is_white() -> None:
    """Four modules on every side stay white."""
    matrix = make_symbol("L001W")
    edge = [*matrix[:QUIET_MODULES], *matrix[-QUIET_MODULES:]]
    assert not any(any(row) for row in edge)
    assert not any(any(row[:QUIET_MODULES]) or any(row[-QUIET_MODULES:]) for row in matrix)


@given(st.text(alphabet="LJ0123456789AW", min_size=1, max_size=30))
def test_runs_cover_exactly_the_dark_modules(text: str) -> None:
    """Drawing the runs draws the symbol."""
    matrix = make_symbol(text)
    drawn = {(row, at) for row, column, length in find_runs(matrix) for at in range(column, column + length)}
    assert drawn == {(r, c) for r, row in enumerate(matrix) for c, dark in enumerate(row) if dark}


def test_code_and_words_in_one_line_are_read_back(read_symbols: Callable[[Image.Image], list[str]]) -> None:
    """Longer text takes a larger symbol, small letters included."""
    text = "L001W calcium hydroxide solution, about 1.6 g/L"
    assert read_symbols(as_image(make_symbol(text))) == [text]


def test_more_than_any_symbol_holds_is_refused() -> None:
    """The largest symbol holds 4,296 alphanumeric characters (ISO/IEC 18004, table 7; from memory)."""
    assert make_symbol("A" * 4296)
    with pytest.raises(BadInput, match="a symbol cannot hold 4297 characters"):
        make_symbol("A" * 4297)
