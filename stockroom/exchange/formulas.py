"""Keep spreadsheets from taking text for a formula, in a way that can be read back.

OWASP, "CSV Injection" (owasp.org/www-community/attacks/CSV_Injection): a cell that begins with = + - @, tab, carriage
return or line feed, or with the full-width forms of the signs, may be run as a formula; put a single quote before it.
Here a quote is put before such a cell, and before one that begins with quotes and then such a sign; reading takes one
quote away from a cell of that shape, so that every text comes back as it was. A plain number needs none.
"""

from __future__ import annotations

import re

_SIGNS = "=+\\-@\t\r\n\uff1d\uff0b\uff0d\uff20"
_WOULD_RUN = rf"'*[{_SIGNS}]"
_WAS_QUOTED = rf"'+[{_SIGNS}]"
_NUMBER = r"-?[0-9]+(?:\.[0-9]+)?"


def harmless(text: str) -> str:
    """Write a cell so that no spreadsheet runs it."""
    if re.match(_WOULD_RUN, text) and not re.fullmatch(_NUMBER, text):
        return f"'{text}"
    return text


def as_it_was(cell: str) -> str:
    """Read a cell that `harmless` wrote, or that a person typed."""
    return cell[1:] if re.match(_WAS_QUOTED, cell) else cell
