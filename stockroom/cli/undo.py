"""`stockroom undo`, `put-right` and `price`: what was booked wrongly."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, dry_run_option, why_option
from stockroom.science.money import money_text, read_money, show_money
from stockroom.science.quantities import amount_and_unit, show

if TYPE_CHECKING:
    from stockroom.actions.telling import Told


@click.command()
@click.argument("action", required=False)
@why_option
@dry_run_option
@json_option
@click.pass_obj
def undo(session: Session, action: str | None, why: str | None, dry_run: bool) -> None:
    """Undo an action, whole; without one, show your last actions and undo nothing.

    Example: stockroom undo A0042 --why mistyped
    """
    from stockroom.actions.undoing import last_actions
    from stockroom.actions.undoing import undo as take_back
    from stockroom.cli.told import say_kept_counts

    occasion = session.occasion(why=why)
    if action is None:
        found = last_actions(session.store, occasion)
        session.document({"actions": [_told_document(told) for told in found], "action": None})
        for told in found:
            session.say(f"{told.code}  {told.when}  {told.words}{'' if told.in_effect else ' [undone]'}")
        session.say("Undo one with: stockroom undo ACTION --why REASON" if found else "You have booked nothing yet.")
        return
    undone = take_back(session.store, occasion, action, dry_run=dry_run)
    session.document(
        {
            "action": undone.action,
            "undone": undone.undone.code,
            "back_in_effect": undone.back_in_effect,
            "reworked": [one.count.code for one in undone.reworked],
        }
    )
    session.say(f"{'Would be undone' if dry_run else 'Undone'}: {undone.undone.code}, {undone.undone.words}.")
    say_kept_counts(session, undone.reworked)
    session.warn_where_closed(undone.undone.day)
    if undone.action:
        session.say(f"Action {undone.action}.")


def _told_document(told: Told) -> dict[str, Any]:
    return {
        "action": told.code,
        "kind": told.kind,
        "day": told.day,
        "words": told.words,
        "in_effect": told.in_effect,
    }


@click.command("put-right")
@click.argument("action")
@click.option("--lot", metavar="CODE", help="The lot it was really drawn from.")
@click.option("--job", metavar="JOB", help="The job it was really for.")
@click.option("--object", "objects", metavar="O", multiple=True, help="The object it was really for. May be repeated.")
@click.option("--day", metavar="DATE[THH:MM]", help="When it really happened.")
@click.option("--amount", metavar="QTY", help="How much it really was.")
@click.option("--entry", type=int, metavar="N", help="Which draw of the action, where it drew several times.")
@why_option
@dry_run_option
@json_option
@click.pass_obj
def put_right(
    session: Session,
    action: str,
    lot: str | None,
    job: str | None,
    objects: tuple[str, ...],
    day: str | None,
    amount: str | None,
    entry: int | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Put a past draw right, even where later draws stand on it: lot, job, object, day or amount.

    Example: stockroom put-right A0042 --amount "25 mL" --why "read the cylinder wrongly"
    """
    from stockroom.actions.putting_right import Meant
    from stockroom.actions.putting_right import put_right as correct
    from stockroom.cli.told import say_kept_counts

    meant = Meant(lot=lot, job=job, objects=objects, day=day, amount=amount, entry=entry)
    righted = correct(session.store, session.occasion(why=why), action, meant, dry_run=dry_run)
    session.document(
        {
            "action": righted.action,
            "put_right": righted.of.code,
            "drawn": [
                {
                    "was": {
                        "code": one.was_code,
                        **amount_and_unit(one.was),
                        "cost": money_text(one.was_value, session.currency),
                    },
                    "code": one.code,
                    **amount_and_unit(one.now),
                    "cost": money_text(one.value, session.currency),
                }
                for one in righted.draws
            ],
            "strengths": [{"code": code, "was": was, "became": now} for code, was, now in righted.strengths],
            "earlier_uses": list(righted.earlier_uses),
            "reworked": [one.count.code for one in righted.reworked],
            "currency": session.currency,
        }
    )
    session.say(f"{'Would be put right' if dry_run else 'Put right'}: {righted.of.code}, {righted.of.words}.")
    for draw in righted.draws:
        was = f"{show(draw.was)} of {draw.was_code}, {show_money(draw.was_value, session.currency)}"
        now = f"{show(draw.now)} of {draw.code}, {show_money(draw.value, session.currency)}"
        session.say(f"  {was} → {now}")
    for code, was_strength, strength in righted.strengths:
        session.say(f"{code} was labelled {was_strength} and is {strength} from now on: print its label anew.")
    if righted.earlier_uses:
        session.say(f"Used before at the strength on the old label: {', '.join(righted.earlier_uses)}.")
    say_kept_counts(session, righted.reworked)
    if righted.action:
        session.say(f"Action {righted.action}.")


@click.command()
@click.argument("code")
@click.option("--cost", required=True, metavar="M", help="What the whole lot really cost.")
@why_option
@dry_run_option
@json_option
@click.pass_obj
def price(session: Session, code: str, cost: str, why: str | None, dry_run: bool) -> None:
    """Put the price of a received lot right; the difference follows what was drawn from it.

    Example: stockroom price L001W --cost 12.50 --why "invoice came"
    """
    from stockroom.actions.prices import put_price_right

    minor = read_money(cost, session.currency)
    priced = put_price_right(session.store, session.occasion(why=why), code, minor, dry_run=dry_run)
    session.document(
        {
            "action": priced.action,
            "code": priced.code,
            "was": money_text(priced.was, session.currency),
            "cost": money_text(priced.cost, session.currency),
            "difference": money_text(priced.cost - priced.was, session.currency),
            "currency": session.currency,
            "shares": [
                {"what": share.what, "value": money_text(share.value, session.currency)} for share in priced.shares
            ],
        }
    )
    was, now = show_money(priced.was, session.currency), show_money(priced.cost, session.currency)
    session.say(f"{priced.name} ({priced.code}): {was} → {now}{' (not booked)' if dry_run else ''}.")
    for share in priced.shares:
        session.say(f"  {share.what}: {'+' if share.value > 0 else ''}{show_money(share.value, session.currency)}")
    if priced.action:
        session.say(f"Action {priced.action}.")
