"""Find what is left of a lot by weighing its container, whose tare is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from stockroom.actions.lots_here import refuse_ended
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion, utc_text
from stockroom.domain.studio import Tare
from stockroom.errors import BadInput, Refused
from stockroom.science.gross import liquid_volume, net_mass, read_weighed, tabled_density, typed_density
from stockroom.science.measuring import to_range
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.ranges import Range, show_range
from stockroom.store.lots import find_lot
from stockroom.store.open import Store
from stockroom.store.weighings import keep_tare, tare_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """What a lot holds by its weight: between `low` and `high`, best rounded to what that allows."""

    gross: Quantity
    tare: Tare
    low: Quantity
    best: Quantity
    high: Quantity
    grounds: tuple[str, ...]
    """What it was worked out from, each said in words."""

    def held(self, books: int) -> int:
        """Return the amount to be booked: what the books say where the weighing cannot tell it from that."""
        return books if self.low.quanta <= books <= self.high.quanta else self.best.quanta

    def details(self) -> dict[str, object]:
        """Return what the action keeps of it."""
        return {
            "gross_ug": self.gross.quanta,
            "tare_ug": self.tare.mass_ug,
            "low": self.low.quanta,
            "best": self.best.quanta,
            "high": self.high.quanta,
            "grounds": list(self.grounds),
        }


def set_tare(store: Store, occasion: Occasion, code: str, typed: str) -> tuple[Lot, Tare]:
    """Keep what a lot's empty container weighs, lid included. Raises Refused for a lot that has ended."""
    mass, _ = read_weighed(typed)
    with store.write() as booked_at:
        lot = find_lot(store, code)
        refuse_ended(lot)
        keep_tare(store, lot.id, mass.quanta, occasion.day.isoformat(), occasion.by, utc_text(booked_at))
    return lot, Tare(mass_ug=mass.quanta, day=occasion.day.isoformat(), initials=occasion.by)


def keep_tares(
    store: Store, occasion: Occasion, booked_at: datetime, codes: Sequence[str], typed: Sequence[str]
) -> None:
    """Keep what the empty containers of lots just begun weigh: one for all alike, or one each; inside `write()`.

    Raises Unreadable, BadInput for another number of them.
    """
    if len(typed) not in (0, 1, len(codes)):
        raise BadInput(f"{len(typed)} tares for {len(codes)} containers: give --tare once for all, or once for each.")
    masses = [read_weighed(one)[0].quanta for one in typed]
    for code, mass in zip(codes, masses * len(codes) if len(masses) == 1 else masses, strict=False):
        lot = find_lot(store, code)
        keep_tare(store, lot.id, mass, occasion.day.isoformat(), occasion.by, utc_text(booked_at))


def weigh_lot(store: Store, lot: Lot, gross: str, density: str | None = None) -> Weighed:
    """Work out what a lot holds from its gross weight.

    Raises Refused where its tare is not kept, it is not measured by mass or volume, or nobody can say how much of it
    is undissolved solid; BadInput where no density is known, or the weight is no more than the tare.
    """
    dimension = lot.material.dimension
    if dimension not in (Dimension.MASS, Dimension.VOLUME):
        raise Refused(f"{lot.code} ({lot.material.name}) is measured by {dimension.value}: weighing it says nothing.")
    tare = tare_of(store, lot.id)
    if tare is None:
        raise Refused(
            f"What the empty container of {lot.code} weighs is not kept. Weigh an alike one with its lid: "
            f"stockroom count {lot.code} --tare '310 g'.",
            lot=lot.code,
        )
    mass, step = read_weighed(gross)
    net = net_mass(mass.quanta, tare.mass_ug, step)
    shown_step = show(Quantity(Dimension.MASS, step))
    empty = show(Quantity(Dimension.MASS, tare.mass_ug))
    grounds = [
        f"gross {show(mass)} less tare {empty} ({tare.day}, {tare.initials}), each good to {shown_step}: "
        f"{show_range(net)}"
    ]
    if dimension is Dimension.MASS:
        if density is not None:
            raise BadInput(f"{lot.material.name} is measured by mass: it needs no --density.")
        return _weighed(mass, tare, dimension, net, 1_000_000, grounds)
    solid, settled = _solid(store, lot)
    used, ground = _density(lot, density, settled)
    grounds.append(ground)
    if solid is not None:
        grounds.append(f"less the solid in it, {show_range(solid)} by the books")
    return _weighed(mass, tare, dimension, liquid_volume(net, used, solid), 1_000, grounds)


def _weighed(
    gross: Quantity, tare: Tare, dimension: Dimension, found: Range, quanta: int, grounds: list[str]
) -> Weighed:
    low, best, high = (round(value * quanta) for value in (found.low, found.best, found.high))
    return Weighed(
        gross=gross,
        tare=tare,
        low=Quantity(dimension, low),
        best=Quantity(dimension, to_range(best, (high - low) // 2)),
        high=Quantity(dimension, high),
        grounds=tuple(grounds),
    )


def _solid(store: Store, lot: Lot) -> tuple[Range | None, float | None]:
    """Return the undissolved solid in grams and the temperature it settled at; None for a jar without any."""
    if not lot.over_solid:
        return None, None
    from stockroom.actions.jar_balance import jar_balance

    try:
        found = jar_balance(store, lot)
    except (Refused, BadInput) as unknown:
        raise Refused(
            f"{lot.code} ({lot.material.name}) stands over solid that weighs with it, and the books cannot say how "
            f"much: {unknown.message} Measure its liquid instead.",
            lot=lot.code,
        ) from unknown
    return found.balance.undissolved, found.celsius


def _density(lot: Lot, typed: str | None, settled: float | None) -> tuple[Range, str]:
    if typed is not None:
        used = typed_density(typed)
        return used, f"density as given, {show_range(used)}"
    if lot.material.liquid_density is not None:
        used = tabled_density(float(lot.material.liquid_density))
        return used, f"density of {lot.material.key}, {show_range(used)}; its source is kept with the material"
    if settled is not None:
        from stockroom.science.temperature import water_density

        used = tabled_density(water_density(settled)[0])
        return used, f"density of water at {settled:g} °C, what is dissolved included: {show_range(used)}"
    raise BadInput(
        f"The density of {lot.material.name} is not known. Say --density '1.02 g/mL', or keep it with "
        f"'stockroom material edit {lot.material.key} --density'."
    )
