"""Reading the symbols on a photograph of labels, with a decoder of its own (the extra `scanning`)."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from stockroom.errors import BadInput, NotFound, Refused

SUFFIXES = (".png", ".jpg", ".jpeg", ".webp", ".bmp", ".tif", ".tiff", ".gif")
_LARGEST_SIDE = 2400
_LEAST_SIDE = 300
_MOST_PIXELS = 80_000_000
"""What a picture unpacks to is not told by its file: a few bytes may hold a picture that fills the memory."""


def read_photograph(path: Path) -> list[str]:
    """Return the texts of all symbols on a picture, top to bottom.

    A blurred or small symbol is tried again larger and sharpened. Raises BadInput for what is no picture, Refused
    without the decoder, NotFound where no symbol can be read.
    """
    if found := read_symbols(_open(path)):
        return found
    raise NotFound(
        f"No symbol on {path.name} can be read. Take it nearer and sharp, or type the code that stands beside it, "
        "with a ? for what cannot be read."
    )


def read_symbols(picture: Any) -> list[str]:
    """Return the texts of all symbols on a picture held in memory, top to bottom; none where none can be read.

    Raises Refused without the decoder.
    """
    try:
        import zxingcpp
    except ImportError as error:
        raise Refused(
            "Reading photographs needs the extra 'scanning': pip install 'stockroom[scanning]'. Or type the code."
        ) from error
    for attempt in _attempts(picture):
        found = zxingcpp.read_barcodes(attempt, formats=zxingcpp.BarcodeFormat.QRCode)  # type: ignore[arg-type, unused-ignore]
        if found:
            placed = sorted(found, key=lambda one: (one.position.top_left.y, one.position.top_left.x))
            return list(dict.fromkeys(one.text for one in placed))
    return []


def _open(path: Path) -> Any:
    import warnings

    from PIL import Image, ImageOps

    if path.exists() and not path.is_file():
        raise BadInput(f"{path} is not a file.")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)  # the size is refused below
            with Image.open(path) as opened:
                if opened.width * opened.height > _MOST_PIXELS:
                    raise Image.DecompressionBombError
                return ImageOps.exif_transpose(opened).convert("L")
    except FileNotFoundError as error:
        raise BadInput(f"There is no picture {path}.") from error
    except Image.DecompressionBombError as error:
        raise BadInput(
            f"{path.name} is too large: at most {_MOST_PIXELS // 1_000_000} million pixels are read. Make it smaller."
        ) from error
    except (OSError, ValueError, SyntaxError) as error:
        raise BadInput(f"{path.name} cannot be opened as a picture ({error}).") from error


def _attempts(picture: Any) -> Iterator[Any]:
    """Give the picture as it is, then larger and sharpened, then smaller: what blur and size need in turn."""
    from PIL import Image, ImageFilter, ImageOps

    yield picture
    side = max(picture.size)
    for times in (2, 3):
        if side * times <= 2 * _LARGEST_SIDE:
            larger = picture.resize((picture.width * times, picture.height * times), Image.Resampling.BICUBIC)
            for strength in (150, 400):
                sharp = larger.filter(ImageFilter.UnsharpMask(radius=2 * times, percent=strength, threshold=0))
                yield ImageOps.autocontrast(sharp)
    while side > 2 * _LEAST_SIDE:
        side //= 2
        smaller = picture.copy()
        smaller.thumbnail((side, side))
        yield ImageOps.autocontrast(smaller)
