"""The hazard pictograms of the GHS as drawings of our own: a black symbol in a red diamond standing on a point.

After the shapes that the United Nations describe (Globally Harmonized System, Annex 1 and 3). Each is a list of filled
paths, painted one over the other, in a square of 100 x 100 whose corners the diamond does not reach: its four points
are the middles of the square's sides. PDF, SVG and PNG draw these very paths.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from stockroom.labels.pictogram_shapes import SYMBOLS

SIDE_TO_WIDTH = math.sqrt(2)
"""A diamond on its point is so many times as wide as its side, which is what rules on sizes name."""

NAMES = {
    "GHS01": "exploding bomb",
    "GHS02": "flame",
    "GHS03": "flame over circle",
    "GHS04": "gas cylinder",
    "GHS05": "corrosion",
    "GHS06": "skull and crossbones",
    "GHS07": "exclamation mark",
    "GHS08": "health hazard",
    "GHS09": "environment",
}

Fill = Literal["red", "white", "black"]
RED = (0.89, 0.0, 0.1)
_FRAME = (("red", "M 50 0 L 100 50 L 50 100 L 0 50 Z"), ("white", "M 50 8 L 92 50 L 50 92 L 8 50 Z"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One filled path: steps of M (1 point), L (1), C (3) and Z (none), points as x, y in the square of 100."""

    fill: Fill
    steps: tuple[tuple[str, tuple[float, ...]], ...]


@lru_cache(maxsize=16)
def shapes_of(code: str) -> tuple[Shape, ...]:
    """Return the paths of a pictogram in the order of painting. Raises KeyError for what is none of NAMES."""
    return tuple(Shape(fill=fill, steps=tuple(_steps(path))) for fill, path in (*_FRAME, *SYMBOLS[code]))  # type: ignore[arg-type]


def _steps(path: str) -> Iterator[tuple[str, tuple[float, ...]]]:
    step, numbers = "", list[float]()
    for token in path.split():
        if token.isalpha():
            if step:
                yield step, tuple(numbers)
            step, numbers = token, []
        else:
            numbers.append(float(token))
    yield step, tuple(numbers)


def write_path(shape: Shape) -> str:
    """Write a path as SVG does."""
    return "".join(step + " ".join(f"{number:g}" for number in numbers) for step, numbers in shape.steps)


def flatten(shape: Shape) -> list[list[tuple[float, float]]]:
    """Turn a path into closed polygons; a curve becomes 16 straight pieces."""
    polygons: list[list[tuple[float, float]]] = []
    for step, numbers in shape.steps:
        if step == "M":
            polygons.append([(numbers[0], numbers[1])])
        elif step == "L":
            polygons[-1].append((numbers[0], numbers[1]))
        elif step == "C":
            (x0, y0), (x1, y1, x2, y2, x3, y3) = polygons[-1][-1], numbers
            for piece in range(1, 17):
                t = piece / 16
                u = 1 - t
                a, b, c, d = u**3, 3 * u * u * t, 3 * u * t * t, t**3
                polygons[-1].append((a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3))
    return polygons
