"""What happens to a symbol at the bench, as a seeded model: blotches, blur, and the curve of a jar.

No printer and no camera takes part: the model is only as good as its figures, and serves to compare and to guard.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from random import Random

import zxingcpp
from PIL import Image, ImageDraw, ImageFilter

from stockroom.domain.codes import next_code
from stockroom.labels.arranging import make_frames
from stockroom.labels.fonts import measure
from stockroom.labels.photograph import read_symbols
from stockroom.labels.placing import Size, SymbolSquare
from stockroom.labels.symbol import QUIET_MODULES, find_runs, make_symbol

DOTS_A_MM = 300 / 25.4
_CORNER_MODULES = 8
"""A corner square with its white edge."""

Damage = Callable[[Image.Image, int, Random], Image.Image]
"""Takes a picture of a symbol, how many modules a side it has with its quiet zone, and a source of chance."""


def draw_symbol(square: SymbolSquare, dpi: int = 300) -> tuple[Image.Image, int]:
    """Draw a symbol as a label printer does, and tell how many modules it has a side."""
    matrix = make_symbol(square.text, small=square.small)
    module = int(square.side_mm * dpi / 25.4 / len(matrix))
    picture = Image.new("L", (module * len(matrix),) * 2, 255)
    pen = ImageDraw.Draw(picture)
    for row, column, length in find_runs(matrix):
        pen.rectangle((column * module, row * module, (column + length) * module - 1, (row + 1) * module - 1), fill=0)
    return picture, len(matrix)


def blotch(share: float, *, off_the_corners: bool = True) -> Damage:
    """Cover a share of the symbol with drops, dark or light, of two to four modules (1 to 2 mm) across."""

    def damage(picture: Image.Image, modules: int, chance: Random) -> Image.Image:
        spoilt = picture.copy()
        pen = ImageDraw.Draw(spoilt)
        module = picture.width / modules
        dark = modules - 2 * QUIET_MODULES
        left = share * (dark * module) ** 2
        while left > 0:
            radius = chance.uniform(1.0, 2.0) * module
            x, y = (chance.uniform(0, dark) for _ in range(2))
            if off_the_corners and _meets_corner(x, y, radius / module, dark):
                continue
            middle_x, middle_y = ((QUIET_MODULES + at) * module for at in (x, y))
            spot = (middle_x - radius, middle_y - radius, middle_x + radius, middle_y + radius)
            pen.ellipse(spot, fill=chance.choice((0, 255)))
            left -= math.pi * radius**2
        return spoilt

    return damage


def _meets_corner(x: float, y: float, radius: float, dark: int) -> bool:
    near_x = x - radius < _CORNER_MODULES, x + radius > dark - _CORNER_MODULES
    near_y = y - radius < _CORNER_MODULES, y + radius > dark - _CORNER_MODULES
    return (near_x[0] and near_y[0]) or (near_x[1] and near_y[0]) or (near_x[0] and near_y[1])


def blur(of_a_module: float) -> Damage:
    """Blur by a share of a module (the deviation of a Gaussian)."""

    def damage(picture: Image.Image, modules: int, chance: Random) -> Image.Image:
        return picture.filter(ImageFilter.GaussianBlur(of_a_module * picture.width / modules))

    return damage


def bend(jar_mm: float) -> Damage:
    """Look at a label round a jar so many mm wide, up to 8 degrees from the side, with a little light falling off."""

    def damage(picture: Image.Image, modules: int, chance: Random) -> Image.Image:
        radius = jar_mm / 2 * DOTS_A_MM
        turned = math.radians(chance.uniform(-8, 8))
        half = picture.width / 2
        least, most = (math.sin(edge / radius + turned) for edge in (-half, half))
        seen_width = round((most - least) * radius)
        strips = []
        for x in range(seen_width):
            angle = math.asin(least + (x + 0.5) / radius) - turned
            strips.append(min(picture.width - 1, max(0, int(half + angle * radius))))
        seen = Image.new("L", (seen_width, picture.height), 255)
        for x, source in enumerate(strips):
            light = math.cos(math.asin(least + (x + 0.5) / radius)) ** 0.5
            strip = picture.crop((source, 0, source + 1, picture.height)).point(lambda grey, light=light: grey * light)
            seen.paste(strip, (x, 0))
        framed = Image.new("L", (seen.width + 60, seen.height + 60), 160)
        framed.paste(seen, (30, 30))
        return framed

    return damage


def read_once(picture: Image.Image) -> list[str]:
    """Read as a scanner does at the first try."""
    return [one.text for one in zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)]


def count_read(
    size_mm: Size, damage: Damage, times: int, *, tries: Callable[[Image.Image], list[str]], dpi: int = 300
) -> tuple[int, int]:
    """Spoil the symbols of so many labels of a size, each with a code of its own; count those read right and wrong."""
    chance = Random(20261125)
    right = wrong = 0
    for _ in range(times):
        code = next_code("L", chance.randrange(29**3))[1]
        frame = next(make_frames(code, (), size_mm, measure))
        read = tries(damage(*draw_symbol(frame.symbol, dpi), chance))
        right += read == [code]
        wrong += bool(read) and read != [code]
    return right, wrong


DAMAGES: dict[str, Damage] = {
    "clean": lambda picture, modules, chance: picture,
    "blur of 0.4 module": blur(0.4),
    "blur of 0.5 module": blur(0.5),
    "5 % blotches off the corner squares": blotch(0.05),
    "5 % blotches anywhere": blotch(0.05, off_the_corners=False),
    "jar 45 mm wide": bend(45),
    "jar 30 mm wide": bend(30),
    "jar 20 mm wide": bend(20),
}

USUAL, VIAL = (74.0, 52.0), (48.0, 17.0)
LEAST = (
    ("clean", USUAL, read_once, 98),
    ("clean", VIAL, read_once, 98),
    ("blur of 0.4 module", USUAL, read_once, 99),
    ("blur of 0.4 module", USUAL, read_symbols, 100),
    ("blur of 0.4 module", VIAL, read_symbols, 100),
    ("blur of 0.5 module", USUAL, read_symbols, 98),
    ("blur of 0.5 module", VIAL, read_symbols, 80),
    ("5 % blotches off the corner squares", USUAL, read_once, 98),
    ("5 % blotches off the corner squares", VIAL, read_once, 65),
    ("5 % blotches anywhere", USUAL, read_once, 21),
    ("jar 45 mm wide", USUAL, read_once, 98),
    ("jar 45 mm wide", VIAL, read_once, 98),
    ("jar 30 mm wide", USUAL, read_once, 95),
    ("jar 20 mm wide", VIAL, read_once, 81),
)
"""What is spoilt how, on which label, read how, and how many of a hundred are read at least: what was measured of the
best settings with the same model before this was written (level H, version 2 in 12 to 15 mm; on vials level Q)."""
