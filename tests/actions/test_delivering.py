"""Orders against their deliveries: the laws that hold for any of them."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from decimal import Decimal
from itertools import pairwise

from builders import ZONE
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.actions.arrivals import Came
from stockroom.actions.delivering import receive_order
from stockroom.actions.offers import Asked, new_offer
from stockroom.actions.ordering import add_line, draft_order, place_order
from stockroom.actions.suppliers import new_supplier
from stockroom.actions.undoing import undo
from stockroom.actions.verifying import verify
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.orders import Offer, OrderLine, share_freight
from stockroom.domain.studio import Supplier
from stockroom.science.quantities import Dimension
from stockroom.store.open import Store
from stockroom.store.orders import find_order
from stockroom.store.verification import sums

MOMENT = datetime(2026, 3, 2, 12, tzinfo=ZONE).astimezone(UTC)
GOODS = ("ethanol", "acetone", "isopropanol")


def at_noon(why: str | None = None) -> Occasion:
    return Occasion(by="AB", now=MOMENT, at=MOMENT, zone=ZONE, reason=why)


@settings(max_examples=25)
@given(
    lines=st.lists(st.tuples(st.integers(1, 7), st.integers(0, 5_000), st.booleans()), min_size=1, max_size=3),
    parts=st.lists(st.integers(1, 6), max_size=3),
    freights=st.lists(st.integers(0, 999), min_size=4, max_size=4),
)
def test_what_came_of_any_order_costs_what_was_ordered_to_the_cent(
    new_store: Callable[[], Store], lines: list[tuple[int, int, bool]], parts: list[int], freights: list[int]
) -> None:
    """However it is split over deliveries, in whichever currency, with whatever freight; and undoing takes it back."""
    store = new_store()
    new_supplier(store, "Harbour stores")
    order = draft_order(store, at_noon(), "Harbour stores")
    for material, (packs, price, foreign) in zip(GOODS, lines, strict=False):
        abroad = {"currency": "JPY", "rate": "0.0061"} if foreign else {}
        typed = str(price) if foreign else f"{price / 100:.2f}"
        new_offer(store, at_noon(), Asked(supplier="harbour", material=material, pack="1 L", price=typed, **abroad))
        add_line(store, at_noon(), order.code, material, packs)
    placed = place_order(store, at_noon(), order.code).order
    actions = []
    for litres, freight in zip(parts, freights, strict=False):
        line = next(line for line in find_order(store, order.code).lines if line.open)
        came = Came(line=str(line.position), quantity=f"{min(litres * 300_000, line.open) / 1000} mL")
        actions.append(receive_order(store, at_noon(), order.code, [came], freight=freight))
        if not find_order(store, order.code).open:
            break
    if find_order(store, order.code).open:
        actions.append(receive_order(store, at_noon(), order.code, freight=freights[-1]))
    carried = sum(lot.freight for action in actions for lot in action.lots)
    now = find_order(store, order.code)
    assert now.state == "closed"
    assert [line.came for line in now.lines] == [line.ordered for line in placed.lines]
    assert sums(store).bought == placed.cost + carried == sum(action.value for action in actions)
    assert not verify(store).problems
    for action in reversed(actions):
        undo(store, at_noon("mistyped"), str(action.action))
    assert find_order(store, order.code).state == "placed"
    assert sums(store).bought == 0


@given(
    packs=st.integers(1, 50),
    price=st.integers(0, 100_000),
    rate=st.decimals("0.001", "1000", places=4),
    cuts=st.lists(st.integers(1, 49_999), max_size=8),
)
def test_parts_of_a_line_cost_what_the_line_costs(packs: int, price: int, rate: Decimal, cuts: list[int]) -> None:
    """No part costs less than nothing, and together they cost the line, whatever it is cut into."""
    stuff = Material(key="stuff", name="Stuff", kind="reagent", dimension=Dimension.VOLUME)
    offer = Offer(
        supplier=Supplier(id=1, key="s", name="S"), material=stuff, pack_quanta=1_000, price=price, currency="USD",
        own_currency="EUR", rate=rate,
    )  # fmt: skip
    line = OrderLine(position=1, offer=offer, packs=packs, price=price)
    edges = sorted({0, line.ordered, *(cut for cut in cuts if cut < line.ordered)})
    costs = []
    for start, end in pairwise(edges):
        came = OrderLine(position=1, offer=offer, packs=packs, price=price, came=start)
        costs.append(came.cost_of(end - start))
    assert min(costs) >= 0
    assert sum(costs) == line.cost


def test_freight_goes_by_value_then_by_quantity_then_evenly() -> None:
    """By hand; where nothing has a value and litres lie beside sheets, only the lots can be counted."""
    assert share_freight(100, [3000, 1000, 0], [1, 1, 1], True) == [75, 25, 0]
    assert share_freight(100, [0, 0], [300, 100], True) == [75, 25]
    assert share_freight(100, [0, 0], [300, 100], False) == [50, 50]
    assert share_freight(0, [0], [5], True) == [0]
