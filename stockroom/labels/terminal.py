"""A label in the terminal: the symbol in half blocks, the words beside it or below."""

from __future__ import annotations

from stockroom.domain.codes import read_code, show
from stockroom.labels.content import LabelContent
from stockroom.labels.pictograms import NAMES
from stockroom.labels.plain_text import count_cells, make_visible, runs_right_to_left
from stockroom.labels.symbol import Matrix, make_symbol
from stockroom.labels.wording import say
from stockroom.labels.wrapping import wrap

_BLACK_ON_WHITE, _PLAIN_AGAIN = "\x1b[30;107m", "\x1b[0m"
_GAP = 2
_LEAST_WORDS = 24


def draw_half_blocks(matrix: Matrix, *, inverse: bool = False) -> list[str]:
    """Draw two rows of modules in each line of text, dark modules as ink, or light ones with `inverse`."""
    rows = [*matrix, *([(False,) * len(matrix)] if len(matrix) % 2 else [])]
    ink = " ▄▀█"
    return [
        "".join(ink[2 * (upper ^ inverse) + (lower ^ inverse)] for upper, lower in zip(above, below, strict=True))
        for above, below in zip(rows[::2], rows[1::2], strict=True)
    ]


def draw_terminal(content: LabelContent, *, columns: int = 80, colour: bool = True) -> str:
    """Draw a label for a terminal so many columns wide, whole: nothing is left off or shortened.

    With colour the symbol is black on white on any background. Without, light modules are drawn as ink: right on a
    dark background, while on a light one the symbol is seen inverted, which most readers take as well.
    Raises Unreadable for a code that is none, BadInput without a name.
    """
    code = read_code(content.code).text
    blocks = draw_half_blocks(make_symbol(code), inverse=not colour)
    width = len(blocks[0])
    texts = [show(code)]
    for paragraph in say(content):
        boxes = (f"{piece.text} ________" for piece in paragraph.pieces)
        texts.append(" ".join(boxes) if paragraph.boxes else paragraph.text)
    if content.pictograms:
        names = (NAMES.get(one, one) for one in content.pictograms)
        texts.append(make_visible(f"pictograms: {', '.join(names)}"))
    # Some terminals turn a whole line round for Arabic or Hebrew, symbol and all: such words go below it.
    beside = columns - width - _GAP >= _LEAST_WORDS and not any(map(runs_right_to_left, texts))
    room = max(_LEAST_WORDS, columns - width - _GAP if beside else columns)
    words = [line for text in texts for line in wrap(text, lambda _: room, count_cells)]
    symbol = [f"{_BLACK_ON_WHITE}{row}{_PLAIN_AGAIN}" if colour else row for row in blocks]
    if not beside:
        return "\n".join([*symbol, *words])
    lines = []
    for number in range(max(len(symbol), len(words))):
        left = symbol[number] if number < len(symbol) else " " * width
        right = words[number] if number < len(words) else ""
        lines.append(f"{left}{' ' * _GAP}{right}" if right else left)
    return "\n".join(lines)
