"""Until when a lot may be used, and which rule says so.

The earliest of: the maker's date; the closed life, counted from the day it came, where the maker gave no date; the
opening date and the life once opened; the solution's own life; where the recipe says so, the earliest of what went
into it. EMA CPMP/QWP/159/96 on the life after first opening; 21 CFR 58.83 on outdated solutions.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from stockroom.domain.lots import Lot
from stockroom.science.lives import Until, earliest, life_end, read_life


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A last day or minute, and the rule that sets it."""

    until: Until
    rule: str


def narrowest(limits: Sequence[Limit | None]) -> tuple[str | None, str | None]:
    """Return the limit that ends first, as stored text and rule; nothing where none is given."""
    known = [limit for limit in limits if limit is not None]
    if not known:
        return None, None
    first = earliest(*(limit.until for limit in known))
    limit = next(limit for limit in known if limit.until == first)
    return limit.until.text(), limit.rule


def after(start: datetime | None, life: str | None, rule: str) -> Limit | None:
    """Return the limit that a life sets from a local moment on."""
    if start is None or life is None:
        return None
    return Limit(until=life_end(start, read_life(life)), rule=f"{rule}: {life}")


def stored(text: str | None, rule: str, start: datetime) -> Limit | None:
    """Return a stored day or minute as a limit; `start` lends its zone."""
    if text is None:
        return None
    return Limit(until=Until.from_text(text, start.tzinfo), rule=rule)


def received_limits(
    maker_use_by: str | None, life_closed: str | None, life_opened: str | None, came: datetime, opened: datetime | None
) -> tuple[str | None, str | None]:
    """Return the use-by of a bought lot and its rule."""
    closed = None if maker_use_by else after(came, life_closed, "kept closed")
    maker = stored(maker_use_by, "maker's date", came)
    return narrowest([maker, closed, after(opened, life_opened, "once opened")])


def opened_limits(lot: Lot, opened: datetime) -> tuple[str | None, str | None]:
    """Return the use-by of a lot once it is opened, and its rule."""
    now = stored(lot.use_by, lot.use_by_rule or "as before", opened)
    return narrowest([now, after(opened, lot.life_opened, "once opened")])


def made_limits(made: datetime, life: str | None, ingredients: Sequence[Lot]) -> tuple[str | None, str | None]:
    """Return the use-by of a solution, and its rule. Pass no ingredients where they do not limit it."""
    limits = [after(made, life, "keeps")]
    limits += [stored(lot.use_by, f"as long as {lot.material.name} {lot.code}", made) for lot in ingredients]
    return narrowest(limits)
