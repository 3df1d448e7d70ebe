"""`receive --order`: goods against an order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from stockroom.actions.arrivals import Came
from stockroom.actions.delivering import ReceivedOrder, receive_order
from stockroom.cli.session import Session
from stockroom.cli.told import say_not_booked
from stockroom.domain.occasion import Occasion
from stockroom.errors import BadInput
from stockroom.planning.fitness import spoken
from stockroom.science.money import money_text, read_money, show_money
from stockroom.science.quantities import amount_and_unit, show

_FOR_ALL = ("place",)
"""What may be said once for all lines."""


def receive_against(
    session: Session,
    order: str,
    lines: Sequence[str],
    freight: str | None,
    more: bool,
    occasion: Occasion,
    *,
    dry_run: bool,
    told: Mapping[str, Any],
) -> None:
    """Read what came, book it in and tell it."""
    if told["tare"]:
        raise BadInput("--tare is for what comes without an order: stockroom count CODE --tare keeps it afterwards.")
    if told["found"] or told["supplier"] or told["opened_before"]:
        raise BadInput(
            "--found, --supplier and --opened-before do not belong to an order: it says where it comes from."
        )
    came = receive_order(
        session.store,
        occasion,
        order,
        _came(session, order, lines, told),
        freight=read_money(freight, session.currency) if freight is not None else 0,
        more=more,
        dry_run=dry_run,
    )
    session.document(_document(came, session.currency))
    _say(session, came)


def _came(session: Session, order: str, lines: Sequence[str], told: Mapping[str, Any]) -> list[Came]:
    """Read the lines that came, each with what is said of it."""
    named: dict[str, str | None] = {}
    for text in lines:
        line, sign, quantity = text.partition("=")
        if not sign or not line.strip() or not quantity.strip():
            raise BadInput(f"'{text}' is not a line that came. Write it like 'ethanol=2 x 1 L'.")
        if line.strip() in named:
            raise BadInput(f"'{line.strip()}' is told twice. Tell all that came of it at once.")
        named[line.strip()] = quantity.strip()
    if told["material"] is not None:
        if lines:
            raise BadInput("Tell what came either as MATERIAL QTY or with --line for each line, not both.")
        named[told["material"]] = told["quantity"]
    said = [name for name in ("cost", "lot_number", "use_by", "place", "purity", "strength") if told[name]]
    if not named and (said or told["as_one"]):
        from stockroom.store.orders import find_order

        open_lines = [line for line in find_order(session.store, order).lines if line.open]
        keys = [line.offer.material.key for line in open_lines]
        named = {
            line.offer.material.key if keys.count(line.offer.material.key) == 1 else str(line.position): None
            for line in open_lines
        }
    if not named:
        return []
    values = {name: _by_line(name, told[name], list(named)) for name in said}
    return [
        Came(
            line=line,
            quantity=quantity,
            cost=_money(values.get("cost", {}).get(line), session.currency),
            **{
                name: values.get(name, {}).get(line) for name in ("lot_number", "use_by", "place", "purity", "strength")
            },
            as_one=told["as_one"],
        )
        for line, quantity in named.items()
    ]


def _by_line(name: str, typed: Sequence[str], lines: Sequence[str]) -> dict[str, str]:
    """Return what an option says of each line: `ethanol=7731`; alone where one line came."""
    option = f"--{name.replace('_', '-')}"
    found: dict[str, str] = {}
    for text in typed:
        line, sign, value = text.partition("=")
        if sign and line.strip() in lines:
            found[line.strip()] = value.strip()
        elif len(lines) == 1 and len(typed) == 1:
            found[lines[0]] = text
        elif name in _FOR_ALL and len(typed) == 1:
            found |= dict.fromkeys(lines, text)
        else:
            raise BadInput(f"{option} '{text}': of which line? Write it like {option} '{lines[0]}={text}'.")
    return found


def _money(typed: str | None, currency: str) -> int | None:
    return None if typed is None else read_money(typed, currency)


def _document(came: ReceivedOrder, currency: str) -> dict[str, Any]:
    codes = [lot.code for lot in came.lots]
    return {
        "action": came.action,
        "order": came.order,
        "state": came.state,
        "code": codes[0],
        "codes": codes,
        "cost": money_text(came.value, currency),
        "currency": currency,
        "freight": money_text(sum(lot.freight for lot in came.lots), currency),
        "lots": [
            {
                "code": lot.code,
                "line": lot.line,
                "material": lot.material,
                **amount_and_unit(lot.quantity),
                "cost": money_text(lot.value, currency),
                "freight": money_text(lot.freight, currency),
                "use_by": lot.use_by,
            }
            for lot in came.lots
        ],
        "open": list(came.open),
        "notes": list(came.notes),
    }


def _say(session: Session, came: ReceivedOrder) -> None:
    for lot in came.lots:
        freight = f", {show_money(lot.freight, session.currency)} of it freight" if lot.freight else ""
        until = f", use by {spoken(lot.use_by)}" if lot.use_by else ""
        worth = show_money(lot.value, session.currency)
        session.say(f"{lot.code or 'would be received'}  {lot.name}: {show(lot.quantity)}, {worth}{freight}{until}")
    still = f"still to come: {'; '.join(came.open)}" if came.open else "nothing more to come"
    session.say(f"{came.order} is {came.state}: {still}.")
    for note in came.notes:
        session.warn(note)
    if came.action:
        codes = " ".join(lot.code or "" for lot in came.lots)
        session.say(f"Action {came.action}. Labels: stockroom label {codes}")
    else:
        say_not_booked(session, None)
