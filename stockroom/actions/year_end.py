"""The sheet of a year: what lies where, what was used, wasted and spent on the studio, to be counted and signed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from stockroom.actions.valuing import StockValue, stock_value
from stockroom.domain.ledger import NO_REASON
from stockroom.domain.papers import Block, Column, Heading, Lines, Paper, Rows, Words
from stockroom.errors import BadInput
from stockroom.science.money import money_text, show_money
from stockroom.science.quantities import amount_text, show
from stockroom.store import valuing
from stockroom.store.jobs import all_jobs
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import closed_until, setting
from stockroom.store.valuing import AsOf, EndSum
from stockroom.store.verification import Sums

LINE = "_" * 14
RECORD = ("sheet", "part", "place", "code", "material", "name", "amount", "unit", "value", "currency")


@dataclass(frozen=True, slots=True, kw_only=True)
class Year:
    """A year, or the part of it that is over."""

    first: date
    last: date
    before: Sums
    """Where the value of everything was on the evening before."""
    end: StockValue
    during: tuple[EndSum, ...]

    def spent(self, what: str) -> int:
        """Return what one of the sums grew by in the year."""
        return int(getattr(self.end.sums, what)) - int(getattr(self.before, what))


def load_year(store: Store, year: int, today: date, zone: ZoneInfo) -> Year:
    """Read a year; the present one to today. Raises BadInput for a year still to come."""
    first, last = date(year, 1, 1), min(date(year, 12, 31), today)
    if first > today:
        raise BadInput(f"{year} is still to come.")
    return Year(
        first=first,
        last=last,
        before=stock_value(store, first - timedelta(days=1), zone).sums,
        end=stock_value(store, last, zone, since=first),
        during=tuple(valuing.sums_as_of(store, AsOf(day=last.isoformat()), first.isoformat())),
    )


def year_paper(store: Store, year: Year) -> Paper:
    """Return a year as a sheet: the stock by place to be counted, the sums, and what was used, wasted and spent."""
    currency = setting(store, "currency")
    closed = closed_until(store)
    state = "not closed yet"
    if closed and closed >= year.first.isoformat():
        state = "closed" if closed >= year.last.isoformat() else f"closed up to {closed}, not whole"
    least = "" if year.end.complete else " Values are at least: the cost of some lots is not known."
    state_and_prices = f"The books are {state}. Prices are {setting(store, 'costs')}, each lot at its own cost.{least}"
    return Paper(
        title=f"Stock and use, {year.first} to {year.last}",
        blocks=(
            Words(text=state_and_prices),
            Heading(text="Sums"),
            _sums(year, currency),
            *_lists(_parts(store, year), currency),
            *_stock(year, currency),
            Lines(items=(f"Counted by: {LINE * 2}   Date: {LINE}", "", f"Signature: {LINE * 2}")),
        ),
        records=(RECORD, *(tuple(line.values()) for line in year_lines(store, year))),
    )


Part = tuple[str, str, dict[str, int]]
"""A title, what it is listed by, and the sums."""


def _parts(store: Store, year: Year) -> tuple[Part, ...]:
    """Return what was used, wasted, spent and booked late."""
    jobs = {job.id: f"{job.code} {job.title}" for job in all_jobs(store)}
    used = _added((jobs[one.job_id], -one.value) for one in year.during if one.job_id is not None)
    studio = _added((one.reason or NO_REASON, -one.value) for one in year.during if one.other_end == "studio")
    return (
        ("Used in jobs", "Job", used),
        ("Studio use", "For what", studio),
        ("Wasted", "Why", year.end.written_off),
        ("Booked late, for days that were closed", "What", _late(year)),
    )


def _late(year: Year) -> dict[str, int]:
    return {f"{one.kind} ({one.code}) on {one.day}, for {one.for_day}": one.value for one in year.end.late}


def _added(pairs: Iterable[tuple[str, int]]) -> dict[str, int]:
    sums: dict[str, int] = defaultdict(int)
    for name, value in pairs:
        sums[name] += value
    return {name: value for name, value in sorted(sums.items(), key=lambda one: (-one[1], one[0])) if value}


def _sums(year: Year, currency: str) -> Rows:
    moves = (
        ("On the shelves at the beginning", year.before.on_the_shelves),
        ("Bought", year.spent("bought")),
        ("Used in jobs", -year.spent("in_jobs")),
        ("Studio use: tests, cleaning, given, lent", -year.spent("studio_use")),
        ("Wasted", -year.spent("wasted")),
        ("Differences on closed jobs", -year.spent("differences")),
    )
    return Rows(
        columns=(Column(title="What", share=125), Column(title="Value", share=45, right=True)),
        rows=tuple((what, show_money(value, currency)) for what, value in moves),
        sums=(("On the shelves at the end", show_money(year.end.total, currency)),),
    )


def _lists(parts: Iterable[Part], currency: str) -> Iterator[Block]:
    for title, head, sums in parts:
        if sums:
            yield Heading(text=title)
            yield Rows(
                columns=(Column(title=head, share=125), Column(title="Value", share=45, right=True)),
                rows=tuple((name, show_money(value, currency)) for name, value in sums.items()),
                sums=(("In all", show_money(sum(sums.values()), currency)),),
            )


def _stock(year: Year, currency: str) -> Iterator[Block]:
    """Give a table for each place, with a blank to write in what was counted."""
    columns = (
        Column(title="Lot", share=20),
        Column(title="Material", share=60),
        Column(title="In the books", share=30, right=True),
        Column(title="Value", share=28, right=True),
        Column(title="Counted", share=32),
    )
    for place in dict.fromkeys(one.place for one in year.end.lots):
        lots = [one for one in year.end.lots if one.place == place]
        rows = tuple(
            (one.lot.code, one.lot.material.name, show(one.quantity), show_money(one.value, currency), LINE)
            for one in lots
        )
        whole = (("In all", show_money(sum(one.value for one in lots), currency)),)
        yield Heading(text=f"Stock: {place}")
        yield Rows(columns=columns, rows=rows, sums=whole)


def year_lines(store: Store, year: Year) -> list[dict[str, str]]:
    """Return every lot of the stock and every sum of what was used, wasted and spent, as rows of RECORD."""
    sheet, currency = f"{year.first} to {year.last}", setting(store, "currency")
    rows: list[tuple[str, ...]] = []
    for one in year.end.lots:
        named = (one.lot.code, one.lot.material.key, one.lot.material.name, *amount_text(one.quantity))
        rows.append((sheet, "stock", one.place, *named, money_text(one.value, currency), currency))
    for title, _, sums in _parts(store, year):
        for name, value in sums.items():
            rows.append((sheet, title.lower(), "", "", "", name, "", "", money_text(value, currency), currency))
    return [dict(zip(RECORD, row, strict=True)) for row in rows]
