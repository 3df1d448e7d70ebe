"""`calc cut`: how many pieces come out of a sheet or a roll, with the layout drawn; without a stockroom."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import Output, json_option
from stockroom.errors import BadInput
from stockroom.science.numerals import counted

if TYPE_CHECKING:
    from stockroom.science.cutting import Block, Cutting, Grain

_COLUMNS = 72
_LINES = 40
_MM = 1_000


@click.command()
@click.option("--sheet", metavar="SIZE", help="The sheet, such as 760 x 560 mm; its first side is 'along'.")
@click.option("--roll", metavar="WIDTH", help="A roll's width instead, such as 1.2 m; with --pieces.")
@click.option("--piece", required=True, metavar="SIZE", help="One piece, such as 297 x 210 mm.")
@click.option("--pieces", "wanted", type=click.IntRange(min=1), metavar="N", help="How many are wanted.")
@click.option(
    "--grain",
    type=click.Choice(["along", "across", "free"]),
    default="free",
    show_default=True,
    help="Whether the piece's first side lies along the sheet's first side (a roll's length), across it, or either.",
)
@click.option("--trim", metavar="LENGTH", help="Taken off every edge first, such as 5 mm.")
@click.option("--gap", metavar="LENGTH", help="Left between pieces, such as 3 mm.")
@json_option
@click.pass_obj
def cut(
    output: Output,
    sheet: str | None,
    roll: str | None,
    piece: str,
    wanted: int | None,
    grain: str,
    trim: str | None,
    gap: str | None,
) -> None:
    """Say how many pieces a sheet gives by cuts from edge to edge, and draw where they lie.

    Example: stockroom calc cut --sheet "760 x 560 mm" --piece "297 x 210 mm"
    """
    from stockroom.science.cutting import Grain
    from stockroom.science.cutting import cut as lay_out
    from stockroom.science.reading import read_size

    if (sheet is None) == (roll is None):
        raise BadInput("Is it a sheet or a roll? Give --sheet SIZE, or --roll WIDTH with --pieces N.")
    one, edge, between = read_size(piece), _length(trim), _length(gap)
    if roll is not None:
        _tell_roll(output, _length(roll), one, wanted, Grain(grain), edge, between)
        return
    sides = read_size(sheet or "")
    found = lay_out(sides, one, grain=Grain(grain), trim=edge, gap=between)
    sheets = -(-wanted // found.pieces) if wanted and found.pieces else None
    output.document(
        {
            "pieces": found.pieces,
            "bound": found.bound,
            "exact": found.exact,
            "sheets": sheets,
            "layout": [place for block in found.blocks for place in _places(block)],
        }
    )
    output.say(_in_words(found, sides, one))
    if wanted and sheets:
        output.say(f"For {wanted}: {counted(sheets, 'sheet')}.")
    for line in _drawn(found, sides):
        output.say(line)


def _tell_roll(
    output: Output, width: int, piece: tuple[int, int], wanted: int | None, grain: Grain, trim: int, gap: int
) -> None:
    from stockroom.science.cutting import cut as lay_out
    from stockroom.science.cutting import roll_length
    from stockroom.science.quantities import Dimension, Quantity, show

    if wanted is None:
        raise BadInput("How many pieces are wanted from the roll? Say --pieces N.")
    length = roll_length(width, piece, wanted, grain=grain, trim=trim, gap=gap)
    found = lay_out((length + trim, width), piece, grain=grain, trim=trim, gap=gap)
    output.document(
        {
            "pieces": wanted,
            "bound": found.bound,
            "length_mm": _number(length),
            "layout": [place for block in found.blocks for place in _places(block)][:wanted],
        }
    )
    more = f", which has room for {found.pieces}" if found.pieces > wanted else ""
    pieces = "1 piece" if wanted == 1 else f"{wanted} pieces"
    output.say(f"Take {show(Quantity(Dimension.LENGTH, length))} of the roll for {pieces} of {_size(piece)}{more}.")
    for line in _drawn(found, (length, width)):
        output.say(line)


def _in_words(found: Cutting, sheet: tuple[int, int], piece: tuple[int, int]) -> str:
    if not found.pieces:
        return f"No piece of {_size(piece)} comes out of {_size(sheet)} like that."
    sure = "" if found.exact else " Other cuts may give a few more: not all were tried."
    used = 100 * found.pieces * piece[0] * piece[1] // (sheet[0] * sheet[1])
    pieces = "1 piece" if found.pieces == 1 else f"{found.pieces} pieces"
    return (
        f"{pieces} of {_size(piece)} from {_size(sheet)}, {used} % of the sheet;"
        f" its area would never give more than {found.bound}.{sure}"
    )


def _drawn(found: Cutting, sheet: tuple[int, int]) -> list[str]:
    """Draw the sheet with its first side across the page; in words where pieces are too small to draw."""
    if not found.pieces:
        return []
    # a character is about twice as tall as it is wide
    scale = min(_COLUMNS / sheet[0], 2 * _LINES / sheet[1])
    columns, lines = max(2, round(sheet[0] * scale)), max(2, round(sheet[1] * scale / 2))
    page = [[" "] * (columns + 1) for _ in range(lines + 1)]
    _box(page, 0, 0, columns, lines)
    for block in found.blocks:
        for x, y in block.corners():
            left, right = round(x * scale), round((x + block.length) * scale)
            top, bottom = round(y * scale / 2), round((y + block.width) * scale / 2)
            if right - left < 2 or bottom - top < 2:
                return _listed(found)
            _box(page, left, top, right, bottom)
    return ["".join(line).rstrip() for line in page]


def _box(page: list[list[str]], left: int, top: int, right: int, bottom: int) -> None:
    for column in range(left, right + 1):
        for line in (top, bottom):
            page[line][column] = "+" if page[line][column] in "|+" else "-"
    for line in range(top, bottom + 1):
        for column in (left, right):
            page[line][column] = "+" if line in (top, bottom) or page[line][column] in "-+" else "|"


def _listed(found: Cutting) -> list[str]:
    return [
        f"{block.columns} x {block.rows} pieces{', turned' if block.turned else ''}, "
        f"from {_number(block.x)}, {_number(block.y)} mm"
        for block in found.blocks
    ]


def _places(block: Block) -> list[dict[str, Any]]:
    sides = {"length_mm": _number(block.length), "width_mm": _number(block.width), "turned": block.turned}
    return [{"x_mm": _number(x), "y_mm": _number(y), **sides} for x, y in block.corners()]


def _size(sides: tuple[int, int]) -> str:
    from stockroom.domain.sizes import show_size

    return show_size(*sides) or ""


def _length(typed: str | None) -> int:
    from stockroom.science.quantities import Dimension
    from stockroom.science.reading import read_quantity

    return read_quantity(typed, expect=Dimension.LENGTH, allow_zero=True).quantity.quanta if typed else 0


def _number(micrometres: int) -> int | float:
    return micrometres // _MM if micrometres % _MM == 0 else micrometres / _MM
