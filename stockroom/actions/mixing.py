"""What making and using have in common: lines as a person measures them, strength as it was mixed, readings."""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation
from fractions import Fraction

from stockroom.actions.drawing import Choices, DrawPlan, LineDraws
from stockroom.domain.occasion import Occasion
from stockroom.domain.recipes import Recipe
from stockroom.errors import BadInput, Refused
from stockroom.planning.requirements import Need, measurable
from stockroom.planning.steps import Measured
from stockroom.science.amounts import OfStrength, Share, ToReading, show_amount
from stockroom.science.quantities import Quantity, show, show_about
from stockroom.science.reading import read_quantity
from stockroom.science.strengths import Strength


def measured_lines(plan: DrawPlan) -> list[Measured]:
    """Say for each material what is measured for one fill, and from which lots; what is dosed by meter, to what."""
    measured = [
        Measured(key=line.need.material.key, words=_words(line), fills_up=line.need.made_up_to is not None)
        for line in plan.lines
    ]
    if plan.waits_for is not None:
        measured.append(Measured(key=plan.waits_for.material.key, words=waiting_words(plan) or ""))
    return measured


def _words(line: LineDraws) -> str:
    need = line.need
    amount = line.per_fill or line.quantity
    times = f" for each of {need.fills} fills" if need.fills > 1 and line.per_fill else ""
    about = "about " if need.made_up_to else ""
    name = line.stands_in.name if line.stands_in else need.material.name
    codes = [draw.lot.code for draw in line.draws]
    if len(codes) > 1 and need.fills == 1:
        shares = " and ".join(f"{show(Quantity(amount.dimension, d.quantity))} from {d.lot.code}" for d in line.draws)
        return f"{about}{show(amount)} of {name} ({shares})"
    place = f" ({', then '.join(codes)})" if codes else ""
    return f"{about}{show(amount)} of {name}{place}{times}"


def waiting_words(plan: DrawPlan) -> str | None:
    """Say which line waits for a reading, and how to book it then."""
    need = plan.waits_for
    if need is None or need.line.amount is None:
        return None
    dose = f", beginning with {_first_dose(need)}" if need.line.first_dose else ""
    each = f", each of {need.fills} fills anew" if need.fills > 1 else ""
    return f"{need.material.name} {show_amount(need.line.amount)}{dose}{each}"


def _first_dose(need: Need) -> str:
    """Return where to begin at this amount: the recipe's dose is for its usual one."""
    typed = need.line.first_dose or ""
    if need.batches == 1:
        return typed
    dose = read_quantity(typed).quantity
    return show_about(Quantity(dose.dimension, measurable(dose.quanta * need.batches)))


def stated_strength(recipe: Recipe, plan: DrawPlan, more: Fraction = Fraction(1)) -> str | None:
    """Return a solution's strength: as its recipe states it, or as its strength line was really measured.

    `more` is the planned over the actual volume. A strength that differs from the recipe's is told to three
    significant digits, which is what weighing and filling up can hold.
    """
    version = recipe.version
    line = next((one for one in plan.lines if one.need.line.position == version.strength_line), None)
    if line is None or line.need.recipe != recipe.key:
        return version.strength
    amount = line.need.line.amount
    if isinstance(amount, OfStrength):
        return scaled_strength(amount.strength, line.ratio * more)
    if isinstance(amount, Share) and version.strength is None:
        strengths = {draw.lot.strength for draw in line.draws}
        return (
            f"{show_share(amount.parts * line.ratio * more)} of {strengths.pop() or 'the stock'}" if strengths else None
        )
    return version.strength


def show_share(parts: Fraction) -> str:
    """Write a share for people: `1 in 4`, or as a percentage where it is no round one."""
    if parts.numerator < 10 and parts.denominator < 100:
        return f"{parts.numerator} in {parts.denominator}"
    return f"{float(parts * 100):.3g} %"


def scaled_strength(strength: Strength, ratio: Fraction) -> str:
    if ratio == 1:
        return strength.show()
    exact = Fraction(strength.number) * ratio
    number = Decimal(exact.numerator) / Decimal(exact.denominator)
    rounded = Decimal(f"{number:.3g}")
    return Strength(number=rounded, unit=strength.unit).show()


def temperature_detail(typed: str | None) -> dict[str, object]:
    """Return the temperature of an action as it is kept: degrees Celsius as typed and as read. Raises Unreadable."""
    if typed is None:
        return {}
    from stockroom.science.temperature import read_celsius

    return {"temperature": typed, "celsius": read_celsius(typed)}


def check_reading(plan: DrawPlan, choices: Choices, occasion: Occasion) -> str | None:
    """Return what a label says of a solution measured to a reading, with its clock time; each fill has its own.

    Raises BadInput where a reading is missing or unreadable, Refused where it lies outside the recipe's range and
    no reason is given.
    """
    line = next((one for one in plan.lines if isinstance(one.need.line.amount, ToReading)), None)
    if line is None:
        if choices.added or choices.reached:
            raise BadInput("--added and --reached are for recipes measured to a reading; this one is not.")
        return None
    wanted = line.need.line.amount
    if not isinstance(wanted, ToReading):
        raise TypeError(wanted)
    readings = [one.strip() for one in (choices.reached or "").split(";") if one.strip()]
    if not readings:
        raise BadInput(f"What did the meter read? Say --reached '{wanted.measure} {wanted.low}'.")
    fills = line.need.fills
    if len(readings) != fills:
        raise BadInput(
            f"Each of the {fills} fills is measured anew; {len(readings)} told. Say --reached once for each fill that "
            f"was poured, or --fills {len(readings)}."
        )
    for one in readings:
        _check_one_reading(wanted, one, occasion)
    return f"to {' and '.join(readings)}, {occasion.local:%H:%M}"


def _check_one_reading(wanted: ToReading, told: str, occasion: Occasion) -> None:
    said, _, temperature = told.partition(" at ")
    match = re.search(r"(\d+(?:[.,]\d+)?)", said)
    try:
        reading = Decimal(match[1].replace(",", ".")) if match else None
    except InvalidOperation:
        reading = None
    if reading is None:
        raise BadInput(f"'{told}' is not a reading. Write it like '{wanted.measure} {wanted.low} at 21 °C'.")
    if not wanted.low <= reading <= wanted.high and not occasion.reason:
        raise Refused(
            f"{wanted.measure} {reading} is outside {wanted.low} to {wanted.high}. Go on to the range, or say why "
            "it is used all the same with --why."
        )
    if temperature:
        _check_bath_temperature(temperature)


def _check_bath_temperature(typed: str) -> None:
    """Refuse a temperature at which water is not liquid. Raises Unreadable, BadInput."""
    from stockroom.science.temperature import read_celsius

    if not 0 <= read_celsius(typed) <= 100:
        raise BadInput(f"'{typed}' is not a temperature of a bath. Look at the thermometer: 0 to 100 °C is read here.")
