"""What a job's materials were expected to cost beside what they cost, treatment by treatment."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from stockroom.actions.costing import Bar
from stockroom.science.money import show_money
from stockroom.tui.texts import one_line

_EXPECTED, _SO_FAR = "  expected  ", "  so far    "


def draw_bars(bars: Sequence[Bar], currency: str, width: int) -> Content:
    """Draw two bars for each treatment: expected (░ is still to come), and what it cost so far."""
    most = max([max(bar.expected, bar.actual) for bar in bars], default=0)
    if most <= 0:
        return Content("")
    told = [words for bar in bars for words in (_told(bar, currency), _so_far(bar, currency))]
    room = max(8, width - len(_EXPECTED) - 2 - max(map(len, told)))
    lines: list[Content] = []
    for bar in bars:
        lines.append(Content.styled(one_line(bar.name), "bold"))
        if bar.expected:
            done, to_come = _length(bar.expected - bar.to_come, most, room), _length(bar.to_come, most, room)
            drawn = Content.assemble(("█" * done, "$secondary"), ("░" * to_come, "$secondary"))
            lines.append(Content.assemble((_EXPECTED, "dim"), drawn, "  ", _told(bar, currency)))
        if bar.actual or not bar.to_come:
            drawn = Content.styled("█" * _length(bar.actual, most, room), "$primary")
            lines.append(Content.assemble((_SO_FAR, "dim"), drawn, "  ", _so_far(bar, currency)))
    return Content("\n").join(lines)


def _so_far(bar: Bar, currency: str) -> str:
    return show_money(bar.actual, currency) + ("" if bar.expected else ", not booked before")


def _told(bar: Bar, currency: str) -> str:
    if bar.to_come == bar.expected and bar.expected:
        return f"{show_money(bar.expected, currency)} still to come"
    still = f", {show_money(bar.to_come, currency)} of it still to come" if bar.to_come else ""
    return f"{show_money(bar.expected, currency)}{still}"


def _length(value: int, most: int, room: int) -> int:
    """Return how long a bar is: never nothing for what is something."""
    return max(1 if value > 0 else 0, value * room // most)
