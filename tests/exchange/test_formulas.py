"""Cells that a spreadsheet would run. OWASP, "CSV Injection", names the signs and the quote before them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.exchange.formulas import as_it_was, harmless

RUN = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""OWASP, "CSV Injection": cells that begin with any of these; the last four are the full-width forms."""


@pytest.mark.parametrize("sign", RUN)
def test_what_would_be_run_gets_a_quote_and_comes_back(sign: str) -> None:
    for text in (f"{sign}1+1", f"{sign}HYPERLINK(1)", f"'{sign}x", f"''{sign}x"):
        assert harmless(text) == f"'{text}"
        assert as_it_was(harmless(text)) == text


@pytest.mark.parametrize("text", ["-250", "0.5", "-0.05", "", "Japanese tissue", "'quoted'", "1 + 3", "a=b"])
def test_plain_numbers_and_words_stay_as_they_are(text: str) -> None:
    assert harmless(text) == text == as_it_was(text)


@pytest.mark.parametrize("text", ["-1+cmd|' /C calc'!A0", "+1", "-1e5", "-.5", "-", "--1"])
def test_only_a_whole_plain_number_goes_without(text: str) -> None:
    assert harmless(text) == f"'{text}"


@given(st.text(st.characters() | st.sampled_from("'=+-@\t\r\n"), max_size=30))
def test_any_text_comes_back_and_none_begins_with_such_a_sign(text: str) -> None:
    cell = harmless(text)
    assert as_it_was(cell) == text
    assert not cell.startswith(RUN) or cell.lstrip("-").replace(".", "", 1).isdigit()
