"""`stockroom demo`: build the demo stockroom and open it, or go through the main job where there is no terminal."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.errors import AlreadyExists

FILE = "stockroom-demo.db"

BY_HAND = (
    "1 in 4 of 500 mL is 125 mL of solution, twice: 250 mL.",
    "1 in 10 of 500 mL is 50 mL of gel of 5 %, so 0.5 % in the bath, twice: 100 mL.",
    "the web is cut 3 cm larger on every side: 2 x 46 x 36 cm = 3312 cm².",
    "a pack of 10 sheets, 70000 cm², cost 48.00: 3312 cm² of it are 2.27, or 2.28 as the cents of a pack fall.",
    "a pack of 25 blotters cost 29.50: two are 2.36.",
)


@click.command()
@click.argument("folder", required=False, type=click.Path(path_type=Path), metavar="[DIR]")
@json_option
@click.pass_obj
def demo(session: Session, folder: Path | None) -> None:
    """Build the demo stockroom in DIR and open it; a demo that is there already is opened as it is.

    Without a terminal it goes through the main job instead: what is due, a jar made and labelled, a bath drawn for a
    job, and the job's cost, with the sums to check by hand.
    """
    if folder is None:
        from platformdirs import user_data_path

        folder = user_data_path("stockroom", appauthor=False)
    session.db = str(folder / FILE)
    known = _build(session, Path(session.db))
    if sys.stdout.isatty() and not session.json:
        from stockroom.cli.screens import open_screens

        session.say(("The demo stockroom as you left it: " if known else "A new demo stockroom: ") + str(session.path))
        open_screens(session)
        return
    session.say(f"{'The demo stockroom as it is' if known else 'A new demo stockroom'}: {session.path}")
    session.document({"path": str(session.path), **_go_through(session)})


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
    """Do the main job once and tell it, with the sums to check by hand."""
    from stockroom.actions.jobs import new_job
    from stockroom.actions.labelling import label_of
    from stockroom.actions.looking import job_cost
    from stockroom.actions.making import make
    from stockroom.actions.using import use
    from stockroom.actions.whats_due import due_items
    from stockroom.cli.told import drawn_document, say_drawn, say_steps
    from stockroom.labels.write import write_label
    from stockroom.planning.due import WORDS
    from stockroom.science.money import money_text, show_money
    from stockroom.science.quantities import show

    store, currency, occasion = session.store, session.currency, session.occasion()
    items = due_items(store, session.local)
    session.say(f"\n1. What is due: {len(items)} things, the first of them")
    for item in items[:4]:
        session.say(f"   {item.by or '':16}  {WORDS[item.kind]}: {item.name} ({item.code}): {item.why}")

    made = make(store, occasion, "calcium-hydroxide-saturated", "1 L", place="Shelf")
    code = made.codes[0] or ""
    session.say(f"\n2. A jar made: {code}, {made.material_name}, {show(made.total)}, {made.strength}")
    say_steps(session, made.steps)
    say_drawn(session, made.drawn, False)
    session.say(f"   By hand: 3 g of powder in a litre. Ready {(made.ready_on or '').replace('T', ', ')}.")

    label = session.path.with_name(f"label-{code}.pdf")
    written = write_label([label_of(store, code)], label)
    session.say(f"\n3. Its label: {written.files[0]}")

    job = new_job(
        store, "Harbour plan, hand-coloured", today=occasion.day, objects=["Plan, 40 x 30 cm"], client="Harbour museum"
    )
    used = use(store, occasion, "deacidify-and-size", job.code, fill="500 mL", fills=2)
    session.say(f"\n4. A treatment for job {job.code}, {job.title}: a bath of 500 mL, changed once")
    say_steps(session, used.steps)
    say_drawn(session, used.drawn, False)
    for sum_by_hand in BY_HAND:
        session.say(f"   By hand: {sum_by_hand}")

    cost = job_cost(store, job.code)
    session.say("\n5. What the job's materials cost")
    for line in cost.lines:
        session.say(f"   {show_money(line.value, currency):>10}  {show(line.quantity)} of {line.name} ({line.code})")
    session.say(f"   {show_money(cost.total, currency):>10}  in all")
    session.say(f"\nGo on: stockroom --db '{session.path}' due")
    return {
        "due": len(items),
        "code": code,
        "codes": list(made.codes),
        "label": str(written.files[0]),
        "job": job.code,
        "drawn": drawn_document(used.drawn, currency),
        "action": used.action,
        "total": money_text(cost.total, currency),
        "currency": currency,
    }
