"""Top a jar up with water: over solid it is saturated again after settling, without solid it grows weaker."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.forecast import next_refills
from stockroom.actions.jar_balance import ASSUMED_CELSIUS, jar_balance
from stockroom.actions.jar_history import balance_or_none
from stockroom.actions.jar_sizes import most_held
from stockroom.actions.lots_here import refuse_ended
from stockroom.actions.mixing import temperature_detail
from stockroom.actions.posting import post
from stockroom.actions.studio_choices import refills_allowed, residue_of
from stockroom.actions.taking import read_amount_of
from stockroom.domain.ledger import Draft, Fact, Movement
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput, Refused
from stockroom.planning.due import FAILED_CHECK
from stockroom.planning.fitness import is_withdrawn
from stockroom.science.lives import life_end, read_life
from stockroom.science.quantities import Quantity, show
from stockroom.science.ranges import Range, show_best, show_range
from stockroom.science.residue import judge_residue
from stockroom.science.saturation import Fill
from stockroom.store.history import NO_RECIPE, recipe_of_lot
from stockroom.store.lots import find_lot
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class ToppedUp(ActionOutcome):
    """A jar topped up, and what its solid can still do."""

    code: str
    name: str
    added: Quantity
    holds: Quantity
    strength: str | None
    ready_on: str | None
    solid_left: Range | None
    """Grams of pure substance undissolved."""
    refills: Range | None
    """Refills of what was just added that the solid can still saturate."""
    refills_left: int | None
    """Those that are sure: the lower end."""
    rewettings: int | None
    verdict: str
    cautions: tuple[str, ...]
    sources: tuple[str, ...] = ()
    """Where every figure that the balance and the verdict used comes from."""


def top_up(
    store: Store,
    occasion: Occasion,
    code: str,
    typed: str,
    *,
    temperature: str | None = None,
    hardness_mg_per_l: float = 0,
    dry_run: bool = False,
    confirmed: ToppedUp | None = None,
) -> ToppedUp:
    """Add water to a jar: quantity and no value; shaking and settling begin again over solid.

    `hardness_mg_per_l` is that of the water, as calcium carbonate. Raises Refused for what is not a jar.
    """
    if hardness_mg_per_l < 0:
        raise BadInput("The hardness of water cannot be less than nothing.")

    def build(booked_at: datetime) -> ToppedUp:
        lot = find_lot(store, code)
        refuse_ended(lot)
        if lot.kind != "jar":
            raise Refused(f"{lot.code} ({lot.material.name}) is not a jar of a stock: it cannot be topped up.")
        quantity = read_amount_of(lot, typed).quantity
        recipe = recipe_of_lot(store, lot.id) if lot.over_solid else NO_RECIPE
        ready = life_end(occasion.local, read_life(recipe.ready_after)).text() if recipe.ready_after else None
        strength = recipe.strength if lot.over_solid else _thinned(lot, quantity.quanta)
        water = Movement(
            lot=lot.id, quantity=quantity.quanta, value=0, other_end="found", effect="base", reason="topped up"
        )
        details: dict[str, object] = {"typed": typed, "hardness_mg_per_l": hardness_mg_per_l}
        details |= temperature_detail(temperature)
        if lot.over_solid:
            celsius = float(str(details.get("celsius", ASSUMED_CELSIUS)))
            fill = Fill(volume_ul=quantity.quanta, celsius=celsius, hardness_mg_per_l=hardness_mg_per_l)
            _refuse_residue(store, occasion, lot)
            refills = next_refills(store, lot, fill)
            details |= {"refills_low": refills.low} if refills else {}
            strength = _as_far_as_the_solid_goes(store, lot, fill) or strength
        facts: list[Fact] = []
        if ready:
            facts.append((lot.id, "ready_on", ready))
        if strength != lot.strength:
            facts.append((lot.id, "strength", strength))
        draft = Draft(
            kind="top-up",
            occasion=occasion,
            movements=(water,),
            facts=tuple(facts),
            details=details,
        )
        most = most_held(store, lot)
        posted = post(store, draft, booked_at)
        after = find_lot(store, lot.code)
        done = ToppedUp(
            code=lot.code,
            name=lot.material.name,
            added=quantity,
            holds=after.amount,
            strength=strength,
            ready_on=ready,
            solid_left=None,
            refills=None,
            refills_left=None,
            rewettings=None,
            verdict="weaker: no solid restores it",
            cautions=(*_withdrawn(after), *_too_much(after, most)),
            action=posted.code,
        )
        return _with_balance(store, after, quantity.quanta, done) if lot.over_solid else done

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _withdrawn(after: Lot) -> tuple[str, ...]:
    """Say that water makes nothing fit that was withdrawn."""
    return (f"Not to be used, settled or not: {after.unfit}.",) if is_withdrawn(after) else ()


def _too_much(after: Lot, most: Quantity | None) -> tuple[str, ...]:
    """Warn where a jar holds more than ever: water for another jar, or another unit, was typed."""
    if most is None or after.amount.quanta <= most.quanta:
        return ()
    return (f"It never held more than {show(most)}: is {show(after.amount)} right? 'stockroom undo' takes it back.",)


def _refuse_residue(store: Store, occasion: Occasion, lot: Lot) -> None:
    """Ask for a reason where the solid failed its check, or would be watered again more often than is allowed."""
    if occasion.reason:
        return
    if (lot.unfit or "").startswith(FAILED_CHECK):
        raise Refused(
            f"{lot.unfit}. Shake it, let it settle and titrate again; if it is still weak make it afresh, do not top "
            "up. To top it up all the same, say why with --why."
        )
    allowed = refills_allowed(store)
    jar = balance_or_none(store, lot)
    if allowed is None or jar is None:
        return
    residue = judge_residue(jar.balance.rewettings + 1, allowed)
    if residue.suspect:
        raise Refused(f"{residue.why} To water it again all the same, say why with --why; or make it afresh.")


def _as_far_as_the_solid_goes(store: Store, lot: Lot, fill: Fill) -> str | None:
    """Return the strength by the balance where the solid may be used up by a filling; None where it is not."""
    jar = balance_or_none(store, lot, fill)
    if jar is None or jar.balance.undissolved.low > 0 or jar.balance.strength is None:
        return None
    state = "not saturated" if jar.balance.undissolved.high <= 0 else "not known to be saturated"
    return f"{show_best(jar.balance.strength)} (by the balance, {state})"


def _thinned(lot: Lot, added: int) -> str:
    """Return the strength after water was added, by the mass balance, where the label's strength can be read."""
    from stockroom.actions.mixing import scaled_strength
    from stockroom.errors import StockroomError
    from stockroom.science.strengths import read_strength

    try:
        strength = read_strength(lot.strength or "")
    except StockroomError:
        return f"{lot.strength or 'strength not known'}, thinned since"
    return scaled_strength(strength, Fraction(lot.balance.quantity, lot.balance.quantity + added))


def _with_balance(store: Store, jar: Lot, added: int, done: ToppedUp) -> ToppedUp:
    """Say what the solid can still do; what no balance can be made of is shaken and settled all the same."""
    try:
        jar_now = jar_balance(store, jar)
    except Refused as why:
        return replace(done, verdict="not ready: settling", cautions=(*done.cautions, why.message))
    balance = jar_now.balance
    left = jar_now.refills(added)
    cautions = [*done.cautions]
    if jar_now.assumed:
        cautions.append(
            f"At some making or topping up no temperature was written down; {jar_now.celsius:g} °C was taken there."
        )
    residue = residue_of(store, balance.rewettings)
    if balance.rewettings:
        cautions.append(f"{'Suspect: ' if residue.suspect else ''}{residue.why}")
    if balance.undissolved.low <= 0:
        verdict = "cannot tell: the solid may be used up; titrate when it has settled"
        if balance.undissolved.high <= 0:
            verdict = "weak: no solid is left by the balance; make it afresh"
    else:
        verdict = f"not ready: shake it, and let it settle; then {show_range(balance.undissolved)} of solid are left"
    return replace(
        done,
        solid_left=balance.undissolved,
        refills=left.refills,
        refills_left=left.at_least,
        rewettings=balance.rewettings,
        verdict=verdict,
        cautions=tuple(cautions),
        sources=tuple(dict.fromkeys(row.cite() for one in (*left.used, *residue.used) for row in one.rows)),
    )
