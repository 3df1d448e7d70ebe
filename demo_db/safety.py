"""What the demo studio does about safety sheets, waste and recalls."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import timedelta
from typing import Any

from stockroom.actions.discarding import discard
from stockroom.actions.materials import edit_material
from stockroom.actions.waste_cans import new_waste_can
from stockroom.actions.withdrawing import withdraw
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store

Play = Callable[[dict[str, Any], Occasion], str | None]


def safety_plays(store: Store, names: Mapping[str, str]) -> dict[str, Play]:
    """Return what plays `safety-sheet`, `waste-can`, `discard` and `withdraw`; `names` are the lots named so far."""

    def file_sheet(event: dict[str, Any], occasion: Occasion) -> str | None:
        dated = occasion.day - timedelta(days=event["age_days"])
        typed = {"safety_sheet": event["file"], "safety_sheet_date": dated.isoformat()}
        edit_material(store, occasion, event["material"], {**typed, "register": event.get("register")})
        return None

    def begin(event: dict[str, Any], occasion: Occasion) -> str | None:
        return new_waste_can(store, occasion, event["title"], event["capacity"], place=event["place"]).can.lot.code

    def throw_away(event: dict[str, Any], occasion: Occasion) -> str | None:
        return discard(store, occasion, names[event["lot"]], to=names.get(event.get("to", ""))).action

    def recall(event: dict[str, Any], occasion: Occasion) -> str | None:
        return withdraw(store, occasion, maker_lot=event["maker_lot"]).action

    return {"safety-sheet": file_sheet, "waste-can": begin, "discard": throw_away, "withdraw": recall}
