"""What a treatment is expected to cost: from the lots it would be drawn from, else from offers, else by its recipe."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from stockroom.domain.ledger import Tally
from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.domain.orders import Offer
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput
from stockroom.planning.picking import Held, pick
from stockroom.planning.purities import measured_factor
from stockroom.planning.requirements import Book, Need, Scale, needs_of
from stockroom.science.quantities import Quantity
from stockroom.science.sharing import round_half_even_ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """So much of one material, where it would come from, and what it would cost."""

    material: Material
    quantity: int
    """Quanta; nothing where it is measured to a reading and known only afterwards."""
    value: int | None
    """Minor units; None where no price is known."""
    priced_by: str
    """Where the price is from, in words."""
    lot: int | None = None
    """The lot it would be drawn from; None where it is still to be bought or made."""
    complete: bool = True
    """False where part of the cost is not known, so that the value is "at least"."""


class Estimator:
    """Draws in thought from a shelf, one need after the other, by the ledger's own prices; nothing is booked."""

    def __init__(self, lots: Sequence[Lot], offers: Sequence[Offer], made: Mapping[int, Recipe], book: Book) -> None:
        self._tally = Tally({lot.id: lot.balance for lot in lots})
        self._lots: dict[int, list[Lot]] = defaultdict(list)
        for lot in lots:
            self._lots[lot.material.id].append(lot)
        self._offers: dict[int, Offer] = {}
        for offer in sorted(offers, key=lambda one: (one.in_own(one.price) / one.pack_quanta, one.id), reverse=True):
            self._offers[offer.material.id] = offer
        self._made, self._book = made, book

    def expect(self, needs: Sequence[Need], local: datetime) -> list[Expected]:
        """Return what needs would take at a local moment, and what it would cost; what is not metered costs nothing."""
        return [each for need in needs if need.material.metered for each in self._meet(need, local, ())]

    def _meet(self, need: Need, local: datetime, inside: tuple[int, ...]) -> list[Expected]:
        material, total = need.material, need.total
        if total is None:
            words = "measured to a reading: known only afterwards"
            return [Expected(material=material, quantity=0, value=None, priced_by=words, complete=False)]
        if not total.quanta:
            return []
        held = [Held(lot=lot, available=self._tally.balance(lot.id).quantity) for lot in self._lots[material.id]]
        picked = pick(held, total.quanta, local, factor=measured_factor(need))
        found = [
            Expected(
                material=material,
                quantity=draw.quantity,
                value=self._tally.draw(draw.lot.id, draw.quantity),
                priced_by=draw.lot.code,
                lot=draw.lot.id,
                complete=draw.lot.cost_known,
            )
            for draw in picked.draws
        ]
        return [*found, self._missing(material, picked.missing, local, inside)] if picked.missing else found

    def _missing(self, material: Material, quanta: int, local: datetime, inside: tuple[int, ...]) -> Expected:
        """Price what is not on the shelf: by the recipe that makes it, the cheapest offer, or the newest lot."""
        recipe, offer = self._made.get(material.id), self._offers.get(material.id)
        if recipe is not None and material.id not in inside:
            return self._to_make(recipe, material, quanta, local, (*inside, material.id))
        if offer is not None:
            value = round_half_even_ratio(offer.in_own(offer.price) * quanta, offer.pack_quanta)
            words = f"offer of {offer.supplier.name}, {offer.pack_words}, seen on {offer.seen_on}"
            return Expected(material=material, quantity=quanta, value=value, priced_by=words)
        priced = [lot for lot in self._lots[material.id] if lot.cost_known and lot.balance.base_quantity]
        if priced:
            newest = max(priced, key=lambda lot: (lot.received_on or lot.made_at or "", lot.id))
            value = round_half_even_ratio(newest.balance.base_value * quanta, newest.balance.base_quantity)
            return Expected(material=material, quantity=quanta, value=value, priced_by=f"as {newest.code} cost")
        return Expected(
            material=material, quantity=quanta, value=None, priced_by="no lot or offer gives a price", complete=False
        )

    def _to_make(
        self, recipe: Recipe, material: Material, quanta: int, local: datetime, inside: tuple[int, ...]
    ) -> Expected:
        words = f"to be made by {recipe.key}"
        try:
            needs = needs_of(recipe, Scale(total=Quantity(material.dimension, quanta)), self._book)
        except BadInput:
            return Expected(material=material, quantity=quanta, value=None, priced_by=words, complete=False)
        parts = [each for need in needs if need.material.metered for each in self._meet(need, local, inside)]
        return Expected(
            material=material,
            quantity=quanta,
            value=sum(each.value or 0 for each in parts),
            priced_by=words,
            complete=all(each.complete for each in parts),
        )
