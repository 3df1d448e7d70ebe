"""From a label's facts to its layout, saying all that does not stand on it as it was typed."""

from __future__ import annotations

import re
from dataclasses import replace

from stockroom.labels.content import LabelContent
from stockroom.labels.fonts import fit_to_font, measure
from stockroom.labels.layout import DEFAULT_SIZE_MM, Layout, ToPlace, lay_out
from stockroom.labels.pictograms import NAMES
from stockroom.labels.placing import Size
from stockroom.labels.plain_text import make_visible
from stockroom.labels.wording import Paragraph, hazard_key, say

MOST_IN_SYMBOL = 60
"""Words after the code in the symbol are cut after so many characters: more would make its modules too small."""


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
            pieces.append(piece if text == piece.text else replace(piece, text=text))
        return replace(paragraph, pieces=tuple(pieces))

    label = ToPlace(
        code=content.code,
        paragraphs=tuple(fit(paragraph) for paragraph in say(content)),
        pictograms=tuple(code for code in content.pictograms if code in NAMES),
        in_symbol=make_visible(content.in_symbol or "")[:MOST_IN_SYMBOL],
        relieved=[
            hazard_key(number)
            for number, words in enumerate(content.hazards, start=1)
            if words.split(" ")[0] in content.may_leave_off
        ],
    )
    laid_out = lay_out(label, size_mm, measure)
    notes = [*(_named(key, content) for key in laid_out.dropped), *content.left_off]
    if unknown := [code for code in content.pictograms if code not in NAMES]:
        notes.append(f"pictograms {', '.join(map(make_visible, unknown))}")
    if lacking:
        numbered = ", ".join(f"{character} U+{ord(character):04X}" for character in lacking)
        notes.append(f"letters the label's typeface lacks, printed as numbers: {numbered}")
    return replace(laid_out, dropped=tuple(notes))


def _named(key: str, content: LabelContent) -> str:
    """Name a statement that was left off by its code, where it begins with one: `P310`, not `precaution 3`."""
    what, _, number = key.partition(" ")
    statements = {"hazard": content.hazards, "precaution": content.precautions}.get(what)
    if statements is None or not number.isdigit():
        return key
    code = (make_visible(statements[int(number) - 1]).split() or [""])[0]
    return code if re.fullmatch(r"[HP][0-9A-Za-z+]+", code) else key
