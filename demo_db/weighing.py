"""What the demo studio weighed once and relies on since: a spoon's fill, an empty bottle."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from stockroom.actions.measures import weigh_spoon
from stockroom.actions.weighing import set_tare
from stockroom.domain.occasion import Occasion
from stockroom.store.open import Store

Play = Callable[[dict[str, Any], Occasion], str | None]


def weighing_plays(store: Store, names: Mapping[str, str]) -> dict[str, Play]:
    """Return what plays the events `weigh-spoon` and `tare`; `names` are the lots named so far."""

    def weigh(event: dict[str, Any], occasion: Occasion) -> None:
        weigh_spoon(store, occasion, event["spoon"], event["material"], event["masses"])

    def tare(event: dict[str, Any], occasion: Occasion) -> None:
        set_tare(store, occasion, names[event["lot"]], event["mass"])

    return {"weigh-spoon": weigh, "tare": tare}
