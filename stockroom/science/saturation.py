"""The mass balance of a jar kept over its solid: what is dissolved, undissolved, drawn and used up, to the microgram.

Every line of a balance is kept in whole micrograms and loses none: dissolved + undissolved + drawn + lost is what was
put in. Three lines are kept, because purity and solubility are ranges: the one that leaves least solid, the best, and
the one that leaves most. A gram in a litre is a microgram in a microlitre.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from stockroom.errors import BadInput
from stockroom.science.ranges import Range, Used
from stockroom.science.sharing import round_half_even_ratio
from stockroom.science.solubility import saturation_at, used_up_by


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """Solid put in; it dissolves when the jar is next filled or shaken. `purity` is in %."""

    mass_ug: int
    purity: Range


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """Water put in, shaken over the solid and settled at a temperature; hardness in mg/L as calcium carbonate."""

    volume_ul: int
    celsius: float
    hardness_mg_per_l: float = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Shaken:
    """Shaken again over the solid and settled at a temperature."""

    celsius: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """Clear liquid taken, poured away or spilt."""

    volume_ul: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """The clear liquid found to be so much, what was dissolved having stayed in the jar: evaporated, or misread."""

    volume_ul: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PouredIn:
    """Clear liquid of the jar's own strength poured in from another jar."""

    volume_ul: int


Event = Solid | Fill | Shaken | Drawn | Counted | PouredIn
_Bound = Literal["low", "best", "high"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """Where the pure substance is, in micrograms."""

    put_in_ug: int = 0
    dissolved_ug: int = 0
    undissolved_ug: int = 0
    drawn_ug: int = 0
    lost_ug: int = 0
    """Used up by hard water; it lies in the jar as carbonate."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """A jar's substance by three lines, its clear liquid, and what that was worked out from."""

    least: Line
    best: Line
    most: Line
    volume_ul: int
    settled_celsius: float | None
    rewettings: int
    """How often water was put on the solid again after the first filling."""
    used: tuple[Used, ...]

    @property
    def undissolved(self) -> Range:
        """The solid left, in grams of pure substance."""
        return self._over([line.undissolved_ug / 1_000_000 for line in self._lines], "g")

    @property
    def strength(self) -> Range | None:
        """The strength in g/L as last settled; None where there is no liquid."""
        if not self.volume_ul:
            return None
        return self._over([line.dissolved_ug / self.volume_ul for line in self._lines], "g/L")

    @property
    def _lines(self) -> tuple[Line, Line, Line]:
        return self.least, self.best, self.most

    def _over(self, values: list[float], unit: str) -> Range:
        # A line that ran out of solid is the weakest, whatever its solubility: the ends are not always the outer lines.
        return Range(low=min(values), best=values[1], high=max(values), unit=unit)


@dataclass(frozen=True, slots=True, kw_only=True)
class Refills:
    """How many refills of a size the solid can still saturate, from what."""

    refills: Range
    volume_ul: int
    used: tuple[Used, ...]

    @property
    def at_least(self) -> int:
        """Whole refills that are sure: the lower end."""
        return int(self.refills.low)


def balance_jar(history: Sequence[Event]) -> Balance:
    """Fold what happened to a jar, in its order, into a balance.

    Raises BadInput where more is drawn than the jar holds, nothing was put in, or a temperature is off the table.
    """
    if not any(isinstance(event, Solid) for event in history):
        raise BadInput("No solid was ever put into this jar: it has no balance. Book what solid it was made with.")
    volume, celsius, fills = 0, None, 0
    used: dict[str, Used] = {}
    for event in history:
        match event:
            case Solid(mass_ug=mass, purity=purity):
                _check_amount(mass, "solid")
                if not 0 < purity.low <= purity.high <= 101:
                    raise BadInput(f"A purity of {purity.low:g} to {purity.high:g} % cannot be. Write it like 95 %.")
                used.setdefault(f"purity {purity}", Used(what="purity of the solid", figure=purity))
            case Fill(volume_ul=added):
                _check_amount(added, "water")
                volume, celsius, fills = volume + added, event.celsius, fills + 1
                saturated, spent = saturation_at(celsius), used_up_by(event.hardness_mg_per_l)
                used[saturated.what] = saturated
                if event.hardness_mg_per_l:
                    used[f"{spent.what} {event.hardness_mg_per_l}"] = spent
            case Shaken():
                celsius = event.celsius
                saturated = saturation_at(celsius)
                used[saturated.what] = saturated
            case Drawn(volume_ul=drawn):
                _check_amount(drawn, "liquid")
                if drawn > volume:
                    raise BadInput(
                        f"{drawn / 1_000:g} mL is more than the {volume / 1_000:g} mL in the jar. Count the jar first.",
                        drawn_ml=drawn / 1_000,
                        holds_ml=volume / 1_000,
                    )
                volume -= drawn
            case PouredIn(volume_ul=added):
                _check_amount(added, "liquid")
                volume += added
            case Counted(volume_ul=found):
                if found < 0:
                    raise BadInput("A jar cannot hold less than nothing. Look at the count.")
                volume = found
    return Balance(
        least=_fold(history, "high", "low"),
        best=_fold(history, "best", "best"),
        most=_fold(history, "low", "high"),
        volume_ul=volume,
        settled_celsius=celsius,
        rewettings=max(0, fills - 1),
        used=tuple(used.values()),
    )


def refills_left(balance: Balance, volume_ul: int, celsius: float, hardness_mg_per_l: float = 0) -> Refills:
    """Say how many refills of a size, at a temperature and of a water, the solid can still saturate.

    Raises BadInput off the table or for a refill of nothing.
    """
    _check_amount(volume_ul, "water")
    saturated, spent = saturation_at(celsius), used_up_by(hardness_mg_per_l)
    solid = balance.undissolved

    def refills(grams: float, strength: float) -> float:
        return grams * 1_000_000 / ((strength + spent.figure.best) * volume_ul)

    return Refills(
        refills=Range(
            low=refills(solid.low, saturated.figure.high),
            best=refills(solid.best, saturated.figure.best),
            high=refills(solid.high, saturated.figure.low),
            unit="refills",
        ),
        volume_ul=volume_ul,
        used=(Used(what="solid left", figure=solid), saturated, spent, *balance.used),
    )


def _fold(history: Sequence[Event], solubility: _Bound, purity: _Bound) -> Line:
    line, volume, celsius = Line(), 0, None
    for event in history:
        match event:
            case Solid(mass_ug=mass):
                pure = _rounded(mass * Fraction(getattr(event.purity, purity)) / 100)
                line = replace(line, put_in_ug=line.put_in_ug + pure, undissolved_ug=line.undissolved_ug + pure)
            case Fill(volume_ul=added):
                volume, celsius = volume + added, event.celsius
                hard = _rounded(Fraction(used_up_by(event.hardness_mg_per_l).figure.best) * added)
                line = _settle(_use_up(line, hard), volume, celsius, solubility)
            case Shaken():
                celsius = event.celsius
                line = _settle(line, volume, celsius, solubility)
            case Drawn(volume_ul=drawn):
                out = round_half_even_ratio(line.dissolved_ug * drawn, volume)
                volume -= drawn
                line = replace(line, dissolved_ug=line.dissolved_ug - out, drawn_ug=line.drawn_ug + out)
            case PouredIn(volume_ul=added) if volume:
                came = round_half_even_ratio(line.dissolved_ug * added, volume)
                volume += added
                line = replace(line, put_in_ug=line.put_in_ug + came, dissolved_ug=line.dissolved_ug + came)
            case PouredIn(volume_ul=added) | Counted(volume_ul=added):
                volume = added
                if celsius is not None:
                    line = _settle(line, volume, celsius, solubility)
    return line


def _use_up(line: Line, wanted_ug: int) -> Line:
    """Let hard water use up what there is, the solid first."""
    from_solid = min(line.undissolved_ug, wanted_ug)
    from_liquid = min(line.dissolved_ug, wanted_ug - from_solid)
    return replace(
        line,
        undissolved_ug=line.undissolved_ug - from_solid,
        dissolved_ug=line.dissolved_ug - from_liquid,
        lost_ug=line.lost_ug + from_solid + from_liquid,
    )


def _settle(line: Line, volume_ul: int, celsius: float, solubility: _Bound) -> Line:
    """Dissolve as much as the liquid holds, or let out what it no longer holds."""
    holds = _rounded(Fraction(getattr(saturation_at(celsius).figure, solubility)) * volume_ul)
    there = line.dissolved_ug + line.undissolved_ug
    dissolved = min(there, holds)
    return replace(line, dissolved_ug=dissolved, undissolved_ug=there - dissolved)


def _rounded(exact: Fraction) -> int:
    return round_half_even_ratio(exact.numerator, exact.denominator)


def _check_amount(amount: int, of: str) -> None:
    if amount <= 0:
        raise BadInput(f"The amount of {of} must be more than nothing.")
