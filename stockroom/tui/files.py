"""Files for the person at the screen: among their downloads, or through the browser to where they sit."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from stockroom.store.open import Store

if TYPE_CHECKING:
    from stockroom.tui.app import StockroomApp


async def hand_over(app: StockroomApp, name: str, write: Callable[[Store, Path], object]) -> Path | None:
    """Write a file and hand it over; no file is written over. None where it could not be written, which is told.

    `write` is work for the thread of the database. In a browser the file is a download, and nothing of it stays here.
    """
    in_browser = app.is_web

    def run(store: Store) -> Path:
        path = free_path(_folder(in_browser), name)
        write(store, path)
        return path

    path = await app.ask_database(run)
    if path is None:
        return None
    if in_browser:
        app.deliver_binary(path)
    else:
        app.notify(f"Saved as {path}.", markup=False)
    return path


def free_path(folder: Path, name: str) -> Path:
    """Return a path in a folder that is not taken: `order.pdf`, else `order-2.pdf` and so on."""
    path, number = folder / name, 2
    while path.exists():
        path = folder / f"{Path(name).stem}-{number}{Path(name).suffix}"
        number += 1
    return path


def _folder(in_browser: bool) -> Path:
    if in_browser:
        from tempfile import mkdtemp

        return Path(mkdtemp(prefix="stockroom-"))
    from platformdirs import user_downloads_path

    folder = user_downloads_path()
    folder.mkdir(parents=True, exist_ok=True)
    return folder
