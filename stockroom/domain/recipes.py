"""Recipes: how a solution is made, how a bath is mixed, what a treatment uses."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from stockroom.science.amounts import Amount
from stockroom.science.quantities import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One ingredient: a material, or another recipe mixed in place."""

    position: int
    material: str | None = None
    """Key of a material."""
    recipe: str | None = None
    """Key of a bath mixed for this line."""
    amount: Amount | None = None
    """None for a bath line: its amount is the fill."""
    first_dose: str | None = None
    """For a line measured to a reading: where to begin, as typed."""
    stand_ins: tuple[str, ...] = ()
    """Keys of materials that may replace it, in order; taking one is asked and recorded."""
    tolerance: Fraction | None = None
    """How far off its amount may be, as a share of it, where the recipe says so."""
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing to do, with the wait that follows it."""

    words: str
    wait: str | None = None
    caution: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeCheck:
    """How what a recipe makes is checked: by a reading that has a range of its own, and by looks."""

    method: str | None = None
    """Of reading, as the trade calls it: pH by meter, peroxide strip, hydrometer."""
    low: Decimal | None = None
    """Least that is fit, in `unit`; None where nothing is too little."""
    high: Decimal | None = None
    """Most that is fit."""
    unit: str | None = None
    error: Decimal | None = None
    """What the instrument may be off by either way, in `unit`."""
    spoilt: tuple[str, ...] = ()
    """Looks (and smells) that no other reading passes again."""
    extends: bool = True
    """Whether a check that passes moves the check-by day."""
    source: str | None = None


def figure_text(figure: Decimal | None) -> str | None:
    """Write a figure as it is kept and shown, without an exponent."""
    return None if figure is None else f"{figure:f}"


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeVersion:
    """A recipe as it stood when it was used; never changed afterwards."""

    id: int = 0
    number: int = 1
    batch: Quantity | None = None
    """The usual amount, or one fill of a treatment's bath."""
    fills: int = 1
    life: str | None = None
    life_opened: str | None = None
    ready_after: str | None = None
    check_every: str | None = None
    strength: str | None = None
    """Stated strength, where it does not follow from a line: "about 1.6 g/L (saturated)"."""
    strength_line: int | None = None
    """Position of the line whose amount is the solution's strength."""
    over_solid: bool = False
    ingredients_limit: bool = False
    """Whether the earliest ingredient's date limits the solution's."""
    media_test: str | None = None
    """required, asked or not asked before it is used; None where its composition decides."""
    evaporation: str | None = None
    """mass balance: found evaporated, its strength is reckoned anew; None: it is not known until it is checked."""
    leftover: str | None = None
    storage: str | None = None
    note: str | None = None
    source: str | None = None
    check: RecipeCheck | None = None
    lines: tuple[Line, ...] = ()
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """A named recipe with its newest version."""

    id: int = 0
    key: str
    name: str
    kind: str
    """stock: kept in jars; bath: mixed for one use; treatment: what an object gets."""
    makes: str | None = None
    """Key of the material a stock recipe makes."""
    version: RecipeVersion
    retired_on: str | None = None
