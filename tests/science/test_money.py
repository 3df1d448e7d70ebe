"""Money in minor units."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput, Unreadable
from stockroom.science.money import convert, minor_digits, money_text, read_money, show_money

currencies = st.sampled_from(["EUR", "USD", "GBP", "CHF", "JPY", "KWD"])


@pytest.mark.parametrize(
    ("digits", "codes"),
    [
        (0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF VND VUV XAF XOF XPF"),
        (2, "AUD CAD CHF CZK DKK EUR GBP HUF INR NOK NZD PLN SEK USD ZAR"),
        (3, "BHD IQD JOD KWD LYD OMR TND"),
    ],
)
def test_minor_units_are_those_of_the_standard(digits: int, codes: str) -> None:
    """ISO 4217, list one, checked against a public copy of the maintenance agency's table (read)."""
    assert {code: minor_digits(code) for code in codes.split()} == dict.fromkeys(codes.split(), digits)


@given(st.integers(0, 10**15), currencies)
def test_a_sum_that_is_shown_reads_back(minor: int, currency: str) -> None:
    assert read_money(money_text(minor, currency), currency) == minor
    assert read_money(show_money(minor, currency), currency) == minor


@pytest.mark.parametrize(
    ("text", "currency", "minor"),
    [
        ("12.50", "EUR", 1250),
        ("12,50", "EUR", 1250),
        ("12,5", "EUR", 1250),
        ("EUR 12", "EUR", 1200),
        ("0", "EUR", 0),
        (".05", "EUR", 5),
        ("1500", "JPY", 1500),
        ("1.500", "KWD", 1500),
    ],
)
def test_sums_are_read_with_a_point_or_a_comma(text: str, currency: str, minor: int) -> None:
    assert read_money(text, currency) == minor


def test_a_thousands_comma_is_refused_with_both_readings() -> None:
    with pytest.raises(Unreadable) as refused:
        read_money("1,500", "EUR")
    assert refused.value.details["readings"] == ["1500", "1.5"]


@pytest.mark.parametrize(
    "text", ["", "-5", "12.505", "1.500", "€12", "12 USD", "1.500,00", "1 500", "1/2", "1e5", "free", "9" * 30]
)
def test_what_is_no_sum_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        read_money(text, "EUR")


def test_losses_are_shown_with_a_sign_and_every_digit() -> None:
    assert show_money(-5, "EUR") == "-0.05 EUR"
    assert money_text(-5, "JPY") == "-5"
    assert money_text(1_500, "KWD") == "1.500"


@pytest.mark.parametrize("code", ["XYZ", "eur", "", "EURO", "[A3]"])
def test_an_unknown_currency_is_refused(code: str) -> None:
    with pytest.raises(BadInput):
        minor_digits(code)


@pytest.mark.parametrize(
    ("minor", "rate", "currency", "into", "became"),
    [
        (3000, "0.8713", "USD", "EUR", 2614),  # 26.139
        (1, "0.5", "USD", "EUR", 0),  # half a cent, to even
        (3, "0.5", "USD", "EUR", 2),
        (5000, "0.0061", "JPY", "EUR", 3050),  # 5000 yen have no minor unit
        (12_345, "163.9", "EUR", "JPY", 20_233),  # 20233.455
        (1_000, "3.25", "KWD", "EUR", 325),  # 1.000 dinar has three digits
    ],
)
def test_another_currency_is_turned_once_and_half_to_even(
    minor: int, rate: str, currency: str, into: str, became: int
) -> None:
    """Worked by hand; digits of the minor units by ISO 4217: EUR and USD 2, JPY 0, KWD 3."""
    assert convert(minor, Decimal(rate), currency, into) == became
