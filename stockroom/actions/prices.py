"""Put the price of a received lot right later, and pass the difference on to whatever was drawn from it."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from datetime import datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.carrying_value import carry_value
from stockroom.actions.posting import post
from stockroom.domain.ledger import Draft, Entry, Movement
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion, utc_text
from stockroom.errors import BadInput, Refused
from stockroom.store import ledger
from stockroom.store.jobs import job_by_id
from stockroom.store.lots import find_lot, lot_by_id
from stockroom.store.open import Store

_ENDS = {"studio": "studio use", "waste": "wasted", "difference": "differences"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """Where part of a difference in value went: a lot, a job, studio use, waste or the differences."""

    what: str
    value: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Pricing(ActionOutcome):
    """A price put right, in minor units."""

    code: str
    name: str
    was: int
    cost: int
    shares: tuple[Share, ...]


def put_price_right(
    store: Store,
    occasion: Occasion,
    code: str,
    cost: int,
    *,
    dry_run: bool = False,
    confirmed: Pricing | None = None,
) -> Pricing:
    """Set what a received lot cost, in minor units; the difference follows its entries, jar by jar.

    Raises BadInput without a reason, Refused for a lot that was not bought or cost that already.
    """
    if not occasion.reason:
        raise BadInput("Why is the price put right? Say --why, for example --why 'invoice of March'.")
    if cost < 0:
        raise BadInput("A price cannot be less than nothing.")

    def build(booked_at: datetime) -> Pricing:
        lot = find_lot(store, code)
        receipt = _receipt(store, lot)
        was = receipt.value + sum(entry.value for entry in ledger.entries_referring(store, receipt.place))
        if cost == was:
            raise Refused(f"{lot.code} ({lot.material.name}) is booked at that price already. Nothing was changed.")
        first = Movement(
            lot=lot.id,
            quantity=0,
            value=cost - was,
            other_end="supplier",
            effect="base",
            day=occasion.today.isoformat(),
            at=utc_text(occasion.now),
            refers=receipt.place,
        )
        carried = carry_value(store, occasion, lot.id, cost - was, receipt.place[0])
        draft = Draft(
            kind="price",
            occasion=replace(occasion, at=occasion.now),
            movements=(first, *carried),
            details={"was": was, "cost": cost},
        )
        posted = post(store, draft, booked_at)
        return Pricing(
            code=lot.code,
            name=lot.material.name,
            was=was,
            cost=cost,
            shares=where_it_went(store, posted.entries),
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _receipt(store: Store, lot: Lot) -> Entry:
    for entry in ledger.entries_of_action(store, lot.begun_by):
        if entry.lot == lot.id and entry.other_end == "supplier" and lot.kind == "bought":
            if entry.place in ledger.reversed_places(store, lot.id):
                raise Refused(f"The receipt of {lot.code} was undone; it has no price.")
            return entry
    raise Refused(
        f"{lot.code} ({lot.material.name}) is {_begun_as(lot)}, so it has no price of its own. Put right the price of "
        "what was bought; it is carried on from there."
    )


def _begun_as(lot: Lot) -> str:
    return "found stock" if lot.kind == "found" else f"a {lot.kind}"


def where_it_went(store: Store, entries: tuple[Entry, ...]) -> tuple[Share, ...]:
    """Add up an action's entries that carry value alone by where it ends: lots by code, jobs by code, in words else."""
    totals: dict[str, int] = defaultdict(int)
    for entry in entries:
        if entry.quantity:
            continue
        totals[lot_by_id(store, entry.lot).code] += entry.value
        if entry.job_id is not None:
            totals[f"job {job_by_id(store, entry.job_id).code}"] -= entry.value
        elif entry.other_end in _ENDS:
            totals[_ENDS[entry.other_end]] -= entry.value
    return tuple(Share(what=what, value=value) for what, value in totals.items() if value)
