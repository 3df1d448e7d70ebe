"""What commands that draw from lots say and print alike: lines drawn, steps, money."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from stockroom.actions.drawn import Drawn
from stockroom.cli.session import Session
from stockroom.cli.told_hazards import cautions_document, say_cautions_and_steps
from stockroom.cli.told_measures import measures_document, say_measures
from stockroom.domain.ledger import Reworked
from stockroom.planning.steps import StepToDo
from stockroom.science.money import money_text, show_money
from stockroom.science.quantities import amount_and_unit, show

if TYPE_CHECKING:
    from stockroom.actions.making import Making
    from stockroom.actions.offcuts import KeptOffcut
    from stockroom.actions.using import Using


def drawing_document(plan: Making | Using, currency: str, why: str | None) -> dict[str, Any]:
    """Return what programs get of what a recipe drew, made or used."""
    return {
        "action": plan.action,
        "recipe": plan.recipe,
        "version": plan.version,
        "drawn": drawn_document(plan.drawn, currency),
        "short": [],
        "strength": plan.strength,
        "cost": money_text(plan.cost, currency),
        "currency": currency,
        "cost_incomplete": not plan.cost_complete,
        "opened": list(plan.opened),
        "waits_for": plan.waits_for,
        "why": why,
        "steps": steps_document(plan.steps),
        "measure_with": measures_document(plan.measured),
        "cautions": cautions_document(plan.cautions),
    }


def say_drawing(session: Session, plan: Making | Using) -> None:
    """Say the cautions, the steps, with what to measure, then what is drawn, what it costs and what it changed."""
    say_cautions_and_steps(session, plan.cautions, plan.steps)
    say_measures(session, plan.measured)
    say_drawn(session, plan.drawn, plan.action is None)
    say_cost(session, plan.cost, plan.cost_complete)
    say_opened(session, plan.opened)
    say_kept_counts(session, plan.reworked)


def drawn_document(drawn: Iterable[Drawn], currency: str) -> list[dict[str, Any]]:
    """Return what programs get of each lot drawn from."""
    lines: list[dict[str, Any]] = []
    for one in drawn:
        line: dict[str, Any] = {
            "code": one.code,
            "material": one.material,
            "name": one.name,
            **amount_and_unit(one.quantity),
            "cost": money_text(one.value, currency),
        }
        if one.override:
            line["override"] = one.override
        if one.stands_in_for:
            line["stands_in_for"] = one.stands_in_for
        lines.append(line)
    return lines


def offcuts_document(offcuts: Iterable[KeptOffcut], currency: str) -> list[dict[str, Any]]:
    """Return what programs get of the offcuts that went back to the shelf."""
    return [
        {
            "code": one.code,
            "size": one.size,
            **amount_and_unit(one.quantity),
            "value": money_text(one.value, currency),
        }
        for one in offcuts
    ]


def say_offcuts(session: Session, offcuts: Iterable[KeptOffcut]) -> None:
    """Say what went back to the shelf, to be labelled."""
    for one in offcuts:
        value = show_money(one.value, session.currency)
        session.say(f"Back to the shelf: {one.size} ({one.code or 'a new lot'}), {value}: label it.")


def steps_document(steps: Iterable[StepToDo]) -> list[dict[str, Any]]:
    return [{"words": step.words, "wait": step.wait, "caution": step.caution} for step in steps]


def say_drawn(session: Session, drawn: Iterable[Drawn], dry_run: bool) -> None:
    """Say what is taken from which lot, and what it costs."""
    session.say("To be drawn:" if dry_run else "Drawn:")
    for one in drawn:
        notes = f"  NOT FIT: {one.override}" if one.override else ""
        if one.stands_in_for:
            notes += f"  instead of {one.stands_in_for}"
        cost = show_money(one.value, session.currency)
        session.say(f"  {cost:>12}  {show(one.quantity)} of {one.name} ({one.code}){notes}")


def say_cost(session: Session, cost: int, complete: bool) -> None:
    least = "" if complete else " at least: the cost of some of it is not known"
    session.say(f"  {show_money(cost, session.currency):>12}  in all{least}")


def say_opened(session: Session, opened: Sequence[str]) -> None:
    if opened:
        session.say(f"Opened by this: {', '.join(opened)}; the life once opened has begun.")


def say_kept_counts(session: Session, reworked: tuple[Reworked, ...]) -> None:
    """Say how the unexplained differences of later counts changed, which stay as counted."""
    if reworked:
        from stockroom.actions.telling import tell_reworked

        for line in tell_reworked(session.store, reworked):
            session.say(line)


def say_not_booked(session: Session, waits_for: str | None = None) -> None:
    """Say that this was only a plan; where a reading is waited for, how to book it."""
    if waits_for:
        session.say(f"Now by meter: {waits_for}.")
        session.say("Nothing is booked yet: run it again with --added AMOUNT --reached READING.")
    else:
        session.say("This is only the plan; nothing was booked.")
