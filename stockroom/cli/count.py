"""`stockroom count` and `stockroom stock-take`: what is really there."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session, booking_options
from stockroom.cli.told_measures import ends_document
from stockroom.errors import BadInput
from stockroom.science.count_accuracy import agreeing
from stockroom.science.money import money_text, show_money
from stockroom.science.quantities import Dimension, Quantity, amount_text, show

if TYPE_CHECKING:
    from stockroom.actions.counting import Counting
    from stockroom.actions.stock_taking import Seen, StockTake
    from stockroom.actions.weighing import Weighed

METHODS = ("measured", "weighed", "by eye")


@click.command()
@click.argument("code")
@click.argument("quantity", metavar="QTY", required=False)
@click.option("--method", type=click.Choice(METHODS), default="measured", help="How it was counted.")
@click.option("--gross", metavar="MASS", help="What it weighs with its container, '812 g': less the tare that is kept.")
@click.option("--density", metavar="'0.81 g/mL'", help="With --gross, where the material's own is not known.")
@click.option("--tare", metavar="MASS", help="Keep what the empty container weighs with its lid, '310 g'.")
@click.option("--evaporated", is_flag=True, help="Only water went: the value stays, the strength is not known since.")
@click.option(
    "--empty", is_flag=True, help="Nothing is left; --why says measured short, evaporated, not booked, unknown."
)
@booking_options
@json_option
@click.pass_obj
def count(
    session: Session,
    code: str,
    quantity: str | None,
    method: str,
    gross: str | None,
    density: str | None,
    tare: str | None,
    evaporated: bool,
    empty: bool,
    day: str | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Book what was found in a lot. The difference is booked; what was booked before stays.

    Example: stockroom count L001W "430 mL"; or by weight: stockroom count L001W --gross "812 g"
    """
    from stockroom.actions.counting import count as book_count
    from stockroom.cli.told import say_kept_counts

    if tare is not None:
        if quantity or gross or empty or evaporated or density or dry_run:
            raise BadInput("--tare keeps what the empty container weighs: give it alone, then --gross.")
        _keep_tare(session, code, tare, day)
        return
    counting = book_count(
        session.store,
        session.occasion(day, why),
        code,
        quantity,
        method=method,
        evaporated=evaporated,
        empty=empty,
        gross=gross,
        density=density,
        dry_run=dry_run,
    )
    session.document(_count_document(session, counting))
    session.say(
        f"{counting.name} ({counting.code}): {show(counting.counted)} found{' (not booked)' if dry_run else ''}."
    )
    if counting.weighed:
        _say_weighed(session, counting.weighed, counting.counted)
    session.say(_difference_words(counting.difference, counting.books_said))
    if counting.action and counting.counted.quanta >= 2 * counting.books_said.quanta > 0:
        session.say(f"If that was mistyped: stockroom undo {counting.action} --why mistyped")
    if counting.value:
        session.say(f"Wasted: {show_money(-counting.value, session.currency)}.")
    if counting.strength and evaporated:
        session.say(f"Strength: {counting.strength}.")
    if counting.ended:
        session.say("It has ended: take its label off.")
    say_kept_counts(session, counting.reworked)
    if counting.action:
        session.say(f"Action {counting.action}.")


def _count_document(session: Session, counting: Counting) -> dict[str, Any]:
    return {
        "action": counting.action,
        "code": counting.code,
        **_amounts(counting.counted, counting.books_said),
        "value": money_text(counting.value, session.currency),
        "currency": session.currency,
        "ended": counting.ended,
        "strength": counting.strength,
        **({"weighed": _weighed_document(counting.weighed)} if counting.weighed else {}),
        "reworked": [one.count.code for one in counting.reworked],
    }


def _keep_tare(session: Session, code: str, typed: str, day: str | None) -> None:
    from stockroom.actions.weighing import set_tare

    lot, tare = set_tare(session.store, session.occasion(day), code, typed)
    mass = Quantity(Dimension.MASS, tare.mass_ug)
    session.document(
        {"code": lot.code, "tare": amount_text(mass)[0], "unit": "g", "day": tare.day, "by": tare.initials}
    )
    session.say(f"{lot.code}  {lot.material.name}: its empty container weighs {show(mass)}.")


def _weighed_document(weighed: Weighed) -> dict[str, Any]:
    unit = amount_text(weighed.best)[1]
    low, high = ends_document(weighed.low, weighed.high)
    tare = Quantity(Dimension.MASS, weighed.tare.mass_ug)
    return {
        "gross_g": amount_text(weighed.gross)[0],
        "tare_g": amount_text(tare)[0],
        "low": low,
        "best": float(amount_text(weighed.best)[0]),
        "high": high,
        "unit": unit,
        "grounds": list(weighed.grounds),
    }


def _say_weighed(session: Session, weighed: Weighed, counted: Quantity) -> None:
    from stockroom.science.measuring import show_between

    for ground in weighed.grounds:
        session.say(f"  {ground}")
    as_booked = "" if counted == weighed.best else "; that cannot be told from what the books say, which stays"
    session.say(f"  so {show_between(weighed.low, weighed.high)}{as_booked}.")


def _amounts(counted: Quantity, books_said: Quantity) -> dict[str, str]:
    amount, unit = amount_text(counted)
    difference = amount_text(counted - books_said)[0]
    return {"counted": amount, "books_said": amount_text(books_said)[0], "difference": difference, "unit": unit}


def _difference_words(difference: Quantity, books_said: Quantity) -> str:
    if not difference.quanta:
        return "The books say the same."
    size = show(difference if difference.quanta > 0 else -difference)
    return f"The books said {show(books_said)}: {size} {'more' if difference.quanta > 0 else 'less'}."


@click.command("stock-take")
@click.argument("place")
@click.option(
    "--seen",
    metavar="CODE[=QTY]",
    multiple=True,
    help="A lot that is here, and how much, or 'CODE=gross 812 g'; without it as the books say.",
)
@click.option("--hide", is_flag=True, help="Hide the books' amounts while counting.")
@click.option("--confirm", is_flag=True, help="Book the round: counts, places, and what is to be looked for.")
@click.option("--drop", is_flag=True, help="End the round; book nothing.")
@click.option("--method", type=click.Choice(METHODS), default="measured", help="How it was counted.")
@booking_options
@json_option
@click.pass_obj
def stock_take(
    session: Session,
    place: str,
    seen: tuple[str, ...],
    hide: bool,
    confirm: bool,
    drop: bool,
    method: str,
    day: str | None,
    why: str | None,
    dry_run: bool,
) -> None:
    """Count what is at a place, in as many sittings as it takes; then confirm the differences once.

    Example: stockroom stock-take "Bench shelf" --seen "L001W=430 mL" --seen L0022
    """
    from stockroom.actions import stock_taking

    if drop and (confirm or seen or dry_run):
        raise BadInput("--drop ends the round as it is: give it alone.")
    if dry_run and (seen or not confirm):
        raise BadInput("--dry-run shows what --confirm would book. Without --confirm nothing is booked.")
    occasion = session.occasion(day, why)
    if drop:
        page = stock_taking.drop_round(session.store, place)
    else:
        page = None
        if seen or not confirm:
            page = stock_taking.go_round(session.store, occasion, place, seen)
        if confirm:
            page = stock_taking.confirm_round(session.store, occasion, place, method=method, dry_run=dry_run)
    if page is not None:
        session.document(_round_document(session, page, hide))
        _say_round(session, page, hide)


def _round_document(session: Session, page: StockTake, hide: bool) -> dict[str, Any]:
    hidden = hide and page.state == "open"

    def line(one: Seen) -> dict[str, Any]:
        amounts: dict[str, Any] = dict(_amounts(one.counted, one.books_said))
        if hidden:
            amounts["books_said"] = amounts["difference"] = None
        if one.between:
            amounts["weighed"] = dict(zip(("low", "high"), ends_document(*one.between), strict=True))
        return {"code": one.code, "name": one.name, **amounts, "elsewhere": one.elsewhere}

    return {
        "action": page.action,
        "round": page.round,
        "place": page.place,
        "state": page.state,
        "seen": [line(one) for one in page.seen],
        "not_seen": [
            {
                "code": one.code,
                "name": one.name,
                "books_say": None if hidden else amount_text(one.books_say)[0],
                "unit": amount_text(one.books_say)[1],
            }
            for one in page.not_seen
        ],
        "elsewhere": [one.code for one in page.elsewhere],
        "more": [] if hidden else [one.code for one in page.more],
        "less": [] if hidden else [one.code for one in page.less],
        "agree": None if hidden else _agreeing(page),
        "value": money_text(page.value, session.currency),
        "currency": session.currency,
    }


def _say_round(session: Session, page: StockTake, hide: bool) -> None:
    session.say(f"Stock-take {page.round} at {page.place}: {page.state}, {len(page.seen)} seen.")
    hidden = hide and page.state == "open"
    if hidden:
        for seen in page.seen:
            session.say(f"  seen      {seen.code}  {seen.name}: {show(seen.counted)}{_by_weight(seen)}")
    for missing in page.not_seen:
        said = "" if hidden else f", {show(missing.books_say)} by the books"
        session.say(f"  not seen  {missing.code}  {missing.name}{said}")
    for found in page.elsewhere:
        session.say(f"  here      {found.code}  {found.name}: {found.elsewhere}")
    for sign, lines in () if hidden else (("more", page.more), ("less", page.less)):
        for one in lines:
            said = _difference_words(one.difference, one.books_said)
            session.say(f"  {sign}      {one.code}  {one.name}: {show(one.counted)} found{_by_weight(one)}. {said}")
    if page.state == "open":
        session.say("Go on with --seen CODE=QTY; book it with --confirm; what was not seen is then looked for.")
    elif page.action:
        session.say(
            f"Booked as {page.action}. {_agreeing(page)} of {len(page.seen)} as the books said, within 5 %."
            + (f" Wasted: {show_money(-page.value, session.currency)}." if page.value else "")
        )


def _agreeing(page: StockTake) -> int:
    """Return how many of the lots seen hold what the books said, within what is usual."""
    return agreeing((one.books_said.quanta, one.counted.quanta) for one in page.seen)


def _by_weight(seen: Seen) -> str:
    if seen.between is None:
        return ""
    from stockroom.science.measuring import show_between

    return f" (by weight {show_between(*seen.between)})"
