"""The everyday tasks take few keys: at most 12 beyond the text that is typed, from the opening screen."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from stockroom.actions.materials import edit_material
from stockroom.actions.offers import Asked, new_offer
from stockroom.actions.suppliers import new_supplier
from stockroom.actions.taking import take
from stockroom.domain.occasion import Occasion
from stockroom.store.lots import shelf
from stockroom.store.open import Store
from stockroom.store.orders import all_orders

MOST = 12


class Keys:
    """Counts the keys pressed; what is typed as text does not count."""

    def __init__(self, shown) -> None:  # type: ignore[no-untyped-def]
        self.shown, self.pressed = shown, 0

    async def press(self, *keys: str) -> None:
        self.pressed += len(keys)
        await self.shown.press(*keys)

    async def type(self, text: str) -> None:
        await self.shown.press(*({" ": "space"}.get(letter, letter) for letter in text))


async def test_making_a_jar_and_saving_its_label(screens, stocked, store: Store, tmp_path: Path) -> None:
    async with screens() as shown:
        keys = Keys(shown)
        await keys.press("f4", "enter")
        await shown.sees("Recipe?")
        await keys.type("saturated calcium")
        await shown.sees("1 of ")
        await keys.press("enter")
        await shown.until(lambda: not shown.screen.is_modal, "the recipe to be taken")
        await keys.type("500mL")
        await shown.sees("1 jar: 500 mL")
        await keys.press("enter")
        await shown.sees("b Book it")
        await keys.press("b")
        await shown.sees("Made:", "l shows its label")
        await keys.press("l")
        await shown.sees("Label of L")
        await keys.press("s")
        await shown.sees("Saved as")
        await shown.press("enter", "enter")
    assert keys.pressed <= MOST
    assert len(shelf(store, "solution")) == 2
    assert list((tmp_path / "home").rglob("label-*.pdf"))


async def test_finding_out_what_to_remake_and_beginning_it(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    take(store, occasion(), stocked["jar"], "1 L", reason="test")
    async with screens() as shown:
        keys = Keys(shown)
        await shown.sees("! solid only", "only the solid is left")  # it stands there as the screens open
        while stocked["jar"] not in shown.screen.marked.words.plain:
            await keys.press("down")
        await keys.press("enter")
        await shown.sees("Top up with water", stocked["jar"])
    assert keys.pressed <= MOST


async def test_what_a_job_cost(screens, stocked, store: Store, occasion: Callable[..., Occasion]) -> None:
    take(store, occasion(), stocked["lime"], "100 g", job=stocked["job"])
    async with screens() as shown:
        keys = Keys(shown)
        await keys.press("f7")
        await shown.sees("1 job")
        await keys.type("harbour")
        await keys.press("enter")
        await shown.sees("materials 3.78 EUR in all")
    assert keys.pressed <= MOST


async def test_reordering_what_is_low(screens, stocked, store: Store, occasion: Callable[..., Occasion]) -> None:
    new_supplier(store, "Laboratory", delivery=5)
    new_offer(
        store, occasion(), Asked(supplier="Laboratory", material="calcium-hydroxide", pack="500 g", price="12.90")
    )
    edit_material(store, occasion(), "calcium-hydroxide", {"low": "600 g"})
    async with screens() as shown:
        keys = Keys(shown)
        await keys.press("f9")
        await shown.sees("1 thing, 12.90 EUR")
        await keys.press("o")
        await shown.sees("Draft these orders?")
        await keys.press("b")
        await shown.sees("p Placed")
        await keys.press("p")
        await shown.sees("Note that an order was placed", "2026-11-30")
        await keys.press("ctrl+s")
        await shown.sees("b Book it")
        await keys.press("b")
        await shown.sees("is placed")
        await shown.press("enter")
    assert keys.pressed <= MOST
    assert [order.state for order in all_orders(store)] == ["placed"]
