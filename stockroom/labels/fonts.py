"""The label's typeface: where its files are, how wide text is, and what stands for letters it lacks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any, Protocol

REGULAR = "stockroom-regular"
BOLD = "stockroom-bold"
_FAMILY = "IBM Plex Sans Condensed"
_WEIGHTS = {REGULAR: 400, BOLD: 600}

_SAME_SIGN = {
    "μ": "µ",
    "\u2011": "-",
    "\u2126": "ohm",
    "Ω": "ohm",
    "℃": "°C",
    "⁺": "+",
    "⁻": "−",
    "₊": "+",
    "₋": "−",
    "α": "alpha",
    "β": "beta",
    "γ": "gamma",
    "δ": "delta",
}
"""Signs the typeface lacks, with one of the same meaning that it has, or the letter's name as chemists spell it."""


class Measure(Protocol):
    """Tells how wide a text is, in mm, at a letter size in mm."""

    def __call__(self, text: str, size_mm: float, bold: bool) -> float: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One weight of the typeface: its file, and each character's width in thousandths of the letter size."""

    name: str
    path: Path
    widths: dict[int, float]


@lru_cache(maxsize=2)
def load_face(name: str) -> Face:
    """Load a weight once and make it known to the PDF library under `name`."""
    import fontpkg
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    path = fontpkg.path(_FAMILY, weight=_WEIGHTS[name])
    font: Any = TTFont(name, str(path))
    pdfmetrics.registerFont(font)
    widths = {code: font.face.charWidths[code] for code in font.face.charToGlyph}
    return Face(name=name, path=path, widths=widths)


def measure(text: str, size_mm: float, bold: bool) -> float:
    """Measure a text that fit_to_font has gone over; raises KeyError for a character the typeface lacks."""
    return _measure_in_thousandths(text, bold) * size_mm / 1000


@lru_cache(maxsize=8192)
def _measure_in_thousandths(text: str, bold: bool) -> float:
    widths = load_face(BOLD if bold else REGULAR).widths
    return sum([widths[ord(character)] for character in text])


def fit_to_font(text: str) -> tuple[str, tuple[str, ...]]:
    """Replace what the typeface lacks, and list the characters that were replaced.

    A run of them becomes `[U+0645]`, or `[U+0645 and 8 more]`: a label never shows empty boxes and never hides that
    something is missing. Signs with a twin of the same meaning (Greek mu for micro) become that twin.
    """
    has = load_face(REGULAR).widths
    if has.keys() >= set(map(ord, text)):
        return text, ()
    fitted: list[str] = []
    lacking: list[str] = []
    run: list[str] = []

    def close_run() -> None:
        if run:
            more = f" and {len(run) - 1} more" if len(run) > 1 else ""
            fitted.append(f"[U+{ord(run[0]):04X}{more}]")
            lacking.extend(run)
            run.clear()

    for character in text:
        same = _SAME_SIGN.get(character, character)
        if all(ord(part) in has for part in same):
            close_run()
            fitted.append(same)
        else:
            run.append(character)
    close_run()
    return "".join(fitted), tuple(dict.fromkeys(lacking))
