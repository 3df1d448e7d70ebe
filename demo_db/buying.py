"""Plays what suppliers ask, what is ordered and what comes of it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from stockroom.actions.arrivals import Came
from stockroom.actions.delivering import receive_order
from stockroom.actions.offers import Asked, new_offer
from stockroom.actions.ordering import add_line, draft_order, place_order
from stockroom.actions.suppliers import edit_supplier
from stockroom.domain.occasion import Occasion
from stockroom.science.money import read_money
from stockroom.store.open import Store

Event = dict[str, Any]
Play = Callable[[Event, Occasion], str | None]


def buying_plays(store: Store, currency: str, suppliers: dict[str, str], names: dict[str, str]) -> dict[str, Play]:
    """Return what plays each kind of event; `suppliers` are names by what the files call them."""

    def supplier(event: Event, occasion: Occasion) -> str | None:
        least = read_money(event["minimum_order"], currency) if "minimum_order" in event else None
        name = suppliers[event["supplier"]]
        edit_supplier(store, occasion, name, delivery=event["delivery_days"], minimum_order=least)
        return None

    def offer(event: Event, occasion: Occasion) -> str | None:
        asked = {name: event[name] for name in ("material", "pack", "price")}
        breaks = tuple(event.get("breaks", ()))
        new_offer(store, occasion, Asked(supplier=suppliers[event["supplier"]], breaks=breaks, **asked))
        return None

    def draft(event: Event, occasion: Occasion) -> str | None:
        code = draft_order(store, occasion, suppliers[event["supplier"]]).code
        for material, packs in event["lines"]:
            add_line(store, occasion, code, material, packs)
        return code

    def order(event: Event, occasion: Occasion) -> str | None:
        code = draft(event, occasion) or ""
        place_order(store, occasion, code)
        return code

    def deliver(event: Event, occasion: Occasion) -> str | None:
        came = Came(line="1", lot_number=event.get("lot_number"))
        return receive_order(store, occasion, names[event["order"]], [came], place=event["place"]).action

    return {"supplier": supplier, "offer": offer, "draft": draft, "order": order, "deliver": deliver}
