"""`trace`, `withdraw` and `release`: which lots touched what, both ways, and a recall."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.nouns import without_nothing
from stockroom.cli.output import Command, json_option, lot_names
from stockroom.cli.papers import Into, hand_out, paper_options
from stockroom.cli.session import Session, booking_options
from stockroom.domain.trace import Branch, Thing, Trace, TracedLot, TracedObject, TracedTreatment
from stockroom.science.numerals import counted
from stockroom.science.quantities import amount_and_unit, show

if TYPE_CHECKING:
    from stockroom.actions.withdrawing import Recall
    from stockroom.domain.lots import Lot
    from stockroom.domain.occasion import Occasion
    from stockroom.store.open import Store


def _maker_options(command: Command) -> Command:
    command = click.option("--material", metavar="MATERIAL", help="With --maker-lot, where several have that number.")(
        command
    )
    return click.option("--maker-lot", metavar="NUMBER", help="Every lot with this lot number of the maker.")(command)


@click.command()
@click.argument("code", metavar="[CODE|JOB|OBJECT]", required=False)
@_maker_options
@click.option("--object", "objects", multiple=True, metavar="OBJECT", help="Only this object of the job.")
@paper_options("Of lots: what to pull and what it touched, as a .pdf, .md or .txt file; else the terminal.")
@json_option
@click.pass_obj
def trace(
    session: Session,
    code: str | None,
    maker_lot: str | None,
    material: str | None,
    objects: tuple[str, ...],
    into: Into,
) -> None:
    """Which lots touched what: from a lot all it reached and all behind it; from a job or object every lot behind.

    \b
    Examples: stockroom trace --maker-lot 7731
              stockroom trace --maker-lot 7731 --out recall.pdf
    """
    from stockroom.actions.tracing import trace as trace_it

    traced = trace_it(session.store, code, maker_lot=maker_lot, material=material, objects=objects)
    if into[0]:
        from stockroom.actions.recall_paper import recall_paper

        paper = recall_paper(session.store, traced, session.local.date().isoformat())
        hand_out(session, paper, into, _document(traced))
        return
    session.document(_document(traced))
    session.say(traced.of)
    shown: set[int] = set()
    if traced.reached:
        session.say("Reached:")
        for branch in traced.reached:
            _say(session, branch, 1, shown)
        session.say("Behind it:")
    shown.clear()
    for branch in traced.behind:
        _say(session, branch, 1, shown)
    reached = f"{counted(len(traced.lots_reached), 'lot')} reached, " if traced.reached else ""
    touched = counted(len(traced.objects), "object")
    session.say(f"{reached}{counted(len(traced.lots_behind), 'lot')} behind, {touched}.")


def _recalls(recall: Callable[..., Recall]) -> click.Command:
    """Make a function a command for the lots that its options name, and tell what it did."""

    @click.command(recall.__name__, help=recall.__doc__)
    @click.argument("code", required=False)
    @_maker_options
    @booking_options
    @json_option
    @click.pass_obj
    def command(session: Session, /, code: str | None, why: str | None, day: str | None, **which: Any) -> None:
        _tell(session, recall(session.store, session.occasion(day, why), code, **which), why)

    return command


@_recalls
def withdraw(store: Store, occasion: Occasion, code: str | None, **which: Any) -> Recall:
    """Withdraw a lot, or every lot of a maker's lot number: it and all that holds some of it is unfit at once.

    Example: stockroom withdraw --maker-lot 7731 --why 'recalled by the maker'
    """
    from stockroom.actions.withdrawing import withdraw as withdraw_it

    return withdraw_it(store, occasion, code, **which)


@_recalls
def release(store: Store, occasion: Occasion, code: str | None, **which: Any) -> Recall:
    """Release what was withdrawn, and what is unfit only because of it.

    Example: stockroom release --maker-lot 7731 --why 'tested, as labelled'
    """
    from stockroom.actions.withdrawing import release as release_it

    return release_it(store, occasion, code, **which)


def _tell(session: Session, recall: Recall, why: str | None) -> None:
    session.document(
        {
            **_document(recall.trace),
            "action": recall.action,
            "why": why,
            "codes": [lot.code for lot in recall.lots],
            "marked": [_marked(lot) for lot in recall.marked],
            "to_pull": [_marked(lot) for lot in recall.to_pull],
            "lent": [{"action": one.code, "code": one.lot, "words": one.words, "by": one.by} for one in recall.lent],
        }
    )
    done = {"withdraw": "Withdrawn", "release": "Released"}[recall.kind]
    session.say(f"{done if recall.action else f'Would be {done.lower()}'}: {recall.trace.of}")
    pull = "Take off the shelf:" if recall.kind == "withdraw" else "May be used again, where nothing else is said:"
    session.say(pull if recall.to_pull else "Nothing of it is left.")
    for lot in recall.to_pull:
        place = f", {lot.place}" if lot.place else ""
        still = f"; still unfit: {lot.unfit}" if lot.unfit and recall.kind == "release" else ""
        amount = lot.amount_words if lot.balance.quantity else lot.state
        session.say(f"  {lot.code}  {lot.material.name}: {amount}{place}{still}")
    if recall.lent:
        session.say("Lent out: call it back." if recall.kind == "withdraw" else "Lent out: say that it may be used.")
    for loan in recall.lent:
        session.say(f"  {loan.words} ({loan.code})")
    session.say(f"Objects it reached: {len(recall.trace.objects) or 'none'}")
    for thing in recall.trace.objects:
        session.say(f"  {_words(thing)}")
    ending = f"Action {recall.action}." if recall.action else "This is only the plan; nothing was booked."
    session.say(ending)


def _say(session: Session, branch: Branch, depth: int, shown: set[int]) -> None:
    again = id(branch.branches) in shown and isinstance(branch.thing, TracedLot) and branch.branches
    session.say(f"{'  ' * depth}{_words(branch.thing)}{' (as above)' if again else ''}")
    if not again:
        shown.add(id(branch.branches))
        for one in branch.branches:
            _say(session, one, depth + 1, shown)


def _words(thing: Thing) -> str:
    match thing:
        case TracedObject():
            name = thing.name or "the job names no object"
            return (
                f"{thing.job} {thing.title}: {name}{'' if thing.stated or not thing.name else ' (object not stated)'}"
            )
        case TracedTreatment():
            objects = ", ".join(thing.objects) or "object not stated"
            what = f"{thing.day} {thing.recipe or thing.kind} ({thing.action})"
            said = [thing.strength, thing.media, f"because {thing.reason}" if thing.reason else None]
            return "; ".join([f"{what} for {thing.job}, {objects}, by {thing.by}", *(words for words in said if words)])
    lot = thing.lot
    amount = f"{show(thing.amount)} on {thing.day}: " if thing.amount else ""
    said = [
        thing.strength,
        f"maker's lot {lot.maker_lot}" if lot.maker_lot else None,
        f"received {lot.received_on}" if lot.received_on else None,
        f"made {lot.made_at[:10]}" if lot.made_at else None,
        f"use by {lot.use_by}" if lot.use_by else None,
        _check_words(thing),
        f"NOT FIT: {thing.override}" if thing.override else None,
        f"now unfit: {lot.unfit}" if lot.unfit else None,
    ]
    return "; ".join([f"{amount}{lot.code} {lot.material.name}", *(words for words in said if words)])


def _check_words(thing: TracedLot) -> str | None:
    check = thing.check
    return f"checked {check.day} by {check.method}: {check.verdict} ({check.by})" if check else None


def _document(traced: Trace) -> dict[str, Any]:
    return {
        "of": traced.of,
        "starts": [lot.code for lot in traced.starts],
        "lots": [
            *({**_lot(one), "way": "reached"} for one in traced.lots_reached),
            *({**_lot(one), "way": "behind"} for one in traced.lots_behind),
        ],
        "objects": [_object(one) for one in traced.objects],
        "treatments": [_treatment(one) for one in traced.treatments],
        "reached": [_branch(one) for one in traced.reached],
        "behind": [_branch(one) for one in traced.behind],
    }


def _branch(branch: Branch) -> dict[str, Any]:
    match branch.thing:
        case TracedObject():
            document = {"what": "object", **_object(branch.thing)}
        case TracedTreatment():
            document = {"what": "treatment", **_treatment(branch.thing)}
        case TracedLot():
            document = {"what": "lot", **_lot(branch.thing)}
    return {**document, "leads_to": [_branch(one) for one in branch.branches]}


def _lot(one: TracedLot) -> dict[str, Any]:
    lot = one.lot
    return {
        **lot_names(lot),
        "kind": lot.kind,
        "maker_lot": lot.maker_lot,
        "strength": one.strength,
        "received_on": lot.received_on,
        "made_at": lot.made_at,
        "use_by": lot.use_by,
        "check": asdict(one.check) if one.check else None,
        "override": one.override,
        "unfit": lot.unfit,
        "state": lot.state,
        **without_nothing({**amount_and_unit(one.amount), "day": one.day}),
    }


def _object(one: TracedObject) -> dict[str, Any]:
    return {"name": one.name, "position": one.position, "job": one.job, "title": one.title, "stated": one.stated}


def _treatment(one: TracedTreatment) -> dict[str, Any]:
    return {
        "action": one.action,
        "kind": one.kind,
        "recipe": one.recipe,
        "day": one.day,
        "by": one.by,
        "job": one.job,
        "title": one.title,
        "objects": list(one.objects),
        "strength": one.strength,
        "why": one.reason,
        "media_test": one.media,
    }


def _marked(lot: Lot) -> dict[str, Any]:
    return {
        **lot_names(lot),
        **amount_and_unit(lot.amount),
        "place": lot.place,
        "unfit": lot.unfit,
    }
