"""`discard` and `waste-can`: throwing away, and the cans that waste is collected in."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.nouns import without_nothing
from stockroom.cli.output import json_option, lot_names
from stockroom.cli.session import Session, day_option, dry_run_option, why_option
from stockroom.science.quantities import amount_and_unit, amount_text
from stockroom.science.quantities import show as show_quantity

if TYPE_CHECKING:
    from stockroom.actions.waste_cans import CanPage
    from stockroom.domain.waste import Poured, WasteCan

LOCAL_RULES = "What goes into which can, and who may collect it, is for local rules and licensed practice."


@click.command()
@click.argument("code")
@click.argument("quantity", required=False)
@click.option("--to", metavar="drain|bin|CAN", help="Drain (where local rules allow), bin, or a waste can.")
@click.option("--room", metavar="VOLUME", help="What it takes up in a can, for sheets and pieces.")
@click.option("--all-the-same", metavar="REASON", help="Why it goes into that can although a caution says no.")
@why_option
@day_option
@dry_run_option
@json_option
@click.pass_obj
def discard(
    session: Session,
    code: str,
    quantity: str | None,
    to: str | None,
    room: str | None,
    all_the_same: str | None,
    why: str | None,
    day: str | None,
    dry_run: bool,
) -> None:
    """Throw some of a lot away; without a QUANTITY all of it, and the lot ends. Local rules for waste come first.

    Example: stockroom discard L001W --to 'alcohol waste' --why 'past its date'
    """
    from stockroom.actions.discarding import discard as throw_away
    from stockroom.cli.take import tell
    from stockroom.cli.told_hazards import cautions_document, say_cautions

    gone = throw_away(
        session.store,
        session.occasion(day, why),
        code,
        quantity,
        to=to,
        room=room,
        all_the_same=all_the_same,
        dry_run=dry_run,
    )
    say_cautions(session, gone.cautions)
    if gone.to == "drain":
        session.say("  ! Down the drain only where local rules allow it for just this.")
    tell(session, gone, "Discarded", {"why": why, "to": gone.to, "cautions": cautions_document(gone.cautions)})
    if gone.to not in (None, "drain", "bin"):
        from stockroom.store.waste_cans import find_waste_can

        _say_can(session, find_waste_can(session.store, gone.to or ""))


@click.group("waste-can")
def waste_can() -> None:
    """Cans that waste is collected in: what they hold, and how much more they take.

    What goes into which can, and who may collect it, is for local rules and licensed practice.
    """


@waste_can.command()
@click.argument("title")
@click.option("--capacity", required=True, metavar="VOLUME", help="How much it takes when full: '5 L'.")
@click.option("--vented/--closed", default=False, help="Whether its closure lets gas out.")
@click.option("--place", metavar="PLACE", help="Where it stands.")
@day_option
@why_option
@json_option
@click.pass_obj
def new(
    session: Session, title: str, capacity: str, vented: bool, place: str | None, day: str | None, why: str | None
) -> None:
    """Begin an empty can; TITLE is what is written on it.

    Example: stockroom waste-can new 'Alcohol waste' --capacity '5 L' --place 'solvent cupboard'
    """
    from stockroom.actions.waste_cans import new_waste_can

    began = new_waste_can(session.store, session.occasion(day, why), title, capacity, vented=vented, place=place)
    session.document({**_document(began.can), "action": began.action})
    _say_can(session, began.can)
    session.say(f"Action {began.action}. Label it: 'stockroom label {began.can.lot.code} --out can.pdf'.")
    session.say(LOCAL_RULES)


@waste_can.command("list")
@click.option("--all", "ended", is_flag=True, help="Those that were collected or emptied too.")
@json_option
@click.pass_obj
def list_cans(session: Session, ended: bool) -> None:
    """List the cans in use, and how much more each takes."""
    from stockroom.store.waste_cans import waste_cans

    found = waste_cans(session.store, ended=ended)
    session.document({"cans": [_document(can) for can in found]})
    for can in found:
        _say_can(session, can)
    if not found:
        session.say("No waste cans. Begin one: stockroom waste-can new 'Alcohol waste' --capacity '5 L'.")


@waste_can.command()
@click.argument("can")
@json_option
@click.pass_obj
def show(session: Session, can: str) -> None:
    """Show a can: what went in, when and from which lot, and what its label warns of."""
    from stockroom.actions.waste_cans import waste_can_page

    page = waste_can_page(session.store, can)
    label = page.label
    session.document(
        {
            **_document(page.can),
            "contents": [_poured_document(one) for one in page.poured],
            "nearly_full": page.can.nearly_full,
            "signal_word": label.signal_word,
            "hazards": list(label.hazards),
            "pictograms": list(label.pictograms),
            "precautions": list(label.precautions),
            "ground": label.hazard_ground,
        }
    )
    _say_page(session, page)


def _say_page(session: Session, page: CanPage) -> None:
    _say_can(session, page.can)
    if page.can.nearly_full and not page.can.lot.ended:
        session.say("  nearly full: have it collected")
    for one in page.poured:
        why = f": {one.why}" if one.why else ""
        session.say(
            f"  {one.day} {show_quantity(one.quantity)} of {one.lot.material.name} ({one.lot.code}), {one.by}{why}"
        )
    if not page.poured:
        session.say("  nothing was poured in yet")
    said = [*([page.label.signal_word] if page.label.signal_word else []), *page.label.hazards]
    session.say(f"  label: {'; '.join(said) or 'no statement of what is in it'}")
    session.say(f"  {page.label.hazard_ground}")


def _ending(how: str) -> None:
    @waste_can.command(how, help=f"End a can that was {how}, with all that is in it. Say by whom with --why.")
    @click.argument("can")
    @day_option
    @why_option
    @json_option
    @click.pass_obj
    def end(session: Session, can: str, day: str | None, why: str | None) -> None:
        from stockroom.actions.waste_cans import end_waste_can

        ended = end_waste_can(session.store, session.occasion(day, why), can, how)
        session.document({**_document(ended.can), "action": ended.action})
        session.say(f"{ended.can.lot.code}  {ended.can.lot.material.name}: {how}. Take its label off.")
        session.say(f"Action {ended.action}. {LOCAL_RULES}")


for _how in ("collected", "emptied"):
    _ending(_how)


def _document(can: WasteCan) -> dict[str, Any]:
    return without_nothing(
        {
            "code": can.lot.code,
            "title": can.lot.material.name,
            **amount_and_unit(can.lot.amount),
            "capacity": amount_text(can.capacity)[0],
            "capacity_unit": amount_text(can.capacity)[1],
            "vented": can.vented,
            "place": can.lot.place,
            "begun_on": can.lot.received_on,
            "state": can.lot.state,
            "ended_on": can.lot.ended_on,
            "ended_why": can.lot.ended_why,
        }
    )


def _poured_document(one: Poured) -> dict[str, Any]:
    return {
        **lot_names(one.lot),
        **amount_and_unit(one.quantity),
        "day": one.day,
        "by": one.by,
        "why": one.why,
        "action": one.action,
    }


def _say_can(session: Session, can: WasteCan) -> None:
    closure = "vented" if can.vented else "not vented"
    place = f", {can.lot.place}" if can.lot.place else ""
    held = f"{show_quantity(can.lot.amount)} of {show_quantity(can.capacity)}, {closure}{place}"
    if can.lot.ended:
        held = f"{can.lot.ended_why} on {can.lot.ended_on}"
    session.say(f"{can.lot.code}  {can.lot.material.name}: {held}")
