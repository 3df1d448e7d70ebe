"""Unit words: what each is worth in quanta, and why some cannot be used."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from stockroom.errors import Unreadable
from stockroom.science.numerals import quoted
from stockroom.science.quantities import Dimension

if TYPE_CHECKING:
    from pint import UnitRegistry

EXAMPLES = {
    Dimension.MASS: "2.5 g",
    Dimension.VOLUME: "125 mL",
    Dimension.AREA: "30 x 40 cm",
    Dimension.LENGTH: "1.2 m",
    Dimension.PIECES: "2 pieces",
    Dimension.USES: "3 uses",
}
"""One well-formed amount of each dimension, for messages."""

WORDS = {
    Dimension.MASS: "a mass",
    Dimension.VOLUME: "a volume",
    Dimension.AREA: "an area",
    Dimension.LENGTH: "a length",
    Dimension.PIECES: "a number of pieces",
    Dimension.USES: "a number of uses",
}
"""Each dimension as a sentence names it."""

ACCEPTED = "g, kg, mg, µg, mL, L, cL, dL, µL, tsp, tbsp, mm, cm, m, in, ft, mm2, cm2, m2, pieces, uses"
"""The units that messages name."""

_NO_MEASURES = {"pinch", "dash", "smidgen", "drop", "splash", "handful", "spoon", "spoonful", "scoop"}
_TWO_READINGS = {
    "oz": ("28.35 g by mass", "29.57 mL by volume (US fl oz)", "Write grams, or US fl oz."),
    "cup": ("236.59 mL (US cup)", "250 mL (metric cup)", "Write mL, or US cup."),
    "fl oz": ("29.57 mL (US fl oz)", "28.41 mL (imperial)", "Write mL, or US fl oz."),
    "pint": ("473.18 mL (US pint)", "568.26 mL (imperial pint)", "Write mL, or US pint."),
    "quart": ("946.35 mL (US quart)", "1136.52 mL (imperial quart)", "Write mL, or US quart."),
    "gallon": ("3.785 L (US gallon)", "4.546 L (imperial gallon)", "Write L, or US gal."),
}
_SIDES = {"metre": "m", "meter": "m", "centimetre": "cm", "centimeter": "cm", "millimetre": "mm", "millimeter": "mm"}
_SPELLINGS = {"pt": "pint", "qt": "quart", "gal": "gallon", "ounce": "oz", "fluid ounce": "fl oz"}


def find_unit(word: str) -> tuple[Dimension, Fraction] | None:
    """Give the dimension of a unit word and its worth in quanta, or None when it is not a unit.

    Capitals are forgiven unless they could change the meaning (`ML` would be a megalitre). Raises Unreadable,
    saying why, for words that are units to some people but fix no amount.
    """
    name = word.rstrip(".")
    plain = " ".join(name.lower().replace("square ", "sq ").split())
    singular = plain.removesuffix("s")
    if singular.startswith("sq "):
        name = plain = _SIDES.get(singular[3:], singular[3:]) + "2"
    if singular in _NO_MEASURES or plain in _NO_MEASURES:
        raise Unreadable(
            f"{quoted(word)} is no measure: it holds whatever it happens to hold."
            " Weigh it, or use a marked spoon or a graduated vessel.",
            read=word,
        )
    kind = _SPELLINGS.get(singular, singular)
    if kind in _TWO_READINGS:
        one, other, advice = _TWO_READINGS[kind]
        raise Unreadable(f"{quoted(word)} can be {one} or {other}. {advice}", read=word, readings=[one, other])
    if plain.startswith("us "):
        name = plain = {"us fluid ounce": "us fl oz"}.get(singular, plain).replace(" ", "_")
    if worth := _worth(name):
        return worth
    if name[:1] == "M" and len(name) < 4 and _worth(plain):
        raise Unreadable(f"{quoted(word)} could be read as mega-: write {plain.replace('ml', 'mL')}.", read=word)
    return _worth(plain)


def _worth(name: str) -> tuple[Dimension, Fraction] | None:
    registry = _registry()
    # Asked itself, pint would take "g*m", "2", "nan" or "dimensionless" for units too.
    if name not in set(registry):
        return None
    worth = registry.Quantity(Fraction(1), registry.parse_units(name)).to_base_units()
    (dimension,) = worth.dimensionality
    return Dimension(dimension.strip("[]")), Fraction(worth.magnitude)


@cache
def _registry() -> UnitRegistry[Fraction]:
    # Importing pint takes longer than most commands: it waits until a unit is read.
    from pathlib import Path

    from pint import UnitRegistry

    registry: UnitRegistry[Fraction] = UnitRegistry(None, non_int_type=Fraction)
    text = Path(__file__).with_name("units.txt").read_text(encoding="utf-8")
    registry.load_definitions(text.splitlines())
    return registry
