"""Files for the person at the screen: among their downloads, or through the browser to where they sit."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from stockroom.progress import Progress
from stockroom.store.open import Store

if TYPE_CHECKING:
    from stockroom.tui.app import StockroomApp


async def hand_over(app: StockroomApp, name: str, write: Callable[[Store, Path], object]) -> None:
    """Write a file and hand it over; what went wrong is told. No file is written over.

    `write` may take long: keys go on being answered. In a browser the file is a download, and nothing of it stays here.
    """
    if app.is_web:
        await _as_download(app, name, write)
        return

    def run(store: Store, progress: Progress) -> Path:
        from platformdirs import user_downloads_path

        folder = user_downloads_path()
        folder.mkdir(parents=True, exist_ok=True)
        path = free_path(folder, name)
        write(store, path)
        return path

    path = await app.take_long(f"writing {name}", run)
    if path is not None:
        app.notify(f"Saved as {path}.", markup=False)


async def _as_download(app: StockroomApp, name: str, write: Callable[[Store, Path], object]) -> None:
    def run(store: Store, progress: Progress) -> bytes:
        with TemporaryDirectory(prefix="stockroom-") as folder:
            path = Path(folder) / name
            write(store, path)
            return path.read_bytes()

    content = await app.take_long(f"writing {name}", run)
    if content is not None:
        app.deliver_binary(BytesIO(content), save_filename=name, open_method="download")


def free_path(folder: Path, name: str) -> Path:
    """Return a path in a folder that is not taken: `order.pdf`, else `order-2.pdf` and so on."""
    path, number = folder / name, 2
    while path.exists():
        path = folder / f"{Path(name).stem}-{number}{Path(name).suffix}"
        number += 1
    return path
