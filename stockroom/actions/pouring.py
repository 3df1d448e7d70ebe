"""Pour one lot into another: its value goes with it, the more cautious dates rule, and what does not belong taints."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.contents import thing_of
from stockroom.actions.lots_here import lot_here
from stockroom.actions.opening import opened_by_drawing
from stockroom.actions.posting import post
from stockroom.actions.precautions import against_cautions
from stockroom.actions.restating import not_known_since
from stockroom.actions.taking import beyond_the_books, read_amount_of
from stockroom.domain.ledger import Draft, Fact, Movement, Reworked
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, Refused, StockroomError
from stockroom.planning.fitness import fitness
from stockroom.science.cautions import Caution, cautions_for_waste
from stockroom.science.conversions import mix
from stockroom.science.lives import life_end, read_life
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.strengths import read_strength
from stockroom.store import ledger
from stockroom.store.history import recipe_of_lot
from stockroom.store.lots import find_lot
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Poured(ActionOutcome):
    """What was poured where, and what it made of the jar it went into."""

    code: str
    name: str
    into: str
    into_name: str
    quantity: Quantity
    value: int
    """What went with it, in minor units."""
    left: Quantity
    holds: Quantity
    strength: str | None
    use_by: str | None
    use_by_rule: str | None
    ready_on: str | None
    unfit: str | None
    solid_stays: bool
    """Whether solid lies in the jar that was poured from; it stays there."""
    ended: bool
    cautions: tuple[Caution, ...]
    reworked: tuple[Reworked, ...] = ()


def pour(
    store: Store,
    occasion: Occasion,
    code: str,
    into: str,
    typed: str | None = None,
    *,
    dry_run: bool = False,
    confirmed: Poured | None = None,
) -> Poured:
    """Pour so much of one lot into another, or all that the books hold.

    Only clear liquid goes: solid stays where it lies. What is another material, a used bath or not fit makes the jar
    it goes into unfit, and needs a reason. Raises Refused for that, for what is no liquid, has ended or was not here
    yet, and for things not to be brought together; Short where the lot does not hold it.
    """

    def build(booked_at: datetime) -> Poured:
        source, target = lot_here(store, occasion, code), lot_here(store, occasion, into)
        for lot in (source, target):
            _refuse_what_is_not_poured(lot)
        if source.id == target.id:
            raise BadInput(f"{source.code} cannot be poured into itself.")
        held = ledger.available(store, source.id, occasion)
        quantity = read_amount_of(source, typed).quantity.quanta if typed else held
        if not quantity:
            raise Refused(f"{source.code} ({source.material.name}) holds nothing that could be poured.")
        beyond_the_books(store, occasion, source, quantity)
        taint = _taint(source, target, occasion)
        cautions = cautions_for_waste(
            [thing_of(store, source)], [thing_of(store, target)], can_is_vented=target.material.vented
        )
        against = against_cautions([one for one in cautions if taint], occasion)
        facts = _facts(store, source, target, quantity, occasion, taint)
        draft = Draft(
            kind="pour",
            occasion=occasion,
            movements=(
                Movement(lot=target.id, quantity=quantity, other_end="lot", other_lot=source.id, effect="base"),
                Movement(lot=source.id, quantity=-quantity, other_end="lot", other_lot=target.id),
            ),
            facts=(*facts, *opened_by_drawing([source], occasion)),
            details={"typed": typed or "", "alike": "alike" if _alike(source, target) else "other", **against},
        )
        posted = post(store, draft, booked_at)
        after, left = find_lot(store, target.code), find_lot(store, source.code)
        return Poured(
            code=source.code,
            name=source.material.name,
            into=target.code,
            into_name=target.material.name,
            quantity=source.material.quantity(quantity),
            value=-sum(entry.value for entry in posted.entries if entry.lot == source.id and entry.effect == "draw"),
            left=left.amount,
            holds=after.amount,
            strength=after.strength,
            use_by=after.use_by,
            use_by_rule=after.use_by_rule,
            ready_on=after.ready_on,
            unfit=after.unfit,
            solid_stays=source.over_solid,
            ended=left.ended,
            cautions=cautions if taint else (),
            reworked=posted.reworked,
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _refuse_what_is_not_poured(lot: Lot) -> None:
    if lot.kind == "waste can":
        raise Refused(f"{lot.code} ({lot.material.name}) is a waste can: 'stockroom discard CODE --to {lot.code}'.")
    if lot.material.dimension is not Dimension.VOLUME:
        raise Refused(f"{lot.code} ({lot.material.name}) is measured by {lot.material.dimension}: only liquids pour.")


def _alike(source: Lot, target: Lot) -> bool:
    return source.material.id == target.material.id and source.strength == target.strength


def _taint(source: Lot, target: Lot, occasion: Occasion) -> str | None:
    """Return why the target is not fit once this is in it, where a reason was given; raise Refused where none was."""
    verdict = fitness(source, occasion.local)
    if source.material.id != target.material.id or source.kind == "used bath":
        what = "used bath" if source.kind == "used bath" else source.material.name
        why = f"{what} ({source.code}) was poured into it on {occasion.day}"
    elif verdict.fit or verdict.kind in ("not-ready", "past-use-by"):
        return None  # its dates go with it
    else:
        why = f"{source.code}, poured into it on {occasion.day}: {verdict.why}"
    if not occasion.reason:
        raise Refused(
            f"That would make {target.code} ({target.material.name}) unfit: {why}. Discard it instead; or say why it "
            "is poured in all the same with --why.",
            lot=target.code,
        )
    return why


def _facts(store: Store, source: Lot, target: Lot, quantity: int, occasion: Occasion, taint: str | None) -> list[Fact]:
    """Return what is true of the target from now on: the more cautious dates, what is known of its strength."""
    day = occasion.day.isoformat()
    found: dict[str, str | None] = {"unfit": taint} if taint else {}
    if source.use_by and (not target.use_by or _end(source.use_by) < _end(target.use_by)):
        found |= {"use_by": source.use_by, "use_by_rule": f"as {source.code}, poured into it"}
    if source.check_by and (not target.check_by or _end(source.check_by) < _end(target.check_by)):
        found["check_by"] = source.check_by
    ready = max((one for one in (source.ready_on, target.ready_on) if one), key=_end, default=None)
    if target.over_solid and not _alike(source, target):
        wait = recipe_of_lot(store, target.id).ready_after
        ready = life_end(occasion.local, read_life(wait)).text() if wait else ready
    if ready != target.ready_on:
        found["ready_on"] = ready
    if not _alike(source, target) and not (target.over_solid and not taint):
        found["strength"] = _strength(source, target, quantity, day)
    return [(target.id, name, value) for name, value in found.items()]


def _end(stored: str) -> str:
    """Write a stored day or minute so that it sorts: a day alone lasts to its end."""
    return stored if "T" in stored else f"{stored}T24:00"


def _strength(source: Lot, target: Lot, quantity: int, day: str) -> str | None:
    """Return the strength of both together, where both are figures of one material; else it is not known any more."""
    try:
        if source.material.id == target.material.id:
            was, came = (read_strength((lot.strength or "").removeprefix("about ")) for lot in (target, source))
            return mix(was, target.balance.quantity, came, quantity).show_about(3)
    except StockroomError:
        pass  # one of them is no figure, or none that adds by volume
    return not_known_since(target.strength, day) if target.strength else None
