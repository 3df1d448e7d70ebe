"""How a quote is told beside what was used, to programs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from stockroom.actions.quote_comparing import Against


def against_document(lines: Sequence[Against], currency: str) -> list[dict[str, Any]]:
    """Return the lines of a comparison as documents hold them; money as text."""
    from stockroom.science.money import money_text

    return [
        {
            "treatment": line.treatment,
            "material": line.material.key if line.material else None,
            "quoted": None if line.quoted is None else money_text(line.quoted.best, currency),
            "used": None if line.used is None else money_text(line.used.value, currency),
            "difference": money_text(line.difference, currency),
            "causes": [{"cause": one.kind, "value": money_text(one.value, currency)} for one in line.causes],
            "why": line.why,
        }
        for line in lines
    ]
