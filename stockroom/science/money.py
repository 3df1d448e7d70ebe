"""Money in whole minor units of one currency: `12.50` euro is 1250 cents."""

from __future__ import annotations

import re
from decimal import Decimal

from stockroom.errors import BadInput, Unreadable
from stockroom.science.numerals import quoted, read_decimal, tidy
from stockroom.science.sharing import round_half_even_ratio

MOST_MINOR = 10**15

_CODES_BY_DIGITS = {
    0: """
        BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF
    """,
    2: """
        AED ALL AMD AUD AZN BAM BDT BGN BOB BRL BWP BYN CAD CHF CNY COP CRC CZK DKK DOP DZD EGP
        ETB EUR FJD GBP GEL GHS GTQ HKD HNL HUF IDR ILS INR JMD KES KGS KHR KZT LBP LKR MAD MDL
        MKD MMK MNT MOP MUR MVR MXN MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR
        RON RSD RUB SAR SEK SGD THB TRY TTD TWD TZS UAH USD UYU UZS ZAR ZMW
    """,
    3: """
        BHD IQD JOD KWD LYD OMR TND
    """,
    4: """
        CLF UYW
    """,
}
"""Decimal digits of the minor unit (ISO 4217, list one), for currencies in daily use."""

_DIGITS = {code: digits for digits, codes in _CODES_BY_DIGITS.items() for code in codes.split()}
CURRENCIES = frozenset(_DIGITS)


def minor_digits(currency: str) -> int:
    """Give how many decimal digits a currency's minor unit has: EUR 2, JPY 0, KWD 3. Raises BadInput."""
    digits = _DIGITS.get(currency)
    if digits is None:
        raise BadInput(f"{quoted(currency)} is not a currency known here. Write its ISO 4217 code, such as EUR or USD.")
    return digits


def read_money(text: str, currency: str) -> int:
    """Read a sum that is not negative as minor units: `12.50`, `12,50` or `12.50 EUR`.

    Raises Unreadable for `1,500` (both readings), for more decimals than the currency has, and for
    other money.
    """
    digits = minor_digits(currency)
    plain = re.sub(rf"^{currency} ?| ?{currency}$", "", tidy(text))
    if re.search(r"[^\W\d_]|[€$£¥]", plain):
        raise Unreadable(
            f"{quoted(text)} is not a sum in {currency}. Write the number alone, such as {money_text(1250, currency)}.",
            read=text,
        )
    if "/" in plain:
        raise Unreadable(f"{quoted(text)}: write money as a decimal number.", read=text)
    value = read_decimal(plain)
    if len(plain) - max(plain.find("."), plain.find(",")) - 1 > digits and not plain.isdecimal():
        raise Unreadable(
            f"{quoted(text)} has more decimals than {currency}, which has {digits}."
            " Write it without marks between the thousands, and with no more decimals than that.",
            read=text,
        )
    minor = int(value.scaleb(digits))
    if minor > MOST_MINOR:
        raise Unreadable(f"{quoted(text)} is more than any delivery costs. Look at the number.", read=text)
    return minor


def money_text(minor: int, currency: str) -> str:
    """Write a sum with all the currency's digits: `12.50`, `-0.05`; reads back as the same."""
    digits = minor_digits(currency)
    units, rest = divmod(abs(minor), 10**digits)
    sign = "-" if minor < 0 else ""
    return f"{sign}{units}.{rest:0{digits}d}" if digits else f"{sign}{units}"


def show_money(minor: int, currency: str) -> str:
    """Write a sum with its currency: `12.50 EUR`."""
    return f"{money_text(minor, currency)} {currency}"


def convert(minor: int, rate: Decimal, currency: str, into: str) -> int:
    """Turn minor units of one currency into those of another, rounded once, half to even.

    `rate` is what one unit (not minor unit) of `currency` costs in `into`.
    """
    above, below = rate.as_integer_ratio()
    return round_half_even_ratio(minor * above * 10 ** minor_digits(into), below * 10 ** minor_digits(currency))
