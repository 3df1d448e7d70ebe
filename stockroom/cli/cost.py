"""`stockroom cost`: what a job's materials were expected to cost, and cost."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.papers import Into, paper_options
from stockroom.cli.session import Session
from stockroom.errors import BadInput

if TYPE_CHECKING:
    from stockroom.actions.cost_reports import Sum
    from stockroom.actions.costing import Costing
    from stockroom.actions.object_costs import ObjectCost
    from stockroom.store.open import Store


@click.command()
@click.argument("job")
@click.option(
    "--by", "by", type=click.Choice(["lot", "material", "treatment"]), default="lot", help="How it is added up."
)
@click.option("--ingredients", is_flag=True, help="Trace solutions down to what they were made of.")
@click.option("--with-waste", is_flag=True, help="Share what was wasted of each jar over the jobs that used it.")
@click.option("--handling", metavar="PERCENT|SUM", help="Handling on top, as a line of its own: '12 %' or 5.00.")
@paper_options("The final sheet: a .pdf, .md, .txt or .csv file.")
@click.option(
    "--shows",
    type=click.Choice(["total", "treatments", "materials", "prices"]),
    help="What the client sees on it; else as the accepted quote shows it.",
)
@json_option
@click.pass_obj
def cost(
    session: Session,
    job: str,
    by: str,
    ingredients: bool,
    with_waste: bool,
    handling: str | None,
    into: Into,
    shows: str | None,
) -> None:
    """What a job's materials cost, against what its booked treatments were expected to. Never labour.

    What several objects shared is shared by their area.

    \b
    Examples: stockroom cost 'harbour chart'
              stockroom cost 'harbour chart' --by treatment --handling '12 %'
              stockroom cost 'harbour chart' --out final.pdf
    """
    from stockroom.actions.cost_reports import by_ingredient
    from stockroom.actions.costing import costing
    from stockroom.actions.object_costs import object_costs
    from stockroom.store.estimates import was_quoted

    out, replace = into
    if shows and out is None:
        raise BadInput("--shows is for the final sheet: say with --out FILE where it goes.")
    if out is not None and not with_waste:
        with_waste = _waste_was_quoted(session.store, job)
    found = costing(session.store, job, session.local, with_waste=with_waste)
    shown = _Shown(
        found=found,
        objects=object_costs(session.store, job),
        sums=_added_up(session.store, found, by),
        down=by_ingredient(session.store, found.used) if ingredients else None,
        handling=handling,
        on_top=_on_top(session, found, handling),
    )
    document = _document(session, shown)
    quote = None
    if was_quoted(session.store, found.job.id):
        from stockroom.actions.quote_comparing import against_quote
        from stockroom.cli.told_quotes import against_document
        from stockroom.store.quotes import accepted_quote

        quote = accepted_quote(session.store, found.job.id)
    if quote is not None:
        lines = against_document(against_quote(quote, found), session.currency)
        document["quote"] = {"code": quote.code, "lines": lines}
    if out is not None:
        from stockroom.actions.final_papers import final_paper
        from stockroom.actions.papers import write_paper

        day = session.local.date().isoformat()
        paper = final_paper(session.store, found, day=day, handling=handling, shows=shows)
        document["files"] = [str(write_paper(paper, out, replace=replace))]
    session.document(document)
    _say(session, shown)
    if quote is not None:
        session.say(f"Quote {quote.code} was accepted: stockroom quote show {quote.code} compares the two.")
    if out is not None:
        session.say(f"Written: {out}")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shown:
    """What is shown of a job's cost."""

    found: Costing
    objects: tuple[ObjectCost, ...]
    sums: list[Sum] | None
    """By material or treatment; None for lot by lot."""
    down: list[Sum] | None
    """Traced down to what solutions were made of, where that was asked for."""
    handling: str | None
    on_top: int | None
    """What handling comes to, in minor units."""


def _added_up(store: Store, found: Costing, by: str) -> list[Sum] | None:
    from stockroom.actions.cost_reports import by_material, by_treatment

    if by == "lot":
        return None
    return by_material(found.used) if by == "material" else by_treatment(store, found.used)


def _on_top(session: Session, found: Costing, handling: str | None) -> int | None:
    if handling is None:
        return None
    from stockroom.science.handling import handling_on

    return handling_on(handling, found.total + found.waste_value, session.currency)


def _waste_was_quoted(store: Store, job: str) -> bool:
    """Say whether the accepted quote has an allowance for waste: the sheet then tells what was wasted against it."""
    from stockroom.store.jobs import find_job
    from stockroom.store.quotes import accepted_quote

    quote = accepted_quote(store, find_job(store, job).id)
    return quote is not None and quote.waste is not None


def _document(session: Session, shown: _Shown) -> dict[str, Any]:
    from stockroom.science.money import money_text
    from stockroom.science.quantities import amount_and_unit

    found = shown.found

    def money(minor: int) -> str:
        return money_text(minor, session.currency)

    def sum_of(one: Sum) -> dict[str, Any]:
        amount = amount_and_unit(one.quantity) if one.quantity else {}
        return {"key": one.key, "name": one.name, **amount, "cost": money(one.value)}

    lines = [
        {
            "material": one.lot.material.key,
            "name": one.lot.material.name,
            "code": one.lot.code,
            **amount_and_unit(one.quantity),
            "cost": money(one.value),
        }
        for one in found.by_lot
    ]
    document: dict[str, Any] = {
        "job": found.job.code,
        "title": found.job.title,
        "total": money(found.total),
        "currency": session.currency,
        "cost_incomplete": not found.complete,
        "apart": money(found.apart),
        "lines": lines if shown.sums is None else [sum_of(one) for one in shown.sums],
        "objects": [{"object": one.name, "cost": money(one.value)} for one in shown.objects],
        **_estimate_document(found, money),
    }
    if shown.down is not None:
        document["ingredients"] = [{"code": one.key, "name": one.name, "cost": money(one.value)} for one in shown.down]
    if found.waste:
        document["waste"] = [
            {"code": one.lot.code, "name": one.lot.material.name, "share": money(one.value)} for one in found.waste
        ]
        document["total_with_waste"] = money(found.total + found.waste_value)
    if shown.on_top is not None:
        document["handling"] = {"words": shown.handling, "value": money(shown.on_top)}
        document["total_with_handling"] = money(found.total + found.waste_value + shown.on_top)
    return document


def _estimate_document(found: Costing, money: Callable[[int], str]) -> dict[str, Any]:
    return {
        "estimate": {
            "done": money(found.expected),
            "to_come": money(found.to_come),
            "cost_incomplete": not found.expected_complete,
            "not_worked_out": list(found.unworked),
        },
        "difference": {
            "value": money(found.total - found.expected),
            "causes": [{"cause": kind, "value": money(value)} for kind, value in found.causes.items()],
            "lines": [
                {
                    "treatment": line.treatment,
                    "material": line.material.key,
                    "expected": None if line.expected is None else money(line.expected.value),
                    "actual": None if line.actual is None else money(line.actual.value),
                    "to_come": None if line.to_come is None else money(line.to_come.value),
                    "causes": [{"cause": one.kind, "value": money(one.value)} for one in line.causes],
                }
                for line in found.lines
            ],
        },
    }


def _say(session: Session, shown: _Shown) -> None:
    from stockroom.science.money import show_money
    from stockroom.science.quantities import show

    found = shown.found

    def line(value: int, words: str) -> None:
        session.say(f"  {show_money(value, session.currency):>14}  {words}")

    session.say(f"{found.job.code}  {found.job.title}: materials")
    if shown.sums is None:
        for one in found.by_lot:
            amount = show(one.quantity) if one.quantity.quanta >= 0 else f"back: {show(-one.quantity)}"
            line(one.value, f"{amount} of {one.lot.material.name} ({one.lot.code})")
    for each in shown.sums or ():
        line(each.value, each.name if each.quantity is None else f"{show(each.quantity)} of {each.name}")
    line(found.total, "in all" + ("" if found.complete else " at least: the cost of some of it is not known"))
    if found.apart:
        line(found.apart, "apart: became known after the job was closed, and is no part of its figure")
    if found.waste:
        for share in found.waste:
            line(
                share.value,
                f"its share of {show(share.quantity)} wasted of {share.lot.material.name} "
                f"({share.lot.code}); for this view only, it stays with the studio in the books",
            )
        line(found.total + found.waste_value, "with its share of what was wasted")
    if shown.on_top is not None:
        line(shown.on_top, f"handling, {shown.handling}")
        line(found.total + found.waste_value + shown.on_top, "with handling")
    for thing in shown.objects if any(thing.name and thing.value for thing in shown.objects) else ():
        line(thing.value, f"for {thing.name or 'the job, object not stated'}")
    if shown.down is not None:
        session.say("Down to what it was made of:")
        for each in shown.down:
            line(each.value, f"{each.name} ({each.key})")
    if found.unworked or any(one.expected or one.to_come for one in found.lines):
        _say_expected(session, found, line)


def _say_expected(session: Session, found: Costing, line: Callable[[int, str], None]) -> None:
    from stockroom.planning.cost_causes import CAUSE_WORDS

    least = "" if found.expected_complete else " at least: some prices are not known"
    if found.unworked:
        least = f" at least: {', '.join(found.unworked)} cannot be worked out yet, see 'stockroom plan'"
    session.say(f"Expected{least}:")
    line(found.expected, "for what is done, as reckoned when it was booked")
    line(found.to_come, "for what is still booked, at the prices of now")
    for kind, value in found.causes.items():
        sign = "more" if value > 0 else "less"
        line(abs(value), f"{sign}: {CAUSE_WORDS[kind]}")
