"""From a label's facts to its layout, saying all that does not stand on it as it was typed."""

from __future__ import annotations

from dataclasses import replace

from stockroom.labels.content import LabelContent
from stockroom.labels.fonts import fit_to_font, measure
from stockroom.labels.layout import DEFAULT_SIZE_MM, Layout, lay_out
from stockroom.labels.placing import Size
from stockroom.labels.wording import Paragraph, say


def compose(content: LabelContent, size_mm: Size = DEFAULT_SIZE_MM) -> Layout:
    """Lay a label out in the label's typeface.

    `dropped` lists what was left off, shortened or spelt by number. Raises what wording.say and layout.lay_out do.
    """
    lacking: dict[str, None] = {}

    def fit(paragraph: Paragraph) -> Paragraph:
        pieces = []
        for piece in paragraph.pieces:
            text, missing = fit_to_font(piece.text)
            lacking.update(dict.fromkeys(missing))
            pieces.append(replace(piece, text=text))
        return replace(paragraph, pieces=tuple(pieces))

    laid_out = lay_out(content.code, tuple(fit(paragraph) for paragraph in say(content)), size_mm, measure)
    notes = list(laid_out.dropped)
    if content.pictograms:
        notes.append(f"pictograms {', '.join(content.pictograms)}")
    if lacking:
        numbered = ", ".join(f"{character} U+{ord(character):04X}" for character in lacking)
        notes.append(f"letters the label's typeface lacks, printed as numbers: {numbered}")
    return replace(laid_out, dropped=tuple(notes))
