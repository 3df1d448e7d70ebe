"""With what an amount can be measured by hand, and how far off it may then be.

Every way keeps what it wants and the least and the most it can give; nothing is written with more digits than that
range allows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import groupby

from stockroom.errors import BadInput
from stockroom.science.powders import Powder, spoons_for
from stockroom.science.quantities import Dimension, Quantity, amount_text, show
from stockroom.science.reference import Row, rows
from stockroom.science.sharing import round_half_even_ratio
from stockroom.science.spoons import Spoon, pick_spoonfuls

MOST_FILLINGS = 20
"""Counting more fillings than this goes wrong (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """A balance and the smallest step of its display."""

    name: str
    resolution_ug: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Vessel:
    """A beaker, cylinder or pipette: without a graduation it measures only its own fill."""

    name: str
    capacity_ul: int
    graduation_ul: int | None = None
    tolerance_ul: int | None = None
    """As printed on it, or of its class."""

    @property
    def error_ul(self) -> int | None:
        """How far off one filling may be: half a graduation, or its own tolerance where that is more."""
        half = None if self.graduation_ul is None else self.graduation_ul * reading_error("graduated vessel").span[0]
        known = [int(error) for error in (half, self.tolerance_ul) if error is not None]
        return max(known, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedSpoon:
    """A spoon of the studio's own whose fill of one powder was weighed, each weighing in micrograms."""

    name: str
    masses_ug: tuple[int, ...]

    @property
    def mean_ug(self) -> int:
        return round_half_even_ratio(sum(self.masses_ug), len(self.masses_ug))

    @property
    def span_ug(self) -> tuple[int, int]:
        """The least and the most one spoonful holds; of a single weighing by a judgement."""
        if len(self.masses_ug) > 1:
            return min(self.masses_ug), max(self.masses_ug)
        scatter = self.mean_ug * Fraction(reading_error("spoonful").span[0]) / 100
        return round(self.mean_ug - scatter), round(self.mean_ug + scatter)


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to measure an amount; `low` and `high` are the least and the most that will be there."""

    kind: str
    """balance, vessel, spoons or weighed spoons."""
    measures: tuple[str, ...]
    """Names in order of use; one that is used again stands again."""
    wanted: Quantity
    low: Quantity
    high: Quantity
    ground: str

    @property
    def error(self) -> Quantity:
        """How far from what is wanted it may be."""
        off = max(self.high.quanta - self.wanted.quanta, self.wanted.quanta - self.low.quanta)
        return Quantity(self.wanted.dimension, off)

    @property
    def off(self) -> Fraction:
        """The error as a share of what is wanted."""
        return Fraction(self.error.quanta, self.wanted.quanta)

    @property
    def by_spoon(self) -> bool:
        return self.kind in ("spoons", "weighed spoons")

    def words(self) -> str:
        """Say how it is measured: `0.01 g balance, to 2.55 g, give or take 0.01 g (0.4 %)`."""
        names = " + ".join(_counted(name, len(list(same))) for name, same in groupby(self.measures))
        if self.by_spoon:
            low, high = rounded_ends(self.low, self.high)
            return f"{names}, levelled: " + (f"{amount_text(low)[0]} to " if low != high else "") + _grams(high)
        rounded = Quantity(self.wanted.dimension, to_digit(self.wanted.quanta, self.error.quanta))
        read = f", to {show(rounded)}" if rounded != self.wanted else ""
        return f"{names}{read}, give or take {_grams(self.error)} ({percent(self.off)})"


def _grams(quantity: Quantity) -> str:
    """Write a mass in grams, as a balance shows it, and any other amount as it is shown."""
    return " ".join(amount_text(quantity)) if quantity.dimension is Dimension.MASS else show(quantity)


def _counted(name: str, times: int) -> str:
    return name if times == 1 else f"{times} x {name}"


def percent(share: Fraction) -> str:
    """Write a share in per cent, to one significant digit below ten: `0.4 %`, `17 %`."""
    number = float(share * 100)
    return f"{number:.1g} %" if number < 9.5 else f"{number:.0f} %"


def to_digit(quanta: int, error: int) -> int:
    """Round half-even to the first digit of an error, so that no digit is written that it does not allow."""
    step: int = 10 ** (len(str(error)) - 1) if error > 0 else 1
    return round_half_even_ratio(quanta, step) * step


def to_range(quanta: int, half: int) -> int:
    """Round an end of a range to the digits its half-width is worth: two where it begins with 100 to 354, else one.

    The rule of the Particle Data Group (Review of Particle Physics, introduction, on rounding; from memory).
    """
    return to_digit(quanta, half * 1_000 // 3_550)


def rounded_ends(low: Quantity, high: Quantity) -> tuple[Quantity, Quantity]:
    """Round both ends of a range to what its width is worth."""
    half = (high.quanta - low.quanta) // 2
    return Quantity(low.dimension, to_range(low.quanta, half)), Quantity(high.dimension, to_range(high.quanta, half))


def tray_fill(length_um: int, width_um: int, depth_um: int) -> Quantity:
    """Give the volume that fills a tray of upright sides and level floor to a depth. Raises BadInput."""
    volume = Quantity(Dimension.VOLUME, round_half_even_ratio(length_um * width_um * depth_um, 10**9))
    if volume.quanta == 0:
        raise BadInput("That tray holds less than a thousandth of a millilitre. Look at the units.")
    return volume


def show_between(low: Quantity, high: Quantity) -> str:
    """Write a range, neither end with more digits than its width allows: `476 mL to 491 mL`."""
    return " to ".join(dict.fromkeys(show(end) for end in rounded_ends(low, high)))


@cache
def reading_error(of: str) -> Row:
    """Return the row that says how far off a kind of measure is read."""
    return next(row for row in rows("reading_errors") if row.of == of)


def usual_tolerance() -> Fraction:
    """Return how far off a line's amount may be where its recipe states nothing."""
    return Fraction(reading_error("recipe line").span[0]) / 100


def weigh(mass: Quantity, balances: Sequence[Balance], tolerance: Fraction) -> Way | None:
    """Choose the coarsest balance that is fine enough, else the finest; None where there is none."""
    row = reading_error("balance")
    ways = [
        _within("balance", (one.name,), mass, int(one.resolution_ug * row.span[0]), "one step of its display", row)
        for one in sorted(balances, key=lambda one: -one.resolution_ug)
    ]
    return next((way for way in ways if way.off <= tolerance), ways[-1] if ways else None)


def pour(volume: Quantity, vessels: Sequence[Vessel], tolerance: Fraction) -> Way | None:
    """Choose the vessel for a volume: of those fine enough the one with fewest fillings, then the smallest.

    Where none is fine enough, the one that comes nearest. None where no vessel can measure it.
    """
    row = reading_error("graduated vessel")
    ways: list[tuple[bool, Fraction | int, int, Way]] = []
    for one in vessels:
        fillings, error = -(-volume.quanta // one.capacity_ul), one.error_ul
        only_its_fill = one.graduation_ul is None and volume.quanta % one.capacity_ul
        if error is None or only_its_fill or fillings > MOST_FILLINGS:
            continue
        own = error == one.tolerance_ul
        ground = "its own tolerance" if own else "half a graduation"
        names = (one.name,) * fillings
        way = _within("vessel", names, volume, error * fillings, ground, None if own else row)
        coarse = way.off > tolerance
        ways.append((coarse, way.off if coarse else fillings, one.capacity_ul, way))
    return min(ways, key=lambda found: found[:3])[3] if ways else None


def _within(kind: str, names: tuple[str, ...], wanted: Quantity, error: int, ground: str, row: Row | None) -> Way:
    return Way(
        kind=kind,
        measures=names,
        wanted=wanted,
        low=Quantity(wanted.dimension, max(0, wanted.quanta - error)),
        high=Quantity(wanted.dimension, wanted.quanta + error),
        ground=f"{ground} ({row.source}, no source)" if row else ground,
    )


def spoon(mass: Quantity, powder: Powder, spoons: Sequence[Spoon]) -> Way | None:
    """Choose the fewest spoonfuls nearest to a mass, with the mass that the powder's bulk density lets them hold."""
    sets = spoons_for(powder, mass, spoons)
    if not sets:
        return None
    return Way(
        kind="spoons",
        measures=tuple(sets[0].names),
        wanted=mass,
        low=Quantity(Dimension.MASS, sets[0].mass_low_ug),
        high=Quantity(Dimension.MASS, sets[0].mass_high_ug),
        ground=f"bulk density {powder.bulk_low_g_per_ml} to {powder.bulk_high_g_per_ml} g/mL",
    )


def spoon_weighed(mass: Quantity, spoons: Sequence[WeighedSpoon]) -> Way | None:
    """Choose the fewest spoonfuls nearest to a mass, of spoons whose fill was weighed."""
    picked = [spoons[index] for index in pick_spoonfuls(mass.quanta, [one.mean_ug for one in spoons])]
    if not picked:
        return None
    once = any(len(one.masses_ug) == 1 for one in picked)
    return Way(
        kind="weighed spoons",
        measures=tuple(one.name for one in picked),
        wanted=mass,
        low=Quantity(Dimension.MASS, sum(one.span_ug[0] for one in picked)),
        high=Quantity(Dimension.MASS, sum(one.span_ug[1] for one in picked)),
        ground="weighed here" + (", once: the scatter is a judgement" if once else ""),
    )
