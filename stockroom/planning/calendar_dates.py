"""Which of what is due stands in a calendar, under which name that lasts, and in what words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stockroom.planning.due import WORDS, Due

_TOPICS = {
    "remake": ("remake", WORDS["remake"]),
    "check": ("check", WORDS["check"]),
    "use-first": ("use-by", "use by"),
    "past-use-by": ("use-by", "use by"),
    "make-by": ("make-by", "make by"),
    "reorder": ("order-by", "order by"),
    "order-late": ("delivery", "delivery expected"),
    "loan": ("loan", "loan to be back"),
}
"""For each kind of due that has a day of its own: its lasting name, and how its title begins."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarDate:
    """One entry of a calendar."""

    name: str
    """Lasts as long as the matter: `use-by-L001W`, before the day and after it."""
    by: str
    """Day or minute, ISO local."""
    title: str
    words: str


def calendar_dates(items: Sequence[Due]) -> list[CalendarDate]:
    """Return the calendar's entries, in the order of their days; what has several reasons stands once."""
    found: dict[str, CalendarDate] = {}
    for item in items:
        if item.by is None or item.kind not in _TOPICS:
            continue
        topic, begins = _TOPICS[item.kind]
        name = f"{topic}-{item.code}"
        if name in found:
            one = found[name]
            found[name] = replace(one, by=min(one.by, item.by), words=f"{one.words}\n{item.why}")
        else:
            title = f"{begins[0].upper()}{begins[1:]}: {item.name} ({item.code})"
            found[name] = CalendarDate(name=name, by=item.by, title=title, words=item.why)
    return sorted(found.values(), key=lambda one: (one.by, one.name))
