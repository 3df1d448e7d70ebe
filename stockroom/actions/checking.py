"""Check a jar: a titration, a pH, a conductivity, a reading or looks; its verdict moves its dates or marks it unfit."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from datetime import datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.forecast import next_refills, trend_of
from stockroom.actions.judging import Known, Readings, judge
from stockroom.actions.knowing import made_of, powders, what_is_known
from stockroom.actions.lots_here import lot_here, refuse_waste_can
from stockroom.actions.posting import post
from stockroom.actions.studio_choices import limit_percent
from stockroom.actions.taking import read_amount_of
from stockroom.domain.ledger import Draft, Fact, JarCheck, Movement
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipe_checks import range_words
from stockroom.errors import BadInput
from stockroom.planning.due import FAILED_CHECK
from stockroom.science.lives import life_end, read_life
from stockroom.science.ranges import Range, show_best
from stockroom.science.titration import read_drops
from stockroom.science.titration_reading import drops_ul
from stockroom.science.verdicts import Verdict
from stockroom.store import ledger
from stockroom.store.checks import checks_of
from stockroom.store.history import RecipeOfLot, recipe_of_lot
from stockroom.store.open import Store

PASSES = ("saturated", "fit")
FAILS = ("weak", "carbonated", "unfit")
LATER_STANDS = "A check of a later day stands: this one is kept with its figures, and moves no date and no mark."
EXTENDS_NOTHING = "This check moves no date: what was made by its recipe keeps only to its use-by."


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked(ActionOutcome):
    """A check booked, and what it says."""

    code: str
    name: str
    method: str
    verdict: Verdict
    check_by: str | None
    strength_words: str | None
    unfit: str | None


def check(
    store: Store,
    occasion: Occasion,
    code: str,
    readings: Readings,
    *,
    dry_run: bool = False,
    confirmed: Checked | None = None,
) -> Checked:
    """Book a check of a jar. The sample is drawn from it in the same action.

    A check that passes moves the check-by day and takes away a mark that an earlier check set; one that fails marks
    the jar unfit; one that cannot tell changes neither. Raises Unreadable and BadInput for readings that cannot be.
    """

    def build(booked_at: datetime) -> Checked:
        lot = lot_here(store, occasion, code)
        refuse_waste_can(lot)
        known = what_is_known(store, lot, readings, occasion)
        verdict = judge(lot, readings, known)
        recipe = recipe_of_lot(store, lot.id)
        if readings.method == "reading":
            _refuse_without_reason(readings, recipe, occasion)
        if verdict.word in PASSES and readings.method != "looks" and recipe.check and not recipe.check.extends:
            verdict = replace(verdict, cautions=(*verdict.cautions, EXTENDS_NOTHING))
        movements = _sample(store, occasion, lot, readings)
        facts: list[Fact] = []
        check_by, unfit, words = lot.check_by, lot.unfit, None
        if readings.method != "looks" and _superseded(store, occasion, lot):
            verdict = replace(verdict, cautions=(*verdict.cautions, LATER_STANDS))
        else:
            facts, check_by, unfit = _consequences(occasion, lot, readings, verdict, recipe)
            words = _strength_words(verdict, occasion)
        if words:
            facts.append((lot.id, "strength", words))
        kept = JarCheck(
            lot=lot.id,
            method=readings.method,
            readings=json.dumps(readings.values, ensure_ascii=False, sort_keys=True),
            verdict=verdict.word,
            why=verdict.why,
        )
        draft = Draft(
            kind="check",
            occasion=occasion,
            movements=movements,
            facts=tuple(facts),
            checks=(kept,),
            details={
                "next": verdict.next_step,
                "percent": _document(verdict.percent),
                "strength": _document(verdict.strength),
                "sources": list(verdict.sources),
                **({"celsius": known.celsius} if lot.over_solid or "temperature" in readings.values else {}),
                **({"shaken": True} if readings.shaken_and_settled else {}),
                **_reference(store, lot, known, verdict),
                **_outlook(store, occasion, lot, readings, verdict),
            },
        )
        posted = post(store, draft, booked_at)
        return Checked(
            code=lot.code,
            name=lot.material.name,
            method=readings.method,
            verdict=verdict,
            check_by=check_by,
            strength_words=words,
            unfit=unfit,
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _refuse_without_reason(readings: Readings, recipe: RecipeOfLot, occasion: Occasion) -> None:
    """A range given in place of the recipe's own needs a reason."""
    replaced = recipe.check and recipe.check.method and {"low", "high"} & readings.values.keys()
    if replaced and recipe.check and not occasion.reason:
        raise BadInput(
            f"The recipe has a range of its own, {range_words(recipe.check)} ({recipe.check.method}): to hold it "
            "against another, say why with --why."
        )


def _reference(store: Store, lot: Lot, known: Known, verdict: Verdict) -> dict[str, object]:
    """Return what is kept as the studio's own reference for later checks."""
    if verdict.reference is None:
        return {}
    figure = {**(_document(verdict.reference.figure) or {}), "celsius": known.celsius}
    return {"reference": {**figure, "powders": powders(made_of(store, lot)), "why": verdict.reference.own}}


def _superseded(store: Store, occasion: Occasion, lot: Lot) -> bool:
    """Say whether a check of a later moment has passed or failed the lot already."""
    return any(
        one.at > occasion.at_text and one.check.method != "looks" and one.check.verdict in PASSES + FAILS
        for one in checks_of(store, lot.id)
    )


def _outlook(store: Store, occasion: Occasion, lot: Lot, readings: Readings, verdict: Verdict) -> dict[str, object]:
    """Return what is kept of when a jar over solid ends: what is due is told without the tables."""
    if not lot.over_solid:
        return {}
    refills = next_refills(store, lot)
    kept: dict[str, object] = {} if refills is None else {"refills_low": refills.low}
    if readings.method == "titration" and verdict.percent is not None and verdict.word != "not ready":
        trend = trend_of(store, lot, (occasion.day, verdict.percent))
        kept["remake_on"] = trend.likeliest.isoformat() if trend and trend.likeliest else None
        kept["limit"] = limit_percent(store)
    return kept


def _document(figure: Range | None) -> dict[str, object] | None:
    if figure is None:
        return None
    return {"low": figure.low, "best": figure.best, "high": figure.high, "unit": figure.unit}


def _sample(store: Store, occasion: Occasion, lot: Lot, readings: Readings) -> tuple[Movement, ...]:
    """Return the draw of the sample, as studio use. Raises BadInput for more than the jar holds."""
    if readings.sample is None:
        return ()
    drops = read_drops(readings.sample)
    quantity = lot.material.quantity(drops_ul(drops)) if drops else read_amount_of(lot, readings.sample).quantity
    held = ledger.available(store, lot.id, occasion)
    if quantity.quanta > held:
        raise BadInput(f"A sample of {readings.sample} is more than {lot.code} holds. Look at the number, or count it.")
    return (Movement(lot=lot.id, quantity=-quantity.quanta, other_end="studio", reason="test"),)


def _consequences(
    occasion: Occasion, lot: Lot, readings: Readings, verdict: Verdict, recipe: RecipeOfLot
) -> tuple[list[Fact], str | None, str | None]:
    facts: list[Fact] = []
    check_by, unfit = lot.check_by, lot.unfit
    set_by_check = unfit is None or unfit.startswith(FAILED_CHECK)
    if readings.method == "looks" and verdict.word == "not ready" and recipe.ready_after:
        ready = life_end(occasion.local, read_life(recipe.ready_after)).text()
        if ready > (lot.ready_on or ""):
            facts.append((lot.id, "ready_on", ready))
    if verdict.word in PASSES:
        # looks alone are evidence, not proof: they never move a day
        extends = recipe.check is None or recipe.check.extends
        if recipe.check_every and extends and readings.method != "looks":
            check_by = life_end(occasion.local, read_life(recipe.check_every)).text()
            facts.append((lot.id, "check_by", check_by))
        if unfit and set_by_check and readings.method != "looks":
            unfit = None
            facts.append((lot.id, "unfit", None))
    elif verdict.word in FAILS and set_by_check:
        unfit = f"{FAILED_CHECK}{verdict.word} by {readings.method} on {occasion.day}"
        facts.append((lot.id, "unfit", unfit))
    return facts, check_by, unfit


def _strength_words(verdict: Verdict, occasion: Occasion) -> str | None:
    """Return what the label says of a strength that was measured: never a digit more than it is good for."""
    if verdict.strength is None or verdict.word in ("reads too high", "not ready"):
        return None
    how = verdict.word if verdict.word in PASSES + FAILS else "measured"
    return f"{show_best(verdict.strength)} ({how}, {occasion.day})"
