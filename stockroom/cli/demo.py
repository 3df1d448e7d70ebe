"""`stockroom demo`: build the demo stockroom and open it, or go through the main job where there is no terminal."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option, lot_names
from stockroom.cli.session import Session
from stockroom.errors import AlreadyExists, Short

if TYPE_CHECKING:
    from stockroom.planning.steps import StepToDo
    from stockroom.science.quantities import Quantity

FILE = "stockroom-demo.db"

JOB = "Harbour plan, hand-coloured"

BY_HAND = (
    "1 in 4 of 500 mL is 125 mL of solution, twice: 250 mL.",
    "1 in 10 of 500 mL is 50 mL of gel of 5 %, so 0.5 % in the bath, twice: 100 mL.",
    "the web is cut 3 cm larger on every side: 2 x 46 x 36 cm = 3312 cm².",
    "the plan is dried on 2 blotters.",
)
"""How the amounts follow from the two fills of 500 mL and the plan's 40 x 30 cm."""


@click.command()
@click.argument("folder", required=False, type=click.Path(path_type=Path), metavar="[DIR]")
@json_option
@click.pass_obj
def demo(session: Session, folder: Path | None) -> None:
    """Build the demo stockroom in DIR and open it; a demo that is there already is opened as it is.

    Without a terminal it goes through the main job instead: what is due, a jar made and labelled, a bath drawn for a
    job, and the job's cost, with the sums to check by hand. Where it was gone through before, it is told again.
    """
    session.db = str((folder or _usual_folder()) / FILE)
    known = _build(session, Path(session.db))
    if sys.stdout.isatty() and not session.json:
        from stockroom.cli.screens import open_screens

        session.say(("The demo stockroom as you left it: " if known else "A new demo stockroom: ") + str(session.path))
        open_screens(session)
        return
    session.say(f"{'The demo stockroom as it is' if known else 'A new demo stockroom'}: {session.path}")
    session.document({"path": str(session.path), **_go_through(session)})


def find_or_build(session: Session) -> Path:
    """Return the demo stockroom at its usual place, built where it is not there. Raises AlreadyExists."""
    path = _usual_folder() / FILE
    path.parent.mkdir(parents=True, exist_ok=True)
    if not path.exists():
        from datetime import UTC, datetime

        from demo_db.build import build_demo

        build_demo(path, datetime.now(UTC))
    session.by = session.by or "AM"
    return path


def _usual_folder() -> Path:
    from platformdirs import user_data_path

    return user_data_path("stockroom", appauthor=False)


def _build(session: Session, path: Path) -> bool:
    """Build the demo unless it is there; say whether it was. Raises AlreadyExists for another file of that name."""
    from datetime import UTC, datetime

    from demo_db.build import build_demo
    from stockroom.errors import DatabaseUnusable
    from stockroom.store.studio import all_people

    if not path.exists():
        build_demo(path, datetime.now(UTC))
        session.by = session.by or "AM"
        return False
    try:
        people = {person.initials for person in all_people(session.store)}
    except DatabaseUnusable as error:
        raise AlreadyExists(f"{path} is there and is never overwritten. {error.message}") from error
    if not {"AM", "TK"} <= people:
        raise AlreadyExists(f"{path} is there and is not the demo. Choose another folder: stockroom demo DIR.")
    session.by = session.by or "AM"
    return True


def _go_through(session: Session) -> dict[str, Any]:
    """Do the main job, where it is not done yet, and tell it from the books, with the sums to check by hand."""
    from stockroom.actions.costing import costing
    from stockroom.actions.whats_due import due_items
    from stockroom.cli.told_hazards import say_cautions_and_steps
    from stockroom.planning.due import WORDS
    from stockroom.science.money import money_text, show_money

    items = due_items(session.store, session.local)
    session.say(f"\n1. What is due: {len(items)} things, the first of them")
    for item in items[:4]:
        session.say(f"   {item.by or '':16}  {WORDS[item.kind]}: {item.name} ({item.code}): {item.why}")

    done = _main_job(session)
    jar = _tell_jar(session, done.making)

    session.say(f"\n4. A bath drawn for job {done.job}, {JOB}: 500 mL, changed once")
    say_cautions_and_steps(session, (), done.treating)
    for sum_by_hand in BY_HAND:
        session.say(f"   By hand: {sum_by_hand}")

    cost = costing(session.store, done.job, session.local)
    session.say("\n5. What the job's materials cost; on the right the lot's own cost, shared out by hand")
    drawn = [_tell_draw(session, one.lot.code, one.quantity, one.value) for one in cost.by_lot]
    session.say(f"   {show_money(cost.total, session.currency):>10}  in all")
    session.say(
        "   Each draw is rounded so that all of a lot's draws come to its cost: a cent more or less is no mistake."
    )
    session.say(f"\nGo on: stockroom --db '{session.path}' due")
    return {
        "items": [
            {"kind": item.kind, "code": item.code, "name": item.name, "by": item.by, "why": item.why} for item in items
        ],
        **jar,
        "job": done.job,
        "action": done.action,
        "drawn": drawn,
        "by_hand": list(BY_HAND),
        "total": money_text(cost.total, session.currency),
        "currency": session.currency,
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class _Done:
    """The job that was gone through; without steps and action where nothing was booked now."""

    job: str
    making: tuple[StepToDo, ...] = ()
    treating: tuple[StepToDo, ...] = ()
    action: str | None = None


def _main_job(session: Session) -> _Done:
    """Treat the plan and make a jar, unless that was done before. Raises Short where the demo has aged too far."""
    from stockroom.actions.jobs import new_job
    from stockroom.actions.making import make
    from stockroom.actions.using import use
    from stockroom.store.jobs import all_jobs, done_for

    store, occasion = session.store, session.occasion()
    job = next((job for job in all_jobs(store) if job.title == JOB), None)
    if job and done_for(store, job.id):
        session.say("\nThe main job was gone through before; it is told from the books, and nothing is booked now.")
        return _Done(job=job.code)
    if job is None:
        job = new_job(store, JOB, today=occasion.day, objects=["Plan, 40 x 30 cm"], client="Harbour museum")
    try:
        used = use(store, occasion, "deacidify-and-size", job.code, fill="500 mL", fills=2, tested=occasion.by)
    except Short:
        session.warn("This demo has aged since it was built. For a new one: stockroom demo ANOTHER-FOLDER")
        raise
    made = make(store, occasion, "calcium-hydroxide-saturated", "1 L", place="Shelf")
    return _Done(job=job.code, making=made.steps, treating=used.steps, action=used.action)


def _tell_jar(session: Session, steps: tuple[StepToDo, ...]) -> dict[str, Any]:
    """Tell the newest jar of solution and write its label; return both, or None for them where no jar is left."""
    from stockroom.actions.labelling import label_of
    from stockroom.actions.lot_page import lot_page
    from stockroom.cli.told_hazards import say_cautions_and_steps
    from stockroom.labels.write import write_label
    from stockroom.planning.fitness import spoken
    from stockroom.science.quantities import amount_and_unit, show
    from stockroom.store.lots import lots_of_materials
    from stockroom.store.materials import find_material

    material = find_material(session.store, "calcium-hydroxide-solution")
    jars = [lot for lot in lots_of_materials(session.store, [material.id]) if lot.kind == "jar"]
    if not jars:
        session.say(f"\n2. No jar of {material.name} is left.")
        return {"code": None, "label": None}
    page = lot_page(session.store, max(jars, key=lambda one: one.id).code, session.local)
    lot, made = page.lot, page.history[0]
    session.say(f"\n2. A jar made: {lot.code}, {material.name}, {show(made.amount)}, {lot.strength}")
    say_cautions_and_steps(session, (), steps)
    made_from = [_tell_draw(session, one.code, one.amount, made.value) for one in page.made_from]
    session.say("   By hand: 3 g of powder in a litre of it; the water is not metered.")
    session.say(f"   Ready {spoken(lot.ready_on or '')}; use by {spoken(lot.use_by or '')}")

    file = session.path.with_name(f"label-{lot.code}.pdf")
    write_label([label_of(session.store, lot.code)], file)
    session.say(f"\n3. Its label: {file}")
    return {
        "code": lot.code,
        **amount_and_unit(made.amount),
        "strength": lot.strength,
        "ready_on": lot.ready_on,
        "use_by": lot.use_by,
        "made_from": made_from,
        "label": str(file),
    }


def _tell_draw(session: Session, code: str, quantity: Quantity, value: int) -> dict[str, Any]:
    """Say what was drawn of a lot, and how its cost follows by hand from the lot's own; return it for programs."""
    from decimal import Decimal

    from stockroom.science.money import money_text, show_money
    from stockroom.science.quantities import amount_text, show
    from stockroom.store.lots import find_lot

    lot = find_lot(session.store, code)
    base = lot.balance
    (amount, unit), (whole, _) = amount_text(quantity), amount_text(lot.material.quantity(base.base_quantity))
    worth = money_text(base.base_value, session.currency)
    share = Decimal(worth) * Decimal(amount) / Decimal(whole)
    by_hand = f"{worth} x {amount} / {whole} {unit} = {share:.3f}"
    session.say(
        f"   {show_money(value, session.currency):>10}  {show(quantity)} of {lot.material.name} ({code}): {by_hand}"
    )
    return {
        **lot_names(lot),
        "amount": amount,
        "unit": unit,
        "cost": money_text(value, session.currency),
        "by_hand": by_hand,
    }
