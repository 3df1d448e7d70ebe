"""`stockroom cost`: what a job's materials cost."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session


@click.command()
@click.argument("job")
@json_option
@click.pass_obj
def cost(session: Session, job: str) -> None:
    """What a job's materials cost, lot by lot and object by object. Materials only, never labour.

    What several objects shared is shared by their area.

    Example: stockroom cost 'harbour chart'
    """
    from stockroom.actions.looking import job_cost
    from stockroom.actions.object_costs import object_costs
    from stockroom.science.money import money_text, show_money
    from stockroom.science.quantities import amount_text, show

    answer, objects = job_cost(session.store, job), object_costs(session.store, job)
    currency = session.currency
    session.document(
        {
            "job": answer.job.code,
            "title": answer.job.title,
            "total": money_text(answer.total, currency),
            "currency": currency,
            "cost_incomplete": not answer.complete,
            "lines": [
                {
                    "material": line.material,
                    "name": line.name,
                    "code": line.code,
                    "amount": amount_text(line.quantity)[0],
                    "unit": amount_text(line.quantity)[1],
                    "cost": money_text(line.value, currency),
                }
                for line in answer.lines
            ],
            "objects": [{"object": one.name, "cost": money_text(one.value, currency)} for one in objects],
        }
    )
    session.say(f"{answer.job.code}  {answer.job.title}: materials")
    for line in answer.lines:
        amount = show(line.quantity) if line.quantity.quanta >= 0 else f"back: {show(-line.quantity)}"
        session.say(f"  {show_money(line.value, currency):>14}  {amount} of {line.name} ({line.code})")
    least = "" if answer.complete else " at least: the cost of some of it is not known"
    session.say(f"  {show_money(answer.total, currency):>14}  in all{least}")
    for one in objects if any(one.name and one.value for one in objects) else ():
        session.say(f"  {show_money(one.value, currency):>14}  for {one.name or 'the job, object not stated'}")
