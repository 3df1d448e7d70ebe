"""What the stock was worth on a day, as a paper."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from stockroom.actions.valuing import AverageLine, StockValue
from stockroom.domain.papers import Block, Column, Heading, Paper, Points, Rows, Words
from stockroom.planning.moving_average import Averages
from stockroom.science.money import show_money
from stockroom.science.quantities import show

HOW = {True: "as the books said on that day", False: "by when things happened, as the books say now"}
"""How a value was found, by whether it is as it was booked then."""
WENT = (
    ("On the shelves", "on_the_shelves"),
    ("In jobs", "in_jobs"),
    ("Studio use: tests, cleaning, given, lent", "studio_use"),
    ("Wasted", "wasted"),
    ("Differences on closed jobs", "differences"),
)


def value_paper(
    found: StockValue, currency: str, *, lots: bool = False, average: tuple[Averages, list[AverageLine]] | None = None
) -> Paper:
    """Lay the value of the stock out; with every lot and the moving averages where they are wanted."""
    blocks = [*_blocks(found, currency)]
    if lots:
        blocks += [Heading(text="Every lot"), _lots(found, currency)]
    if average is not None:
        blocks += [
            Heading(text="At the moving average of each material, beside the books"),
            _averages(*average, currency),
        ]
    return Paper(title=f"Value of the stock at the end of {found.day}", blocks=tuple(blocks))


def _blocks(found: StockValue, currency: str) -> Iterator[Block]:
    least = (
        "" if found.complete else " The cost of some lots is not known, so that the values are at least what is told."
    )
    how = HOW[found.as_booked]
    yield Words(text=f"{how[0].upper()}{how[1:]}; each lot at its own cost.{least}")
    yield _sums("Place", found.by_place, currency, "In all" if found.complete else "In all at least")
    went = {words: value for words, name in WENT if (value := int(getattr(found.sums, name)))}
    for title, head, sums, whole in (
        ("By kind", "Kind", found.by_kind, "In all"),
        ("Where all that was bought went", "Where", went, "Bought until then"),
    ):
        if sums:
            yield Heading(text=title)
            yield _sums(head, sums, currency, whole)
    if found.written_off:
        yield Heading(text=f"Wasted since {found.since}")
        yield _sums("Reason", found.written_off, currency)
    if found.late:
        yield Heading(text="Booked late, for days that were closed")
        yield Points(
            items=tuple(
                f"{one.kind} ({one.code}) on {one.day}, for {one.for_day}: {show_money(one.value, currency)}"
                for one in found.late
            )
        )


def _sums(title: str, sums: Mapping[str, int], currency: str, whole: str = "In all") -> Rows:
    return Rows(
        columns=(Column(title=title, share=3), Column(title="Value", right=True)),
        rows=tuple((name, show_money(value, currency)) for name, value in sums.items()),
        sums=((whole, show_money(sum(sums.values()), currency)),),
    )


def _lots(found: StockValue, currency: str) -> Rows:
    return Rows(
        columns=(
            Column(title="Lot"),
            Column(title="Material", share=3),
            Column(title="Place", share=1.5),
            Column(title="Amount", share=1.2, right=True),
            Column(title="Value", share=1.2, right=True),
        ),
        rows=tuple(
            (one.lot.code, one.lot.material.name, one.place, show(one.quantity), show_money(one.value, currency))
            for one in found.lots
        ),
        sums=(("In all", show_money(found.total, currency)),),
    )


def _averages(sums: Averages, lines: list[AverageLine], currency: str) -> Rows:
    return Rows(
        columns=(
            Column(title="Material", share=3),
            Column(title="Amount", share=1.2, right=True),
            Column(title="In the books", share=1.2, right=True),
            Column(title="At the average", share=1.2, right=True),
        ),
        rows=tuple(
            (
                one.material.name,
                show(one.quantity),
                show_money(one.value, currency),
                show_money(one.at_average, currency),
            )
            for one in lines
        ),
        sums=(("In all, at the average", show_money(sums.held, currency)),),
    )
