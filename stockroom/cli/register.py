"""`stockroom register`: the running page of a material, and losses that must be explained."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.papers import Into, hand_out, paper_options
from stockroom.cli.session import Session, why_option
from stockroom.errors import BadInput
from stockroom.science.quantities import amount_and_unit, amount_text, show

if TYPE_CHECKING:
    from stockroom.domain.registers import Register, UnexplainedLoss


@click.command()
@click.argument("material", required=False)
@click.option("--since", metavar="DATE", help="From that day on; what was before is brought forward.")
@click.option("--until", metavar="DATE", help="Through that day; else to today.")
@click.option("--explain", "action", metavar="ACTION", help="The count whose loss --why explains.")
@why_option
@paper_options()
@json_option
@click.pass_obj
def register(
    session: Session,
    material: str | None,
    since: str | None,
    until: str | None,
    action: str | None,
    why: str | None,
    into: Into,
) -> None:
    """The running page of a material: every gain and loss with what was left, to print and sign.

    Which materials need a register is for local rules: mark them with 'stockroom material edit MATERIAL --register'.
    What a count finds missing of one without a reason is due at once, until it is explained. Without a material it
    lists those under a register.

    Example: stockroom register ethanol --since 2026-01-01 --out register.pdf
    """
    from stockroom.actions.register_paper import register_paper
    from stockroom.actions.registers import explain_loss, register_of, registered
    from stockroom.science.days import read_day

    if material is None:
        if action or into[0]:
            raise BadInput("Of which material? Say it: stockroom register MATERIAL.")
        found = registered(session.store)
        session.document({"materials": [{"key": one.key, "name": one.name} for one in found]})
        for each in found:
            session.say(f"{each.key}  {each.name}")
        if not found:
            session.say("Nothing is under a register: stockroom material edit MATERIAL --register.")
        return
    if action:
        losses = explain_loss(session.store, session.occasion(why=why), material, action)
        session.document({"explained": [_loss(one) for one in losses], "why": why})
        for one in losses:
            session.say(f"Explained: {show(one.missing)} of {one.name} ({one.lot}) at the count {one.action}.")
        return
    if why:
        raise BadInput("--why goes with --explain ACTION: say which count it explains.")
    today = session.local.date()
    last = read_day(until, today=today) if until else today
    page = register_of(session.store, material, last, read_day(since, today=today) if since else None)
    hand_out(session, register_paper(page), into, _document(page))


def _document(page: Register) -> dict[str, Any]:
    return {
        "material": page.material.key,
        "name": page.material.name,
        "register": page.material.register,
        "since": page.since,
        "until": page.until,
        "brought_forward": amount_and_unit(page.brought_forward),
        "lines": [
            {
                "day": one.day,
                "what": one.what,
                "lot": one.lot,
                **amount_and_unit(one.moved),
                "left": amount_text(one.left)[0],
                "by": one.by,
                "words": one.words,
                "action": one.action,
            }
            for one in page.lines
        ],
        "left": amount_and_unit(page.left),
        "unexplained": [_loss(one) for one in page.unexplained],
        "explained": [
            {"action": one.action, "lot": one.lot, "reason": one.reason, "by": one.by, "on": one.on}
            for one in page.explained
        ],
    }


def _loss(one: UnexplainedLoss) -> dict[str, Any]:
    return {"action": one.action, "day": one.day, "lot": one.lot, "name": one.name, **amount_and_unit(one.missing)}
