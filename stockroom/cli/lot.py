"""`stockroom lot`: all about one lot."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

import click

from stockroom.actions.lot_page import LotLink, LotPage, lot_page
from stockroom.actions.shelf_lines import ShelfLine
from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.cli.shelf import lot_document
from stockroom.cli.told_jar import jar_document, jar_lines, remake_lines
from stockroom.domain.sizes import show_sheet, show_size
from stockroom.domain.studio import Tare
from stockroom.planning.fitness import spoken
from stockroom.science.money import money_text, show_money
from stockroom.science.quantities import Dimension, Quantity, amount_and_unit, amount_text, show

if TYPE_CHECKING:
    from stockroom.actions.filling import Enough


@click.command()
@click.argument("code")
@click.option("--temperature", metavar="'22 °C'", help="A jar over solid: how strong it is at that temperature now.")
@click.option("--sources", is_flag=True, help="List every reference value that its checks rest on, with its source.")
@json_option
@click.pass_obj
def lot(session: Session, code: str, temperature: str | None, sources: bool) -> None:
    """All about one lot: what it holds, whether it is fit, where it came from and where it went."""
    page = lot_page(session.store, code, session.local, temperature=temperature)
    currency = session.currency
    session.document(
        {
            **lot_document(session, ShelfLine(lot=page.lot, fit=page.fit)),
            "currency": currency,
            "received_on": page.lot.received_on,
            "supplier": page.origin.supplier,
            "order": page.origin.order,
            "made_at": page.lot.made_at,
            "size": show_size(page.lot.length_um, page.lot.width_um),
            "grain": page.lot.grain,
            "by": page.lot.initials,
            "ended_on": page.lot.ended_on,
            "ended_why": page.lot.ended_why,
            "history": [
                {
                    "day": line.day,
                    "what": line.what,
                    **amount_and_unit(line.amount),
                    "value": money_text(line.value, currency),
                    "by": line.by,
                    "action": line.action,
                    "reason": line.reason,
                    "in_effect": line.in_effect,
                }
                for line in page.history
            ],
            "made_from": [_link_document(link) for link in page.made_from],
            "went_into": [_link_document(link) for link in page.went_into],
            "jobs": list(page.jobs),
            "tare": _tare_document(page),
            "enough_for": [_enough_document(one) for one in page.enough],
            **jar_document(page),
        }
    )
    for line in told(page, currency, sources=sources):
        session.say(line)


def _link_document(link: LotLink) -> dict[str, Any]:
    return {"code": link.code, "name": link.name, **amount_and_unit(link.amount)}


def told(page: LotPage, currency: str, *, sources: bool = False) -> list[str]:
    """Say all about one lot, a line each: whether and how long it serves first, where it came from and went last.

    With `sources`, every figure that its checks rest on.
    """
    lot = page.lot
    worth = show_money(lot.balance.value, currency) + ("" if lot.cost_known else " at least (a cost is not known)")
    lines = [
        f"{lot.code}  {lot.material.name}",
        f"  holds     {lot.amount_words}, worth {worth}",
        f"  fit       {'yes' if page.fit.fit else 'NO'}: {page.fit.why}",
    ]
    lines += [f"  strength  {lot.strength}"] if lot.strength else []
    lines += remake_lines(page)
    lines += [f"  enough    {one.words()}" for one in page.enough]
    facts = {
        "purity": lot.purity,
        "sheet": show_sheet(lot.length_um, lot.width_um, lot.grain),
        "made": lot.made_at and spoken(lot.made_at),
        "received": lot.received_on,
        "from": page.origin.words,
        "maker's lot": lot.maker_lot,
        "opened": lot.opened_on,
        "use by": lot.use_by and f"{spoken(lot.use_by)} ({lot.use_by_rule or 'as given'})",
        "check by": lot.check_by and _ruled(spoken(lot.check_by), "its recipe: every", page.recipe.check_every),
        "ready": lot.ready_on and _ruled(spoken(lot.ready_on), "its recipe: after", page.recipe.ready_after),
        "place": lot.place,
        "inside": lot.kind == "waste can" and f"'stockroom waste-can show {lot.code}' tells what is in it",
        "look for": lot.look_for,
        "tare": page.tare and _tare_words(page.tare),
        "by": lot.initials,
    }
    lines += [f"  {name:9} {value}" for name, value in facts.items() if value]
    lines += jar_lines(page, sources=sources)
    lines += [f"  made from {show(link.amount)} of {link.name} ({link.code})" for link in page.made_from]
    lines += [f"  went into {words}" for words in _went_into(page.went_into)]
    if page.jobs:
        lines.append(f"  used for  {', '.join(page.jobs)}")
    lines.append("  history")
    for line in page.history:
        moved = "" if not line.amount.quanta else f"{'+' if line.amount.quanta > 0 else '−'}{_size(line.amount)}"
        reason = f"  {line.reason}" if line.reason else ""
        undone = "  (undone)" if not line.in_effect else ""
        lines.append(f"    {line.day}  {line.what:10} {moved:>12}  {line.by}  {line.action}{reason}{undone}")
    return lines


def _went_into(links: Iterable[LotLink]) -> list[str]:
    """Write what some of a lot went into, a line for each kind of solution: a bottle may have made dozens of jars."""
    by_name: dict[str, list[str]] = {}
    for link in links:
        by_name.setdefault(link.name, []).append(f"{show(link.amount)} in {link.code}")
    return [f"{name}: {', '.join(parts)}" for name, parts in by_name.items()]


def _tare_document(page: LotPage) -> dict[str, Any] | None:
    if page.tare is None:
        return None
    mass, unit = amount_text(Quantity(Dimension.MASS, page.tare.mass_ug))
    return {"amount": mass, "unit": unit, "day": page.tare.day, "by": page.tare.initials}


def _tare_words(tare: Tare) -> str:
    return f"{show(Quantity(Dimension.MASS, tare.mass_ug))} empty, weighed on {tare.day} by {tare.initials}"


def _enough_document(one: Enough) -> dict[str, Any]:
    return {
        "recipe": one.recipe,
        "fills": one.fills,
        **amount_and_unit(one.fill, "fill"),
        "tray": one.tray,
        "known_from": one.known_from,
    }


def _ruled(day: str, rule: str, life: str | None) -> str:
    return f"{day} ({rule} {life})" if life else day


def _size(amount: Any) -> str:
    return show(-amount if amount.quanta < 0 else amount)
