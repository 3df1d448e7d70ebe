"""The symbols inside the diamonds, as paths in a square of 100 x 100. What they show: pictograms.py."""

from __future__ import annotations

import math
import re

_CURVE = 0.5523
"""How far the handles of a quarter circle reach, as a share of its radius."""


def _ellipse(x: float, y: float, across: float, down: float | None = None) -> str:
    down = across if down is None else down
    kx, ky = across * _CURVE, down * _CURVE
    return (
        f"M {x - across} {y} C {x - across} {y - ky} {x - kx} {y - down} {x} {y - down} "
        f"C {x + kx} {y - down} {x + across} {y - ky} {x + across} {y} "
        f"C {x + across} {y + ky} {x + kx} {y + down} {x} {y + down} "
        f"C {x - kx} {y + down} {x - across} {y + ky} {x - across} {y} Z"
    )


def _placed(path: str, *, x: float, y: float, turn: float = 0, scale: float = 1) -> str:
    """Put a path drawn around 0, 0 where it belongs: scaled, turned clockwise by degrees, then moved."""
    sine, cosine = math.sin(math.radians(turn)) * scale, math.cos(math.radians(turn)) * scale

    def move(match: re.Match[str]) -> str:
        a, b = float(match[1]), float(match[2])
        return f"{x + a * cosine - b * sine:.2f} {y + a * sine + b * cosine:.2f}"

    return re.sub(r"(-?[\d.]+) (-?[\d.]+)", move, path)


def _star(x: float, y: float, radii: tuple[float, ...], turn: float = 0) -> str:
    points = []
    for number, radius in enumerate(radii):
        angle = math.radians(turn + 360 * number / len(radii))
        points.append(f"{x + radius * math.sin(angle):.2f} {y - radius * math.cos(angle):.2f}")
    return "M " + " L ".join(points) + " Z"


_FLAME = (
    "M -3 25 C -13 25 -19 18 -18 9 C -17 1 -11 -3 -11 -12 C -7 -9 -5 -5 -5 0 C 1 -7 2 -17 -2 -27 "
    "C 9 -22 14 -12 13 -3 C 15 -5 16 -8 16 -11 C 20 -2 21 9 16 18 C 13 23 8 25 4 25 C 8 20 8 14 4 8 "
    "C 3 11 2 13 -1 14 C 0 9 -1 5 -4 2 C -4 9 -8 12 -8 18 C -8 21 -6 24 -3 25 Z"
)
_BONE = "M -27 -2 C -28 -6 -35 -5 -34 0 C -37 4 -30 8 -27 3 L 27 3 C 30 8 37 4 34 0 C 35 -5 28 -6 27 -2 Z"
_SKULL = (
    "M 0 -21 C 12 -21 18 -12 18 -4 C 18 4 15 8 10 10 L 9.5 19 L -9.5 19 L -10 10 C -15 8 -18 4 -18 -4 "
    "C -18 -12 -12 -21 0 -21 Z"
)
_TUBE = "M -15 -4.5 L 12 -4.5 C 18 -4.5 18 4.5 12 4.5 L -15 4.5 Z"
_TUBE_INSIDE = "M -17 -2.8 L -1 -2.8 L 4 0.8 L -17 0.8 Z"
_DROP = "M 0 -3.4 C 1 -1 2 0.2 2 1.6 C 2 4 -2 4 -2 1.6 C -2 0.2 -1 -1 0 -3.4 Z"

SYMBOLS: dict[str, tuple[tuple[str, str], ...]] = {
    "GHS01": (
        ("black", _star(47, 44, (25, 8, 22, 9, 24, 9, 24, 9, 6, 8, 6, 8, 6, 9, 24, 9, 22, 8), turn=0)),
        ("white", _ellipse(48, 57, 16)),
        ("black", _ellipse(48, 57, 14)),
        ("white", "M 40 45 L 47 52 L 44 57 L 51 63 L 52 61 L 47 57 L 50 52 L 44 43 Z"),
        ("black", "M 66 58 L 71 56 L 72 61 L 67 62 Z M 64 68 L 68 66 L 69 70 L 65 72 Z"),
        ("black", "M 27 59 L 31 61 L 29 66 L 25 62 Z M 70 46 L 76 45 L 75 50 L 71 50 Z"),
    ),
    "GHS02": (
        ("black", _placed(_FLAME, x=50, y=46, scale=1.02)),
        ("black", "M 37 74.5 L 63 74.5 L 63 78.5 L 37 78.5 Z"),
    ),
    "GHS03": (
        ("black", _ellipse(50, 64, 12.5)),
        ("white", _ellipse(50, 64, 7.5)),
        ("black", _placed(_FLAME, x=50, y=38, scale=0.72)),
        ("black", "M 39 78 L 61 78 L 61 81 L 39 81 Z"),
    ),
    "GHS04": (
        (
            "black",
            _placed(
                "M -29 0 C -29 -7 -27 -8 -24 -8 L 14 -8 C 20 -8 22 -5 24 -3 L 27 -3 L 27 -5 L 32 -5 L 32 5 L 27 5 "
                "L 27 3 L 24 3 C 22 5 20 8 14 8 L -24 8 C -27 8 -29 7 -29 0 Z",
                x=49,
                y=51,
                turn=-28,
                scale=0.92,
            ),
        ),
        (
            "white",
            _placed("M -24 -5.5 L 13 -5.5 C 16 -5.5 18 -4.5 19 -3.5 L -24 -3.5 Z", x=49, y=51, turn=-28, scale=0.92),
        ),
    ),
    "GHS05": (
        ("black", _placed(_TUBE, x=40, y=33, turn=155)),
        ("white", _placed(_TUBE_INSIDE, x=40, y=33, turn=155)),
        ("black", _placed(_TUBE, x=60, y=33, turn=25)),
        ("white", _placed("M -13 -2.8 L 1 -2.8 L 1 -2.8 L -13 0.8 Z", x=60, y=33, turn=25)),
        ("black", _placed(_DROP, x=32, y=48) + " " + _placed(_DROP, x=32, y=56)),
        ("black", _placed(_DROP, x=68, y=48) + " " + _placed(_DROP, x=68, y=56)),
        ("black", "M 23 62 L 46 62 L 46 68.5 L 28 68.5 Z"),
        ("white", "M 26 61 C 28 67 30 64 32 66 C 34 64 36 67 38 61 Z"),
        ("black", "M 52 65 C 58 61 62 62 68 61 C 72 60.5 75 60.5 79 60 L 72 67 L 64 74 L 57 74 L 52 72 Z"),
        ("white", "M 62 60 C 64 66 66 63 68 65 C 70 63 72 66 74 59 Z"),
    ),
    "GHS06": (
        ("black", _placed(_BONE, x=50, y=68, turn=20, scale=0.5)),
        ("black", _placed(_BONE, x=50, y=68, turn=-20, scale=0.5)),
        ("white", _placed(_SKULL, x=50, y=43, scale=1.12)),
        ("black", _placed(_SKULL, x=50, y=43)),
        ("white", _ellipse(43, 40.5, 4.6, 5) + " " + _ellipse(57, 40.5, 4.6, 5)),
        ("white", "M 50 45.5 L 53 52 L 47 52 Z"),
        ("white", "M 44.7 56 L 45.9 56 L 45.9 62 L 44.7 62 Z M 49.4 56 L 50.6 56 L 50.6 62 L 49.4 62 Z"),
        ("white", "M 54.1 56 L 55.3 56 L 55.3 62 L 54.1 62 Z"),
    ),
    "GHS07": (
        (
            "black",
            "M 50 19 C 56 19 59 22.5 58.4 28 L 54.6 58 C 54.2 61 45.8 61 45.4 58 L 41.6 28 C 41 22.5 44 19 50 19 Z",
        ),
        ("black", _ellipse(50, 71.5, 6.5)),
    ),
    "GHS08": (
        ("black", _ellipse(50, 25, 7.5, 8.5)),
        (
            "black",
            "M 44 30 L 56 30 L 57 36 C 66 38 74 42 78 49 L 79 52 L 72 59 L 69 52 L 67 64 L 50 81 L 33 64 L 31 52 "
            "L 28 59 L 21 52 L 22 49 C 26 42 34 38 43 36 Z",
        ),
        ("white", _star(50, 54, (15, 4, 9, 4, 15, 4, 9, 4, 15, 4, 9, 4, 15, 4, 9, 4))),
    ),
    "GHS09": (
        ("black", "M 19 60 C 30 56 45 58 62 56 L 83 55 L 80 58 C 66 59 56 61 50 65 L 28 66 Z"),
        (
            "black",
            "M 36 60 L 37 44 L 29 36 L 30.5 34.5 L 37 40 L 37.5 30 L 34 25.5 L 35.5 24.5 L 38 27 L 40 19 L 42 20 "
            "L 41 29 L 47 23 L 48.5 24.5 L 41 34 L 41 41 L 50 33 L 51.5 34.5 L 41.5 46 L 42.5 60 Z",
        ),
        ("white", "M 35 71 C 41 62 55 62 61 67 L 69 63 L 67.5 70 L 67 75 L 61 72 C 55 79 41 79 35 71 Z"),
        ("black", "M 37 71 C 43 64 53 64 60 69.5 L 67 66 L 66 70 L 66.5 74 L 60 71.5 C 53 77.5 43 77.5 37 71 Z"),
        ("white", _ellipse(44, 70.5, 1.5)),
    ),
}
"""Fill and path of each shape, painted in this order."""
