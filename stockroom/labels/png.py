"""Labels as PNG for label printers: black and white only, every module of the symbol a whole number of dots."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO
from typing import Any

from stockroom.errors import BadInput
from stockroom.labels.fonts import BOLD, REGULAR, load_face
from stockroom.labels.layout import Layout
from stockroom.labels.pictograms import flatten, shapes_of
from stockroom.labels.placing import LINE_MM
from stockroom.labels.symbol import find_runs, make_symbol

LEAST_DPI, MOST_DPI = 150, 1200


def draw_png(label: Layout, dpi: int = 300) -> bytes:
    """Draw a label at so many dots an inch.

    Raises BadInput for a resolution no label printer has: below 150 dpi a module is less than three dots.
    """
    from PIL import Image, ImageDraw, ImageFont

    if not LEAST_DPI <= dpi <= MOST_DPI:
        raise BadInput(f"{dpi} dpi: label printers have {LEAST_DPI} to {MOST_DPI}, mostly 203, 300 or 600")
    dots = dpi / 25.4
    image = Image.new("1", (round(label.width_mm * dots), round(label.height_mm * dots)), 1)
    draw = ImageDraw.Draw(image)
    draw.fontmode = "1"
    matrix = make_symbol(label.symbol.text, small=label.symbol.small)
    module, left, top = label.symbol.snap(len(matrix), dots)
    for row, column, length in find_runs(matrix):
        x, y = left + column * module, top + row * module
        draw.rectangle((x, y, x + length * module - 1, y + module - 1), fill=0)
    for picture in label.pictures:
        width = round(picture.width_mm * dots)
        place = (round(picture.x_mm * dots), round(picture.y_mm * dots))
        image.paste(_draw_pictogram(picture.code, width), place)
    for box in label.boxes:
        corners = (box.x_mm, box.y_mm, box.x_mm + box.width_mm, box.y_mm + box.height_mm)
        draw.rectangle([round(edge * dots) for edge in corners], outline=0, width=max(1, round(LINE_MM * dots)))
    for line in label.lines:
        face = load_face(BOLD if line.bold else REGULAR)
        font = ImageFont.truetype(face.path, line.size_mm * dots, layout_engine=ImageFont.Layout.BASIC)
        x_dots = line.x_mm * dots
        for character in line.text:
            # Letter by letter: the library rounds each width to dots, and a long line would outgrow its box.
            draw.text((x_dots, line.baseline_mm * dots), character, fill=0, font=font, anchor="ls")
            x_dots += face.widths[ord(character)] * line.size_mm * dots / 1000
    stream = BytesIO()
    image.save(stream, "PNG", dpi=(dpi, dpi))
    return stream.getvalue()


@lru_cache(maxsize=64)
def _draw_pictogram(code: str, width: int) -> Any:
    """Draw a pictogram so many dots wide, in black and white: four times as large, then each dot by its average."""
    from PIL import Image, ImageDraw

    finer = 4 * width
    large = Image.new("L", (finer, finer), 255)
    draw = ImageDraw.Draw(large)
    for shape in shapes_of(code):
        for polygon in flatten(shape):
            draw.polygon(
                [(x * finer / 100, y * finer / 100) for x, y in polygon], fill=255 if shape.fill == "white" else 0
            )
    return large.resize((width, width), Image.Resampling.BOX).point(lambda grey: 255 if grey > 127 else 0, "1")
