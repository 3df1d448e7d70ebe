"""Use a treatment or a bath for a job: draw all it takes in one step, or say exactly what is short."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Self

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.contents import groups_by_material
from stockroom.actions.drawing import Choices, DrawPlan, plan_draws, waits_for_reading
from stockroom.actions.drawn import Drawn, drawn_lines
from stockroom.actions.filling import InTray
from stockroom.actions.jobs import refuse_closed
from stockroom.actions.measuring import LineMeasured, measured_with
from stockroom.actions.mixing import check_reading, measured_lines, stated_strength, waiting_words
from stockroom.actions.offcuts import KeptOffcut, Offcuts, kept_offcuts, offcuts_of_plan
from stockroom.actions.opening import opened_by_drawing
from stockroom.actions.posting import post
from stockroom.actions.precautions import against_cautions, cautions_for, met_earlier
from stockroom.actions.recipe_book import load_book
from stockroom.actions.taking import found_movement
from stockroom.domain.jobs import Booking, Job, JobObject
from stockroom.domain.ledger import Draft, Movement, Reworked
from stockroom.domain.lots import Lot
from stockroom.domain.media import MediaTest
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput, Refused
from stockroom.planning.media import media_question
from stockroom.planning.requirements import Book, Scale, needs_of, refuse_no_bath
from stockroom.planning.steps import StepToDo, written_out
from stockroom.science.cautions import Caution
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.reading import read_quantity
from stockroom.store.jobs import find_booking, find_job, find_object, set_booking
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.store.studio import find_person


@dataclass(frozen=True, slots=True, kw_only=True)
class Using(ActionOutcome):
    """A treatment done for a job, or the plan for it."""

    recipe: str
    recipe_name: str
    version: int
    job: str
    job_title: str
    objects: tuple[str, ...]
    fill: Quantity | None
    fills: int
    drawn: tuple[Drawn, ...]
    steps: tuple[StepToDo, ...]
    cautions: tuple[Caution, ...]
    measured: tuple[LineMeasured, ...]
    """With what each line is measured, and how closely."""
    media: MediaTest
    strength: str | None
    cost: int
    cost_complete: bool
    opened: tuple[str, ...]
    booking: str | None = None
    waits_for: str | None = None
    offcuts: tuple[KeptOffcut, ...] = ()
    reworked: tuple[Reworked, ...] = ()
    """Later counts that were kept as counted."""

    def as_plan(self) -> Self:
        return replace(self, action=None, offcuts=tuple(replace(one, code=None) for one in self.offcuts))


def use(
    store: Store,
    occasion: Occasion,
    recipe_words: str,
    job_words: str,
    *,
    fill: str | None = None,
    in_tray: InTray | None = None,
    fills: int | None = None,
    objects: tuple[str, ...] = (),
    choices: Choices | None = None,
    booking: str | None = None,
    tested: str | None = None,
    not_tested: str | None = None,
    keep_offcuts: tuple[str, ...] = (),
    notes: tuple[str, ...] = (),
    dry_run: bool = False,
    confirmed: Using | None = None,
) -> Using:
    """Draw what a bath or treatment takes for a job, over so many fills, each as typed or as it fills a tray.

    `tested` are the initials of who tested media, inks and colours, `not_tested` is why nobody did.
    `keep_offcuts` are the sizes of what goes back to the shelf of the sheets that are cut, `notes` what was seen on
    the way, each with its time, such as the colour of the water. Raises Short with
    everything that is missing, Refused for a closed job, and without a reason for an unfit lot, things not to be
    brought together or media that must be tested and were not, BadInput where a size or an amount that the recipe
    needs is not known.
    """
    choices = choices or Choices()
    recipe = find_recipe(store, recipe_words)
    if recipe.kind == "stock":
        raise BadInput(
            f"{recipe.name} is a stock, kept in jars: make it with 'stockroom make {recipe.key}', and take some "
            "for the job with 'stockroom take CODE QTY --job …'."
        )
    if fills is not None and fills < 1:
        raise BadInput("A bath is filled once at least: --fills 1 or more.")
    job = find_job(store, job_words)
    refuse_closed(job)
    booked = find_booking(store, booking) if booking else None
    if in_tray is not None and fill is not None:
        raise BadInput("Say how much one fill is by --qty or by --tray and --depth, not both.")
    fill = show(in_tray.volume) if in_tray else fill
    scale = _scale(recipe, job, booked, fill, fills, objects)
    book = load_book(store, recipe)
    needs = needs_of(recipe, scale, book)
    waits = waits_for_reading(store, needs, choices)
    tester = find_person(store, tested).initials if tested is not None else None
    if tester and not_tested is not None:
        raise BadInput("Were media, inks and colours tested or not? Say --tested or --not-tested, not both.")

    def build(booked_at: datetime) -> Using:
        plan = plan_draws(store, occasion, needs, book, choices, {"drawn": []})
        earlier = met_earlier(store, occasion, job, scale.objects)
        holds = groups_by_material(store, plan.lots.values())
        cautions = cautions_for(recipe, needs, plan, book, earlier=earlier, holds=holds)
        against = against_cautions(cautions, occasion)
        media = replace(media_question(recipe, book, frozenset[str]().union(*holds.values())), by=tester)
        media = _answered(media, not_tested, occasion, ask=not (dry_run or waits))
        reading = None if waits else check_reading(plan, choices, occasion)
        sheets, cut = offcuts_of_plan(store, occasion, plan, keep_offcuts)
        opening = opened_by_drawing(list(plan.lots.values()), occasion)
        strength = reading or stated_strength(recipe, plan)
        draft = Draft(
            kind="use",
            occasion=occasion,
            movements=_movements(plan, job, sheets, cut),
            new_lots=cut.lots,
            facts=tuple(opening),
            objects=tuple(thing.id for thing in scale.objects) if objects else (),
            job_id=job.id,
            version_id=recipe.version.id,
            booking_id=booked.id if booked else None,
            details=_details(recipe, plan, scale, fill, choices, strength)
            | against
            | media.details()
            | _baths(recipe, book)
            | ({"tray": in_tray.words} if in_tray else {})
            | ({"notes": list(notes)} if notes else {})
            | ({"trim": cut.trim} if cut.trim else {}),
        )
        posted = post(store, draft, booked_at)
        if booked:
            set_booking(store, booked.id, state="done", for_day=booked.for_day, done_by=posted.number)
        to_job = [entry for entry in posted.entries if entry.other_end != "lot"]
        drawn = drawn_lines(to_job, plan.lots, plan.overrides, plan.stand_ins)
        return Using(
            recipe=recipe.key,
            recipe_name=recipe.name,
            version=recipe.version.number,
            job=job.code,
            job_title=job.title,
            objects=tuple(thing.name for thing in scale.objects) if objects else (),
            fill=_fill(recipe, scale, book),
            fills=scale.fills,
            drawn=drawn,
            steps=written_out(_in_order(recipe, scale, book), measured_lines(plan)),
            cautions=cautions,
            measured=measured_with(store, plan),
            media=media,
            strength=strength,
            cost=sum(one.value for one in drawn),
            cost_complete=all(one.cost_known for one in drawn),
            opened=plan.opened(opening),
            booking=booked.code if booked else None,
            waits_for=waiting_words(plan),
            offcuts=kept_offcuts(store, cut, posted.lots),
            reworked=posted.reworked,
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run or waits, confirmed=confirmed)


def _movements(plan: DrawPlan, job: Job, sheets: Lot | None, cut: Offcuts) -> tuple[Movement, ...]:
    """Return what was found, every draw to the job, what was cut off sheets to be kept, and what was trimmed off."""
    found = [found_movement(lot, quantity) for lot, quantity in plan.found.items()]
    draws = [(draw.lot, draw.quantity) for line in plan.lines for draw in line.draws]
    trimmed = [(sheets, cut.trim)] if sheets and cut.trim else []
    to_job, trim = (
        [Movement(lot=lot.id, quantity=-quantity, other_end="job", job_id=job.id) for lot, quantity in those]
        for those in (draws, trimmed)
    )
    return (*found, *to_job, *cut.movements, *trim)


def _answered(media: MediaTest, not_tested: str | None, occasion: Occasion, *, ask: bool) -> MediaTest:
    """Return the question with its answer. Raises Refused where it must be answered and was not."""
    why = " ".join((not_tested or "").split()) or None
    if media.asked == "required" and not media.by and not why:
        why = occasion.reason
    media = replace(media, not_tested=why)
    if ask and media.asked == "required" and not media.answered:
        raise Refused(
            f"{media.question} Say --tested INITIALS; or --not-tested REASON, which stays in the job's record. "
            "Nothing was drawn."
        )
    return media


def _scale(
    recipe: Recipe, job: Job, booked: Booking | None, fill: str | None, fills: int | None, objects: tuple[str, ...]
) -> Scale:
    if booked and (booked.job_id != job.id or booked.recipe_key != recipe.key):
        raise BadInput(f"Booking {booked.code} is {booked.recipe_key} for job {booked.job_code}, not this.")
    if booked and booked.state != "booked":
        raise Refused(f"Booking {booked.code} is {booked.state} already.")
    total: Quantity | None = None
    if fill is not None:
        total = read_quantity(fill, expect=Dimension.VOLUME).quantity
    elif booked and booked.fill_quanta:
        total = Quantity(Dimension.VOLUME, booked.fill_quanta)
    if fill is not None or fills is not None:
        refuse_no_bath(recipe)
    number = fills or (booked.fills if booked else None) or recipe.version.fills
    things: tuple[JobObject, ...] = tuple(find_object(job, words) for words in objects) or job.objects
    return Scale(total=total, fills=number, objects=things)


def _fill(recipe: Recipe, scale: Scale, book: Book) -> Quantity | None:
    if scale.total or recipe.version.batch:
        return scale.total or recipe.version.batch
    inner = [book.recipes[line.recipe].version.batch for line in recipe.version.lines if line.recipe]
    return inner[0] if inner else None


def _in_order(recipe: Recipe, scale: Scale, book: Book) -> list[tuple[Recipe, str]]:
    """Return the recipes whose steps are done, baths before what they are for, each with its total in words."""
    fill = _fill(recipe, scale, book)
    inner = [
        pair
        for line in recipe.version.lines
        if line.recipe
        for pair in _in_order(book.recipes[line.recipe], scale, book)
    ]
    return [*inner, (recipe, show(fill) if fill else "what it takes")]


def _details(
    recipe: Recipe, plan: DrawPlan, scale: Scale, typed: str | None, choices: Choices, strength: str | None
) -> dict[str, object]:
    return {
        "recipe": recipe.key,
        "fills": scale.fills,
        "fill": scale.total.quanta if scale.total else None,
        "typed": typed or "",
        "strength": strength,
        "lines": {line.need.material.key: line.quantity.quanta for line in plan.lines},
        **plan.details(choices),
    }


def _baths(recipe: Recipe, book: Book) -> dict[str, object]:
    """Return what an action keeps of the baths that a treatment names: the version of each, to any depth."""
    found: dict[str, int] = {}
    waiting = [recipe]
    while waiting:
        for line in waiting.pop().version.lines:
            if line.recipe and line.recipe not in found:
                found[line.recipe] = book.recipes[line.recipe].version.number
                waiting.append(book.recipes[line.recipe])
    return {"baths": found} if found else {}
