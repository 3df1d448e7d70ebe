"""What is held, as a report to hang at the door."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from stockroom.domain.held import Container, HazardTotal, Held, SafetySheet
from stockroom.domain.papers import Block, Column, Heading, Paper, Pictograms, Points, Rows, Words
from stockroom.science.hazards import DEFERENCE
from stockroom.science.money import show_money
from stockroom.science.quantities import show

NO_PLACE = "no place said"


def held_paper(held: Held, currency: str) -> Paper:
    """Lay out what is held; `currency` is the stockroom's."""
    where = f" at {held.place}" if held.place else ""
    what = f", {held.hazard}" if held.hazard else ""
    return Paper(title=f"Held{where} on {held.on}{what}", blocks=tuple(_blocks(held, currency)))


def _blocks(held: Held, currency: str) -> Iterator[Block]:
    if not held.containers:
        yield Words(text="Nothing is held here that was asked for.")
        return
    if held.pictograms:
        yield Pictograms(codes=held.pictograms)
    if held.signal_word:
        yield Words(text=held.signal_word, strong=True)
    yield Words(text=DEFERENCE)
    hazardous = [one for one in held.containers if one.codes]
    if held.totals:
        yield Heading(text="Totals by hazard and place")
        yield _totals(held.totals)
    for place, those in groupby(hazardous, key=lambda one: one.place):
        found = list(those)
        pictograms = {code for one in found for code in one.lot.material.pictograms}
        yield Heading(text=f"{_capital(place or NO_PLACE)}: what carries a warning")
        if held.place is None and pictograms:
            yield Pictograms(codes=tuple(sorted(pictograms)))
        yield _containers(found, hazards=True)
    others = [one for one in held.containers if not one.codes]
    for place, those in groupby(others, key=lambda one: one.place):
        yield Heading(text=f"{_capital(place or NO_PLACE)}: the rest")
        yield _containers(list(those), hazards=False)
    if held.sheets:
        yield Heading(text="Safety sheets")
        yield _sheets(held.sheets)
    yield Heading(text="What it is worth")
    yield Points(items=tuple(_worth(held, currency)))


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _totals(totals: Sequence[HazardTotal]) -> Rows:
    return Rows(
        columns=(
            Column(title="Statement", share=4),
            Column(title="Place", share=1.6),
            Column(title="Containers", share=1, right=True),
            Column(title="Amount", share=1.6, right=True),
        ),
        rows=tuple(
            (
                f"{one.code} {one.statement}",
                one.place or NO_PLACE,
                str(one.containers),
                ", ".join(show(amount) for amount in one.amounts) or "solid only",
            )
            for one in totals
        ),
    )


def _containers(those: Sequence[Container], *, hazards: bool) -> Rows:
    last = (Column(title="Warning", share=2.6),) if hazards else ()
    return Rows(
        columns=(
            Column(title="Code", share=0.8),
            Column(title="What it is", share=3),
            Column(title="Amount", share=1.2, right=True),
            *last,
        ),
        rows=tuple(_row(one, hazards=hazards) for one in those),
    )


def _row(one: Container, *, hazards: bool) -> tuple[str, ...]:
    material = one.lot.material
    kind = "" if one.lot.kind in ("bought", "found", "jar") else f", {one.lot.kind}"
    name = f"{material.name}{kind}{f'; {one.strength}' if one.strength else ''}"
    amount = "solid only" if one.solid_only else show(one.amount)
    warned = " ".join(filter(None, (f"{material.signal_word}:" if material.signal_word else "", ", ".join(one.codes))))
    return (one.lot.code, name, amount, *((warned,) if hazards else ()))


def _sheets(sheets: Sequence[SafetySheet]) -> Rows:
    return Rows(
        columns=(
            Column(title="Material", share=2),
            Column(title="Where it is kept", share=2.6),
            Column(title="Date", share=1),
            Column(title="", share=1.6),
        ),
        rows=tuple(
            (one.name, one.file or "", one.dated or "", f"! {one.trouble}" if one.trouble else "") for one in sheets
        ),
    )


def _worth(held: Held, currency: str) -> Iterator[str]:
    least = "" if held.cost_known else "at least "
    yield f"By the books: {least}{show_money(held.value, currency)}"
    again = f"To have it again, at the lowest of today's offers: {least}{show_money(held.replacement, currency)}"
    if held.without_offer:
        again += f", of which {show_money(held.without_offer, currency)} by the books, where nobody offers it"
    yield again
