"""All about one lot, as the command line and the screens show it."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from stockroom.actions.studio_choices import StudioChoices, residue_of, studio_choices
from stockroom.domain.ledger import Entry
from stockroom.domain.lots import Lot
from stockroom.domain.studio import Tare
from stockroom.errors import BadInput, Refused
from stockroom.planning.fitness import Fitness, fitness
from stockroom.science.quantities import Quantity
from stockroom.store import ledger
from stockroom.store.checks import CheckDone, checks_of
from stockroom.store.history import NO_RECIPE, RecipeOfLot, WorkDone, actions_of_lot, recipe_of_lot
from stockroom.store.jobs import job_by_id
from stockroom.store.lots import find_lot, lot_by_id
from stockroom.store.open import Store
from stockroom.store.suppliers import NOT_BOUGHT, BoughtFrom, bought_from
from stockroom.store.weighings import tare_of

if TYPE_CHECKING:
    from stockroom.actions.filling import Enough
    from stockroom.actions.jar_balance import JarBalance
    from stockroom.planning.remake import Remake
    from stockroom.science.residue import Residue, Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class HistoryLine:
    """One action as it touched a lot."""

    day: str
    what: str
    """What was done: receive, make, take …"""
    amount: Quantity
    """In (positive) or out, all its entries on this lot together."""
    value: int
    by: str
    action: str
    reason: str | None
    in_effect: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LotLink:
    """Another lot that this one was made from or went into."""

    code: str
    name: str
    amount: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class LotPage:
    """All about one lot."""

    lot: Lot
    fit: Fitness
    history: tuple[HistoryLine, ...]
    made_from: tuple[LotLink, ...]
    went_into: tuple[LotLink, ...]
    jobs: tuple[str, ...]
    checks: tuple[CheckDone, ...] = ()
    tare: Tare | None = None
    """What its empty container weighs."""
    balance: JarBalance | None = None
    """What lies undissolved in a jar kept over solid, where the ledger tells it."""
    remake: Remake | None = None
    """When a jar must be made afresh, where anything ends it."""
    enough: tuple[Enough, ...] = ()
    """How often it still does for what is booked or was used last."""
    residue: Residue | None = None
    """Whether the solid in the jar was watered again too often for this studio."""
    standing: Standing | None = None
    """How strong it is at a temperature that was asked for."""
    recipe: RecipeOfLot = NO_RECIPE
    """What the version it was made by says: how often it is checked, how long it settles."""
    choices: StudioChoices | None = None
    """The studio's limit and rule, for a jar kept over solid."""
    origin: BoughtFrom = NOT_BOUGHT
    """From whom it came, and by which order."""


def lot_page(store: Store, code: str, local: datetime, *, temperature: str | None = None) -> LotPage:
    """Return all about one lot; of a jar over solid also how it stands at a temperature.

    Raises Unreadable for a mistyped code, NotFound for one never given out, BadInput for a temperature off the table.
    """
    lot = find_lot(store, code)
    balance = _balance(store, lot)
    entries = ledger.entries_of_lot(store, lot.id)
    done = {one.number: one for one in actions_of_lot(store, lot.id)}
    job_ids = sorted({entry.job_id for entry in entries if entry.job_id is not None})
    return LotPage(
        lot=lot,
        fit=fitness(lot, local),
        history=tuple(_line(lot, one, entries) for one in done.values()),
        made_from=_links(store, ledger.entries_into_lot(store, lot.id), inward=True),
        went_into=_links(store, [entry for entry in entries if entry.quantity < 0 and entry.other_lot], inward=False),
        jobs=tuple(job_by_id(store, job_id).code for job_id in job_ids),
        checks=tuple(checks_of(store, lot.id)),
        tare=tare_of(store, lot.id),
        balance=balance,
        remake=_remake(store, lot, local),
        enough=_enough(store, lot, local),
        residue=residue_of(store, balance.balance.rewettings) if balance else None,
        standing=_standing(lot, balance, temperature) if temperature else None,
        recipe=recipe_of_lot(store, lot.id),
        choices=studio_choices(store) if balance else None,
        origin=bought_from(store, lot),
    )


def _enough(store: Store, lot: Lot, local: datetime) -> tuple[Enough, ...]:
    from stockroom.actions.filling import enough_for

    return enough_for(store, lot, local)


def _remake(store: Store, lot: Lot, local: datetime) -> Remake | None:
    if lot.kind != "jar":
        return None
    from stockroom.actions.forecast import remake_of

    return remake_of(store, lot, local)


def _balance(store: Store, lot: Lot) -> JarBalance | None:
    if not lot.over_solid:
        return None
    from stockroom.actions.jar_balance import jar_balance

    try:
        return jar_balance(store, lot)
    except (Refused, BadInput):
        return None  # the ledger does not tell enough of this jar


def _standing(lot: Lot, balance: JarBalance | None, temperature: str) -> Standing:
    from stockroom.science.residue import stand_at
    from stockroom.science.temperature import read_celsius

    celsius = read_celsius(temperature)
    if balance is None:
        raise BadInput(f"{lot.code} ({lot.material.name}) is no jar whose strength follows its temperature here.")
    return stand_at(balance.balance, celsius)


def _line(lot: Lot, done: WorkDone, entries: list[Entry]) -> HistoryLine:
    own = [entry for entry in entries if entry.place[0] == done.number]
    return HistoryLine(
        day=done.day,
        what=done.kind,
        amount=lot.material.quantity(sum(entry.quantity for entry in own)),
        value=sum(entry.value for entry in own),
        by=done.initials,
        action=done.code,
        reason=done.reason,
        in_effect=done.in_effect,
    )


def _links(store: Store, entries: list[Entry], *, inward: bool) -> tuple[LotLink, ...]:
    amounts: dict[int, int] = defaultdict(int)
    for entry in entries:
        other = entry.lot if inward else entry.other_lot
        if other is not None:
            amounts[other] -= entry.quantity
    links: list[LotLink] = []
    for lot_id, amount in amounts.items():
        if amount:
            other_lot = lot_by_id(store, lot_id)
            measured_by = other_lot.material if inward else lot_by_id(store, entries[0].lot).material
            links.append(
                LotLink(code=other_lot.code, name=other_lot.material.name, amount=measured_by.quantity(amount))
            )
    return tuple(links)
