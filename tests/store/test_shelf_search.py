"""What is on the shelf, found by words that are typed letter by letter."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from stockroom.actions.receiving import Delivery, receive
from stockroom.domain.occasion import Occasion
from stockroom.store.limits import limits_reached
from stockroom.store.lots import ShelfSearch, shelf
from stockroom.store.open import Store


@pytest.fixture
def lots(store: Store, occasion: Callable[..., Occasion]) -> dict[str, int]:
    """Three lots in this test's stockroom; gives their ids by material."""
    for material, place in (("ethanol", "solvent cupboard"), ("citric-acid", "shelf"), ("acetone", "solvent cupboard")):
        receive(store, occasion(), Delivery(material=material, quantity="1 kg", cost=900, place=place))
    return {lot.material.key: lot.id for lot in shelf(store)}


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("", ["acetone", "citric-acid", "ethanol"]),
        ("acetone", ["acetone"]),
        ("SOLVENT  Éthanol", ["ethanol"]),
        ("solvent", ["acetone", "ethanol"]),
        ("solvent citric", []),
    ],
)
def test_it_finds_what_holds_every_word_whatever_of(
    store: Store, lots: dict[str, int], words: str, found: list[str]
) -> None:
    assert ShelfSearch(store).find(words) == [lots[material] for material in found]
    assert [lot.id for lot in shelf(store, words)] == [lots[material] for material in found]
    assert [lot.id for lot in shelf(store, words, limit=1)] == [lots[material] for material in found[:1]]


def test_a_kept_search_sees_what_was_changed_and_forgets_what_was_taken_back(
    store: Store, lots: dict[str, int], occasion: Callable[..., Occasion]
) -> None:
    search = ShelfSearch(store)
    assert search.find("solvent") == [lots["acetone"], lots["ethanol"]]
    with pytest.raises(RuntimeError), store.write():
        store.run("UPDATE lot SET strength = 'solvent 7' WHERE id = :id", id=lots["citric-acid"])
        assert lots["citric-acid"] in search.find("solvent")
        raise RuntimeError("not wanted after all")
    assert search.find("solvent") == [lots["acetone"], lots["ethanol"]]
    receive(store, occasion(), Delivery(material="acetone", quantity="1 L", cost=900))
    assert len(search.find("acetone")) == 2


def test_only_minutes_at_which_a_lot_changes_by_itself_are_limits(store: Store, lots: dict[str, int]) -> None:
    with store.write():
        store.run(
            "UPDATE lot SET use_by = '2026-11-25', ready_on = '2026-11-25T14:10' WHERE id = :id", id=lots["acetone"]
        )
        store.run("UPDATE lot SET use_by = '2026-11-25T14:12' WHERE id = :id", id=lots["ethanol"])
    reached = [limits_reached(store, f"2026-11-25T14:{minute}") for minute in ("09", "10", "11", "12", "13", "14")]
    first, last = "2026-11-25T14:10", "2026-11-25T14:12"
    assert reached == [("", ""), (first, ""), (first, first), (last, first), (last, last), (last, last)]
