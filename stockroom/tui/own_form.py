"""Dates and decimals on the screens in the studio's form: `25.11.2026` for `2026-11-25`, `1,5 mL` for `1.5 mL`.

Everything is made, kept and printed in one form; only what is painted is written anew, line by line. Both forms take
as many columns. A number is taken for a measured one by what stands beside it; whatever else has a point (codes, lot
and version numbers, times) stays, and so does what stands in quotation marks, which was typed so.
"""

from __future__ import annotations

import re
from datetime import date

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from stockroom.science.money import CURRENCIES
from stockroom.store.stockroom_settings import OwnForm

_UNITS = """
    µg ug mg g kg lb µL µl uL ul mL ml cL cl dL dl L l tsp tbsp µm mm cm m mm2 cm2 m2 mm² cm² m² inch inches ft
    °C °F K mol mmol µmol meq mS µS ppm gsm s min h
    second seconds minute minutes hour hours day days week weeks month months year years
    sheet sheets piece pieces use uses pack packs roll rolls ream reams jar jars bottle bottles box boxes bag bags
    tube tubes can cans fill fills refill refills spoon spoons part parts time times
"""

_KEPT = r"“[^”]*”|(?:maker's lot|number) +\S+"
"""What was typed so, and numbers that somebody else gave."""
_DATE = r"(?<![\w./:-])(?P<year>(?:19|20|21)[0-9]{2})-(?P<month>[0-9]{2})-(?P<day>[0-9]{2})(?![\w/-]|[.:]\w)"
_NUMBER = r"[0-9]+(?:\.[0-9]+)?"
_SPAN = r"(?: ?(?:to|x|×|±|–) ?|, likeliest )"
_CHAIN = rf"{_NUMBER}(?:(?:{_SPAN}| (?:of|or|and) ){_NUMBER})*"
_UNIT = rf"(?:%|(?:{'|'.join([*_UNITS.split(), *sorted(CURRENCIES)])})(?!\w))"
_MEASURED = "|".join(
    (
        rf"{_CHAIN}(?=[ \u00a0]?{_UNIT})",
        rf"{_NUMBER} to {_NUMBER}, likeliest {_NUMBER}",
        # The unit of a span may stand in the next line.
        rf"{_NUMBER}(?:{_SPAN}{_NUMBER})*(?:{_SPAN}{_NUMBER}| (?:to|x|×|±))(?=\W*$)",
    )
)
_SAID_BEFORE = (
    "pH(?: of)?|about|likeliest|at (?:least|most)|(?:less|more) than|below|above|give or take|saturates|makes|holds"
)
_SAID = rf"\b(?:{_SAID_BEFORE}) {_CHAIN}(?![\w.])"
"""A number behind a word that only measured ones follow."""
_TO_WRITE_ANEW = rf"{_KEPT}|{_DATE}|(?P<number>{_SAID}|(?<![\w.,:/])(?<!\w-)(?:{_MEASURED}))"


def write_anew(line: str, form: OwnForm) -> str:
    """Return a line as long as it was, its dates and measured numbers in the studio's form."""

    def anew(found: re.Match[str]) -> str:
        if form.comma and found["number"]:
            return found[0].replace(".", ",")
        if form.day_first and found["year"] and _is_day(found[0]):
            return f"{found['day']}.{found['month']}.{found['year']}"
        return found[0]

    return re.sub(_TO_WRITE_ANEW, anew, line)


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


class InOwnForm(LineFilter):
    """Writes each painted line anew, whatever segments its numbers lie in."""

    def __init__(self, form: OwnForm) -> None:
        super().__init__()
        self._form = form

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """Return the segments with other signs in the same places."""
        line = "".join(segment.text for segment in segments)
        shown = write_anew(line, self._form)
        if shown == line:
            return segments
        written, at = [], 0
        for text, style, control in segments:
            written.append(Segment(shown[at : at + len(text)], style, control))
            at += len(text)
        return written
