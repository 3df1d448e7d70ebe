"""`stockroom quote`: give, show, print, accept and withdraw an estimate that stays as it was given."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.papers import SHEET, Into, hand_out_text, paper_options
from stockroom.cli.session import Session, dry_run_option, why_option

if TYPE_CHECKING:
    from stockroom.domain.quotes import Quote, Range

SHOWS = click.Choice(["total", "treatments", "materials", "prices"])


class JobFirst(click.Group):
    """Takes `quote JOB` for `quote give JOB`."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        if args and args[0] not in self.commands and args[0] not in ("-h", "--help"):
            args = ["give", *args]
        return super().parse_args(ctx, args)


@click.group(cls=JobFirst)
def quote() -> None:
    """What a job's materials are expected to cost, frozen as it was given. Materials only, never labour.

    \b
    Examples: stockroom quote 'harbour chart' --waste '10 %' --fills K0015=2-4
              stockroom quote accept E001J
    """


@quote.command()
@click.argument("job")
@click.option("--valid", "valid", metavar="DATE", help="The last day on which it holds; else 30 days on.")
@click.option("--fills", multiple=True, metavar="BOOKING=LOW-HIGH", help="Where the number of fills is uncertain.")
@click.option("--waste", metavar="PERCENT", help="Allowance for waste, a line of its own.")
@click.option("--handling", metavar="PERCENT|SUM", help="Handling, a line of its own: '12 %' or 5.00.")
@click.option("--shows", type=SHOWS, default="treatments", help="What the client sees.")
@click.option("--note", metavar="TEXT", help="A line for the client.")
@dry_run_option
@json_option
@click.pass_obj
def give(
    session: Session,
    job: str,
    valid: str | None,
    fills: tuple[str, ...],
    waste: str | None,
    handling: str | None,
    shows: str,
    note: str | None,
    dry_run: bool,
) -> None:
    """Freeze what all booked treatments of a job are expected to cost, at the prices of now."""
    from stockroom.actions.quoting import give_quote
    from stockroom.science.days import read_day

    given = give_quote(
        session.store,
        session.occasion(),
        job,
        valid_until=read_day(valid, today=session.local.date()) if valid else None,
        fills=fills,
        waste=waste,
        handling=handling,
        shows=shows,
        note=note,
        dry_run=dry_run,
    )
    _tell(session, given)


@quote.command("list")
@click.argument("job", required=False)
@json_option
@click.pass_obj
def list_quotes(session: Session, job: str | None) -> None:
    """List the quotes of a job, or all, newest first."""
    from stockroom.store.jobs import find_job
    from stockroom.store.quotes import quotes

    found = quotes(session.store, find_job(session.store, job).id if job else None)
    session.listing(
        "quotes", found, lambda one: _head(session, one), lambda one: _words(session, one), "No quote was given yet."
    )


@quote.command()
@click.argument("code")
@json_option
@click.pass_obj
def show(session: Session, code: str) -> None:
    """Show a quote with every price, against what was used so far."""
    from stockroom.store.quotes import find_quote

    _tell(session, find_quote(session.store, code), against=True)


@quote.command("print")
@click.argument("code")
@click.option("--shows", type=SHOWS, help="What the client sees, where not as it was given.")
@paper_options(SHEET)
@json_option
@click.pass_obj
def print_quote(session: Session, code: str, shows: str | None, into: Into) -> None:
    """Write a quote as a sheet to send."""
    from dataclasses import replace

    from stockroom.actions.quote_papers import quote_paper
    from stockroom.store.quotes import find_quote

    found = find_quote(session.store, code)
    hand_out_text(session, quote_paper(session.store, replace(found, shows=shows or found.shows)), into)


@quote.command()
@click.argument("code")
@why_option
@dry_run_option
@json_option
@click.pass_obj
def accept(session: Session, code: str, why: str | None, dry_run: bool) -> None:
    """Mark a quote as accepted: the final sheet is compared with it."""
    from stockroom.actions.quoting import accept_quote

    changed = accept_quote(session.store, session.occasion(why=why), code, dry_run=dry_run)
    _tell(session, changed.quote, planned=dry_run)


@quote.command()
@click.argument("code")
@why_option
@dry_run_option
@json_option
@click.pass_obj
def withdraw(session: Session, code: str, why: str | None, dry_run: bool) -> None:
    """Take a quote back; it stays on the list with its reason."""
    from stockroom.actions.quoting import withdraw_quote

    changed = withdraw_quote(session.store, session.occasion(why=why), code, dry_run=dry_run)
    _tell(session, changed.quote, planned=dry_run)


def _head(session: Session, one: Quote) -> dict[str, Any]:
    return {
        "code": one.code or None,
        "job": one.job.code,
        "day": one.day,
        "valid_until": one.valid_until,
        "state": one.state,
        "total": _money(session, one.whole(session.currency)),
        "currency": session.currency,
        "cost_incomplete": not one.complete,
    }


def _money(session: Session, of: Range) -> dict[str, str]:
    from stockroom.science.money import money_text

    return {
        name: money_text(minor, session.currency)
        for name, minor in (("low", of.low), ("best", of.best), ("high", of.high))
    }


def _words(session: Session, one: Quote) -> str:
    from stockroom.actions.quote_papers import show_range

    least = "" if one.complete else "at least "
    expired = (
        " (no longer valid)" if one.state == "given" and session.local.date().isoformat() > one.valid_until else ""
    )
    sum_of = show_range(one.whole(session.currency), session.currency)
    return f"{one.code}  {one.day}  {one.state}{expired}  {least}{sum_of}  {one.job.code} {one.job.title}"


def _tell(session: Session, one: Quote, *, against: bool = False, planned: bool = False) -> None:
    from dataclasses import replace

    from stockroom.actions.quote_papers import quote_paper
    from stockroom.labels.paper_words import write_text
    from stockroom.science.quantities import amount_and_unit

    compared = _against(session, one) if against else []
    session.document(
        {
            **_head(session, one),
            "materials": _money(session, one.materials),
            "waste": None if one.waste is None else _money(session, one.for_waste),
            "handling": None if one.handling is None else _money(session, one.for_handling(session.currency)),
            "shows": one.shows,
            "accepted_on": one.accepted_on,
            "lines": [
                {
                    "booking": line.booking,
                    "recipe": line.recipe,
                    "version": line.version,
                    "fills": {"low": line.fills.low, "best": line.fills.best, "high": line.fills.high},
                    "material": line.material.key,
                    **amount_and_unit(line.material.quantity(line.quantity.best)),
                    "cost": _money(session, line.value),
                    "cost_incomplete": not line.complete,
                    "priced_by": line.priced_by,
                }
                for line in one.lines
            ],
            **({"against": compared} if against else {}),
        }
    )
    session.say(write_text(quote_paper(session.store, replace(one, shows="prices"))).rstrip("\n"))
    send = (
        f" To send it: stockroom quote print {one.code} --out quote.pdf" if one.state in ("given", "accepted") else ""
    )
    if planned:
        session.say(f"Quote {one.code} would be {one.state}. This is only the plan; nothing was booked.")
    elif one.code:
        session.say(f"Quote {one.code} is {one.state}.{send}")
    else:
        session.say("This is only the plan; no quote was given.")
    for line in compared:
        difference = f"{line['difference']} {session.currency}"
        session.say(
            f"  {difference:>14}  {line['treatment']}, {line['material'] or 'whole'}: {line['why'] or 'as quoted'}"
        )


def _against(session: Session, one: Quote) -> list[dict[str, Any]]:
    from stockroom.actions.costing import costing
    from stockroom.actions.quote_comparing import against_quote
    from stockroom.cli.told_quotes import against_document

    found = costing(session.store, one.job.code, session.local, with_waste=one.waste is not None)
    return against_document(against_quote(one, found), session.currency)
