"""Humidity over saturated salts: what the tables say, whether a jar keeps to it, and how much salt makes one.

Sources disagree by up to 2 % RH; the answer spans them. A hydrate brings water of its own, so that far more of it is
needed than of the anhydrous salt.
"""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.errors import BadInput, NotFound
from stockroom.science.numerals import quoted
from stockroom.science.ranges import Range, Used, exactly, give_or_take, show_range, spread
from stockroom.science.reference import Row, rows
from stockroom.science.temperature import check_temperature, curve, row_of
from stockroom.science.verdicts import NEXT_STEPS, Verdict, Word

_SOURCES = ("Greenspan", "Padfield", "CRC")
_OFF_BY = ("any salt", "solubility may be off by")
_WATERS_OF_SIX = "molar mass of the hexahydrate"


@dataclass(frozen=True, slots=True, kw_only=True)
class MakeUp:
    """Grams of a salt, as it is weighed, that saturate 100 g of water, with nothing over."""

    salt: str
    as_weighed: str
    """`anhydrous` or `hexahydrate`."""
    grams: Range
    used: tuple[Used, ...]


def find_salt(name: str) -> str:
    """Find a humidity salt by its name or an unambiguous part of it. Raises NotFound, naming those that are known."""
    known = list(dict.fromkeys(row.of for row in rows("salt_humidity") if row.of != "any salt"))
    asked = " ".join(name.casefold().replace("sulph", "sulf").replace("-", " ").split())
    found = [salt for salt in known if salt == asked] or [salt for salt in known if asked and asked in salt]
    if len(found) != 1:
        which = "names more than one salt" if found else "is not a salt whose humidity is known here"
        raise NotFound(f"{quoted(name)} {which}. Known are {', '.join(found or known)}.", known=found or known)
    return found[0]


def salt_in(name: str) -> str | None:
    """Return the humidity salt that a material's name speaks of, or None: `Magnesium chloride hexahydrate`."""
    words = " ".join(name.casefold().replace("sulph", "sulf").split())
    known = dict.fromkeys(row.of for row in rows("salt_humidity") if row.of != "any salt")
    return next((salt for salt in known if salt in words), None)


def humidity_over(salt: str, celsius: float) -> Used:
    """Give the humidity in % RH over a saturated salt, across the sources. Raises BadInput off the table."""
    values: list[float] = []
    found: list[Row] = []
    limits = []
    for source in _SOURCES:
        try:
            table = curve("salt_humidity", salt, f"humidity by {source}")
        except NotFound:
            continue
        limits.append(table.limits)
        # A source that ends earlier is left out where it ends.
        if table.limits[0] <= celsius <= table.limits[1]:
            value, read = table.at(celsius)
            values.append(value)
            found.extend(read)
    if not limits:
        raise NotFound(f"No humidity over {salt} is known here.")
    check_temperature(
        celsius, min(low for low, _ in limits), max(high for _, high in limits), f"the humidity over {salt}"
    )
    return Used(what=f"humidity over {salt} at {celsius:g} °C", figure=spread(values, "% RH"), rows=tuple(found))


def judge_humidity(
    salt: str, reading: float, error: float, celsius: float, *, tolerance: Used | float | None = None
) -> Verdict:
    """Judge a salt jar by a reading in % RH with the meter's error, against the table at that temperature.

    `tolerance` is what the studio accepts beside the table, in % RH, else the table's. Raises BadInput.
    """
    if not 0 <= reading <= 100:
        raise BadInput(f"{reading:g} % RH is no humidity: 0 to 100 is read. Look at the number and its sign.")
    if not 0 <= error <= 50:
        raise BadInput(f"An error of {error:g} % RH is not one of a meter: write it like 2.")
    if tolerance is None:
        row = row_of("salt_humidity", "any salt", "humidity may be off by")
        tolerance = Used(what="may be off by", figure=exactly(float(row.span[0]), "% RH"), rows=(row,))
    elif not isinstance(tolerance, Used):
        tolerance = Used(what="may be off by", figure=exactly(tolerance, "% RH"))
    allowed = tolerance.figure.best
    if not 0 <= allowed <= 50:
        raise BadInput(f"A tolerance of {allowed:g} % RH is none: write it like 5.")
    expected, read = humidity_over(salt, celsius), give_or_take(reading, error, "% RH")
    least, most = expected.figure.low - allowed, expected.figure.high + allowed
    word: Word = "cannot tell"
    next_step = "Read again with a meter of a smaller error, after a day in a closed box at an even temperature."
    if least <= read.low and read.high <= most:
        word, next_step = "fit", NEXT_STEPS["fit"]
    elif read.low > most:
        word, next_step = (
            "unfit",
            "Too humid: stir, pour off liquid and add salt until solid stays visible; wait a day.",
        )
    elif read.high < least:
        word, next_step = "unfit", "Too dry: not yet at rest, or dried out. Add water, keep solid visible; wait a day."
    return Verdict(
        word=word,
        why=f"{show_range(read)} was read; over {salt} it should be {show_range(expected.figure)}, give or take"
        f" {allowed:g} % RH.",
        next_step=next_step,
        used=(
            Used(what="humidity read", figure=read),
            expected,
            tolerance,
        ),
        cautions=("It is right only while solid is visible, at an even temperature; salts creep over the rim.",),
    )


def solubility_of(salt: str, celsius: float) -> Used:
    """Give grams of the anhydrous salt that 100 g of water holds. Raises BadInput off the table, or NotFound."""
    error = row_of("salt_solubility", *_OFF_BY)
    found: tuple[Row, ...]
    try:
        grams, found = curve("salt_solubility", salt, "solubility").at(celsius)
    except NotFound:
        moles, found = curve("salt_solubility", salt, "molality").at(celsius)
        mass = row_of("salt_solubility", salt, "molar mass")
        grams, found = moles * float(mass.span[0]) / 10, (*found, mass)
    figure = give_or_take(grams, grams * float(error.span[0]) / 100, "g/100 g water")
    return Used(what=f"solubility of {salt} at {celsius:g} °C, anhydrous", figure=figure, rows=(*found, error))


def hydrate_for(anhydrous_g: float, anhydrous_mass: float, hydrate_mass: float) -> float:
    """Give grams of a hydrate for 100 g of water, where so many grams of the anhydrous salt would serve.

    x = 100 n M(hydrate) / (100 - n (M(hydrate) - M(anhydrous))), with n moles for 100 g of water in all: the crystals'
    own water counts as water. Raises BadInput where the crystals alone hold more water than the salt needs.
    """
    if not (anhydrous_g > 0 and 0 < anhydrous_mass < hydrate_mass):
        raise BadInput("A hydrate weighs more than the salt in it, and the amount must be more than nothing.")
    moles = anhydrous_g / anhydrous_mass
    water_left = 100 - moles * (hydrate_mass - anhydrous_mass)
    if water_left <= 0:
        raise BadInput("The crystals bring more water than the salt needs: they dissolve in their own.")
    return 100 * moles * hydrate_mass / water_left


def make_up_salt(salt: str, celsius: float, *, hydrate: bool = False) -> MakeUp:
    """Say how much salt saturates 100 g of water; more must be added so that solid stays. Raises BadInput, NotFound."""
    soluble = solubility_of(salt, celsius)
    if not hydrate:
        return MakeUp(salt=salt, as_weighed="anhydrous", grams=soluble.figure.times(1, "g"), used=(soluble,))
    anhydrous, hexahydrate = (row_of("salt_solubility", salt, what) for what in ("molar mass", _WATERS_OF_SIX))
    low, best, high = (
        hydrate_for(grams, float(anhydrous.span[0]), float(hexahydrate.span[0]))
        for grams in (soluble.figure.low, soluble.figure.best, soluble.figure.high)
    )
    masses = [
        Used(what=row.what, figure=exactly(float(row.span[0]), row.unit), rows=(row,))
        for row in (anhydrous, hexahydrate)
    ]
    return MakeUp(
        salt=salt,
        as_weighed="hexahydrate",
        grams=Range(low=low, best=best, high=high, unit="g"),
        used=(soluble, *masses),
    )
