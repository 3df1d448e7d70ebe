"""Files of the bench book: a recipe for another studio, and the page on which a printer is measured."""

from __future__ import annotations

from pathlib import Path

from stockroom.domain.recipe_files import write_recipe
from stockroom.files import write_whole
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.tui.app import StockroomApp
from stockroom.tui.files import hand_over
from stockroom.tui.forms.own_labels import label_stock_of

_A4_MM = (210, 297)


async def save_thing(app: StockroomApp, noun: str, key: str) -> None:
    """Hand over a recipe as the file that others read, else the page with which printers are measured."""

    def recipe(store: Store, path: Path) -> None:
        write_whole(path, write_recipe(find_recipe(store, key)).encode())

    def ruler(store: Store, path: Path) -> None:
        from stockroom.labels.ruler import draw_ruler_page

        page: tuple[float, float] = _A4_MM
        if noun == "label stock":
            stock = label_stock_of(store, key)
            page = (stock.page_width_um / 1000, stock.page_height_um / 1000)
        write_whole(path, draw_ruler_page(page))

    if noun == "recipe":
        await hand_over(app, f"{key}.toml", recipe)
    else:
        await hand_over(app, "ruler.pdf", ruler)
