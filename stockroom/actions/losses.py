"""What was wasted and why, what is on loan, and what stands in waste cans."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from stockroom.actions.waste_cans import CanPage, waste_can_page
from stockroom.domain.edits import LeftOpen
from stockroom.domain.ledger import NO_REASON
from stockroom.domain.papers import Block, Column, Heading, Paper, Points, Rows, Words
from stockroom.science.days import refuse_reversed
from stockroom.science.money import show_money
from stockroom.science.quantities import show
from stockroom.store.left_open import loans_out
from stockroom.store.losses import Loss, losses
from stockroom.store.open import Store
from stockroom.store.waste_cans import waste_cans


@dataclass(frozen=True, slots=True, kw_only=True)
class ByReason:
    """What was wasted for one reason, dearest first."""

    reason: str | None
    lines: tuple[Loss, ...]

    @property
    def value(self) -> int:
        """In minor units."""
        return sum(one.value for one in self.lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class Losses:
    """What was wasted from one day through another; loans and cans as they are now."""

    since: str | None
    until: str
    reasons: tuple[ByReason, ...]
    """Dearest first."""
    loans: tuple[LeftOpen, ...]
    cans: tuple[CanPage, ...]

    @property
    def total(self) -> int:
        """In minor units."""
        return sum(one.value for one in self.reasons)

    @property
    def span(self) -> str:
        return f"{self.since or 'from the first day'} to {self.until}"


def find_losses(store: Store, until: date, since: date | None = None) -> Losses:
    """Return what was wasted. Raises BadInput where `since` comes after `until`."""
    refuse_reversed(since, until)
    found = losses(store, since.isoformat() if since else "", until.isoformat())
    by_reason = groupby(sorted(found, key=lambda one: one.reason or ""), key=lambda one: one.reason)
    reasons = [ByReason(reason=reason, lines=tuple(lines)) for reason, lines in by_reason]
    return Losses(
        since=since.isoformat() if since else None,
        until=until.isoformat(),
        reasons=tuple(sorted(reasons, key=lambda one: -one.value)),
        loans=tuple(loans_out(store)),
        cans=tuple(waste_can_page(store, can.lot.code) for can in waste_cans(store)),
    )


def losses_paper(found: Losses, currency: str) -> Paper:
    """Lay the report out."""
    return Paper(title=f"Losses, {found.span}", blocks=tuple(_blocks(found, currency)))


def _blocks(found: Losses, currency: str) -> Iterator[Block]:
    if found.reasons:
        yield Rows(
            columns=(
                Column(title="Reason", share=3),
                Column(title="Material", share=3),
                Column(title="Amount", share=1.5, right=True),
                Column(title="Value", share=1.5, right=True),
            ),
            rows=tuple(
                (reason.reason or NO_REASON, one.name, show(one.quantity), show_money(one.value, currency))
                for reason in found.reasons
                for one in reason.lines
            ),
        )
    yield Words(text=f"In all: {show_money(found.total, currency)}", strong=True)
    if found.loans:
        yield Heading(text="On loan now")
        yield Points(items=tuple(loan_words(one) for one in found.loans))
    if found.cans:
        yield Heading(text="In waste cans now")
        yield Points(items=tuple(can_words(one) for one in found.cans))


def loan_words(loan: LeftOpen) -> str:
    return f"{loan.words}; {f'back by {loan.by}' if loan.by else 'no day was said'} ({loan.code})"


def can_words(page: CanPage) -> str:
    """Say a can with what is in it: `L01T7 Alcohol waste, 325 mL of 5 L: 325 mL of Alcohol-water 50 % (2026-11-20)`."""
    poured = "; ".join(f"{show(one.quantity)} of {one.lot.material.name} ({one.day})" for one in page.poured)
    lot = page.can.lot
    return f"{lot.code} {lot.material.name}, {show(lot.amount)} of {show(page.can.capacity)}: {poured or 'nothing yet'}"
