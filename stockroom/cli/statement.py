"""`stockroom statement`: what was used on an object, for its treatment record."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.papers import Into, hand_out, paper_options
from stockroom.cli.session import Session
from stockroom.science.quantities import amount_and_unit

if TYPE_CHECKING:
    from stockroom.domain.statement import Statement, Treated


@click.command()
@click.argument("what", metavar="JOB_OR_OBJECT")
@click.option("--object", "of", metavar="OBJECT", help="Only this object of the job.")
@paper_options()
@json_option
@click.pass_obj
def statement(session: Session, what: str, of: str | None, into: Into) -> None:
    """What was used on a job or an object, as it was used: solutions with their strength, materials, lots, by whom.

    Plain enough to paste into any report: as text here, with --out as Markdown (.md), PDF or text.
    Example: stockroom statement J001R --object 'North sheet' --out record.md
    """
    from stockroom.actions.statement import statement as draw_up
    from stockroom.actions.statement_paper import statement_paper

    said = draw_up(session.store, what, session.local.date(), of=of)
    hand_out(session, statement_paper(said), into, _document(said))


def _document(said: Statement) -> dict[str, Any]:
    return {
        "job": said.job.code,
        "title": said.job.title,
        "object": said.thing.name if said.thing else None,
        "on": said.on,
        "treatments": [_treatment(one) for one in said.treatments],
        "solutions": [
            {
                "code": one.code,
                "name": one.name,
                "kind": one.kind,
                **amount_and_unit(one.amount),
                "made": one.made,
                "by": one.by,
                "recipe": one.recipe,
                "version": one.version,
                "of": list(one.parts),
                "withdrawn": one.withdrawn,
            }
            for one in said.solutions
        ],
        "materials": [
            {
                "code": one.code,
                "name": one.name,
                "identity": one.identity,
                "maker_lot": one.maker_lot,
                "supplier": one.supplier,
                "withdrawn": one.withdrawn,
            }
            for one in said.materials
        ],
        "people": dict(said.people),
    }


def _treatment(done: Treated) -> dict[str, Any]:
    return {
        "action": done.action,
        "day": done.day,
        "clock": done.clock,
        "by": done.by,
        "what": done.what,
        "recipe": done.recipe,
        "version": done.version,
        "objects": list(done.objects),
        "fills": done.fills,
        "fill": amount_and_unit(done.fill),
        "strength": done.strength,
        "used": [
            {
                "code": one.code,
                "name": one.name,
                **amount_and_unit(one.amount),
                "strength": one.strength,
                "share": one.share,
                "in_bath": one.in_bath,
                "check": one.check and {"day": one.check.day, "method": one.check.method, "verdict": one.check.verdict},
                "override": one.override,
            }
            for one in done.used
        ],
        "not_metered": [{"name": name, **amount_and_unit(amount)} for name, amount in done.not_metered],
        "waits": [list(one) for one in done.waits],
        "notes": list(done.notes),
        "media": done.media,
        "reason": done.reason,
        "put_right": list(done.put_right),
    }
