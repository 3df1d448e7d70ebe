"""Strengths of solutions, what must be weighed or measured for them, and dilution.

Per cent w/v is grams in 100 mL of solution, v/v millilitres in 100 mL, w/w grams in 100 g (United States
Pharmacopeia, general notices, "percentage measurements"). Sums are exact fractions, rounded once at the end.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal, localcontext
from fractions import Fraction

from stockroom.errors import BadInput, Unreadable
from stockroom.science.numerals import NUMERAL, quoted, read_decimal, tidy
from stockroom.science.quantities import Dimension, Quantity, show
from stockroom.science.ratios import refuse_bare_ratio
from stockroom.science.sharing import round_half_even_ratio

Number = Decimal | Fraction | int

UNITS = ("% w/v", "% v/v", "% w/w", "g/L", "mol/L", "mmol/L", "ppm")
_MOST = Decimal(1_000_000)
_SPELLINGS: dict[str, tuple[str, Decimal]] = {
    **{unit.lower().replace(" ", ""): (unit, Decimal(1)) for unit in UNITS},
    "%m/v": ("% w/v", Decimal(1)),
    "%m/m": ("% w/w", Decimal(1)),
    "g/100ml": ("% w/v", Decimal(1)),
    "ml/100ml": ("% v/v", Decimal(1)),
    "g/litre": ("g/L", Decimal(1)),
    "mg/l": ("g/L", Decimal("0.001")),
    "mg/ml": ("g/L", Decimal(1)),
    "g/ml": ("g/L", Decimal(1000)),
    "mol/litre": ("mol/L", Decimal(1)),
    "mol/dm3": ("mol/L", Decimal(1)),
    "g/dm3": ("g/L", Decimal(1)),
}
_CASED = {"M": "mol/L", "mM": "mmol/L"}
_STRENGTH = rf"(?P<number>{NUMERAL}) ?(?P<unit>(?:[%A-Za-z]|per cent|percent).*)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """How much of a substance a solution holds; `unit` is one of `UNITS`."""

    number: Decimal
    unit: str

    def show(self) -> str:
        """Write it so that it reads back as the same: `0.5 % w/v`, `1.6 g/L`."""
        return f"{_plain(self.number)} {self.unit}"

    def show_about(self, digits: int = 2) -> str:
        """Write it rounded half-even to so many significant digits: `about 0.53 g/L`."""
        with localcontext() as context:
            context.prec = digits
            return f"about {_plain(+self.number)} {self.unit}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dilution:
    """Take so much stock and make it up with the diluent to the whole volume."""

    stock: Quantity
    make_up_to: Quantity
    strength: Strength | None
    """Of the finished solution; None where the stock's is not known."""


def read_purity_of_solid(text: str) -> Strength:
    """Read what part of a solid is the substance; a bare `95 %` can only be by mass. Raises BadInput."""
    return read_strength(f"{text} w/w" if text.rstrip().endswith("%") else text)


def read_strength(text: str) -> Strength:
    """Read a strength: `0.5 % w/v`, `4 g/L`, `0,1 mol/L`, `70 % v/v`, `0.1 M`. Raises Unreadable."""
    plain = tidy(text)
    match = re.fullmatch(_STRENGTH, plain)
    if not match:
        refuse_bare_ratio(text)
        raise Unreadable(
            f"{quoted(text)} cannot be read as a strength. Write it like 0.5 % w/v, 4 g/L or 0.1 mol/L.",
            read=text,
        )
    number, unit, factor = read_decimal(match["number"]), *_find_unit(match["unit"].strip(), text)
    if not 0 < number <= _MOST:
        raise Unreadable(f"{quoted(text)} is not a strength that can be: look at the number.", read=text)
    if unit in ("% v/v", "% w/w") and number > 100:
        raise Unreadable(f"{quoted(text)} is more than the whole: at most 100 {unit}.", read=text)
    with localcontext() as context:
        context.prec = 300
        return Strength(number=number * factor, unit=unit)


def _find_unit(word: str, text: str) -> tuple[str, Decimal]:
    if word in _CASED:
        return _CASED[word], Decimal(1)
    plain = re.sub(r"[()\s]", "", word.replace("percent", "%").replace("per cent", "%").replace(" per ", "/"))
    plain = plain.lower()
    if plain == "%":
        readings = [f"{text.strip()} {kind}" for kind in ("w/v", "v/v", "w/w")]
        raise Unreadable(
            f"{quoted(text)} can be g in 100 mL (w/v), mL in 100 mL (v/v) or g in 100 g (w/w)."
            " Write which one is meant, such as 0.5 % w/v.",
            read=text,
            readings=readings,
        )
    if plain not in _SPELLINGS:
        raise Unreadable(
            f"{quoted(text)}: {quoted(word)} is no unit of strength. Accepted are {', '.join(UNITS)}.",
            read=text,
        )
    return _SPELLINGS[plain]


def grams_per_litre(
    strength: Strength,
    *,
    molar_mass: Number | None = None,
    density_g_per_ml: Number | None = None,
    solute_density_g_per_ml: Number | None = None,
) -> Fraction:
    """Give grams of the substance in a litre of solution, exactly.

    mol/L needs the molar mass (g/mol), % w/w and ppm (by mass) the density of the solution, % v/v that of
    the pure liquid. Raises BadInput naming what is missing.
    """
    number = Fraction(strength.number)
    match strength.unit:
        case "g/L":
            return number
        case "% w/v":
            return 10 * number
        case "mol/L":
            return number * _needed(molar_mass, "molar mass", strength)
        case "mmol/L":
            return number * _needed(molar_mass, "molar mass", strength) / 1_000
        case "% w/w":
            return 10 * number * _needed(density_g_per_ml, "density of the solution", strength)
        case "ppm":
            return number * _needed(density_g_per_ml, "density of the solution", strength) / 1_000
        case "% v/v":
            return 10 * number * _needed(solute_density_g_per_ml, "density of the pure liquid", strength)
        case unit:
            raise BadInput(f"“{unit}” is not a unit of strength. Accepted are {', '.join(UNITS)}.")


def solute_for(
    strength: Strength,
    volume: Quantity,
    *,
    molar_mass: Number | None = None,
    purity: Fraction | None = None,
    hydrate_factor: Fraction | None = None,
    density_g_per_ml: Number | None = None,
) -> Quantity:
    """Give what to weigh (or, for % v/v, to measure) for so much finished solution, rounded once half-even.

    `purity` is the share of the bottle's content that is the substance. `hydrate_factor` is grams as weighed
    for a gram of the substance named (citric acid monohydrate for anhydrous: 1.094); it is not used for mol/L
    and mmol/L, whose `molar_mass` is that of the material as it is weighed. `density_g_per_ml` is that of the
    finished solution. Raises BadInput.
    """
    _check_volume(volume)
    if purity is not None and not 0 < purity <= 1:
        raise BadInput("Purity must be more than nothing and at most 100 %.")
    if hydrate_factor is not None and hydrate_factor < 1:
        raise BadInput("A hydrate weighs at least as much as the substance in it: its factor is 1 or more.")
    if strength.unit == "% v/v":
        dimension, exact = Dimension.VOLUME, Fraction(strength.number) * volume.quanta / 100
    else:
        # A gram in a litre is a microgram in a microlitre.
        per_litre = grams_per_litre(strength, molar_mass=molar_mass, density_g_per_ml=density_g_per_ml)
        dimension, exact = Dimension.MASS, per_litre * volume.quanta
        if strength.unit not in ("mol/L", "mmol/L"):
            exact *= hydrate_factor or 1
    return _rounded(dimension, exact / (purity or 1))


def dilute(stock_strength: Strength | None, parts: Fraction, make_up_to: Quantity) -> Dilution:
    """Take a share of stock, such as 1 in 4, and make it up to volume. Raises BadInput."""
    _check_volume(make_up_to)
    if not 0 < parts <= 1:
        raise BadInput("The share of stock must be more than nothing and at most the whole.")
    strength = None
    if stock_strength:
        diluted = Fraction(stock_strength.number) * parts
        with localcontext() as context:
            context.prec = 12
            number = Decimal(diluted.numerator) / Decimal(diluted.denominator)
        strength = Strength(number=number.normalize(), unit=stock_strength.unit)
    return Dilution(
        stock=_rounded(Dimension.VOLUME, parts * make_up_to.quanta), make_up_to=make_up_to, strength=strength
    )


def dilute_to(
    stock: Strength,
    wanted: Strength,
    make_up_to: Quantity,
    *,
    molar_mass: Number | None = None,
    stock_density_g_per_ml: Number | None = None,
    wanted_density_g_per_ml: Number | None = None,
    solute_density_g_per_ml: Number | None = None,
) -> Dilution:
    """Say how much stock makes a weaker solution of the wanted strength. Raises BadInput.

    Strengths in different units, and % w/w, are compared in grams a litre, for which see `grams_per_litre`.
    """
    _check_volume(make_up_to)
    if stock.unit == wanted.unit and stock.unit not in ("% w/w", "ppm"):
        have, want = Fraction(stock.number), Fraction(wanted.number)
    else:
        have, want = (
            grams_per_litre(
                strength,
                molar_mass=molar_mass,
                density_g_per_ml=density,
                solute_density_g_per_ml=solute_density_g_per_ml,
            )
            for strength, density in ((stock, stock_density_g_per_ml), (wanted, wanted_density_g_per_ml))
        )
    if want > have:
        raise BadInput(
            f"{wanted.show()} cannot be made from {stock.show()}: the stock is weaker than that."
            f" At most {stock.show()} can be had, which is the stock itself.",
            limit=stock.show(),
        )
    stock_volume = _rounded(Dimension.VOLUME, want / have * make_up_to.quanta)
    return Dilution(stock=stock_volume, make_up_to=make_up_to, strength=wanted)


def _needed(value: Number | None, name: str, strength: Strength) -> Fraction:
    if value is None:
        raise BadInput(f"{strength.show()} can only be worked out with the {name}, which is not known.")
    if value <= 0:
        raise BadInput(f"The {name} must be greater than nothing.")
    return Fraction(value)


def _check_volume(volume: Quantity) -> None:
    if volume.dimension is not Dimension.VOLUME or volume.quanta <= 0:
        raise BadInput(f"A solution is made up to a volume, such as 500 mL; {show(volume)} is not one.")


def _rounded(dimension: Dimension, exact: Fraction) -> Quantity:
    quanta = round_half_even_ratio(exact.numerator, exact.denominator)
    if quanta == 0:
        raise BadInput("That is too little to weigh or measure. Make up more, or dilute in two steps.")
    return Quantity(dimension, quanta)


def _plain(number: Decimal) -> str:
    """Write a decimal without exponent or trailing zeros."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
