"""`calc`: the bench's sums alone, without a stockroom."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.calc_cut import cut
from stockroom.cli.calc_order import order_size
from stockroom.cli.calc_reorder import reorder
from stockroom.cli.calc_solutions import saturated, strength, titrate
from stockroom.cli.output import Output, json_number, json_option
from stockroom.errors import BadInput, Unreadable
from stockroom.science.quantities import Dimension, Quantity, show, show_about

if TYPE_CHECKING:
    from stockroom.science.powders import Powder, PowderPlan, SpoonReading

_ML = 1_000
_GRAM = 1_000_000


@click.group()
def calc() -> None:
    """Work out a dilution, powder, bath, strength, cut or order point; nothing is booked."""


calc.add_command(saturated)
calc.add_command(titrate)
calc.add_command(strength)
calc.add_command(cut)
calc.add_command(reorder)
calc.add_command(order_size)


@calc.command()
@click.option("--stock", metavar="STRENGTH", help="The stock's strength, such as 1.6 g/L, where it is known.")
@click.option("--parts", help="The share of stock: 1 in 4, or 1 + 3.")
@click.option("--to", "wanted", metavar="STRENGTH", help="Instead of --parts: the strength that is wanted.")
@click.option("--make", required=True, metavar="VOLUME", help="The finished volume, such as 500 mL.")
@click.option("--molar-mass", metavar="NUMBER", help="In g/mol; with --to, from or into mol/L.")
@click.option(
    "--stock-density",
    "stock_density_g_per_ml",
    metavar="NUMBER",
    help="Of the stock in g/mL; with --to, from % w/w or ppm.",
)
@click.option(
    "--density",
    "wanted_density_g_per_ml",
    metavar="NUMBER",
    help="Of what is made in g/mL; with --to, into % w/w or ppm.",
)
@click.option(
    "--solute-density",
    "solute_density_g_per_ml",
    metavar="NUMBER",
    help="Of the pure liquid in g/mL; with --to, from or into % v/v.",
)
@json_option
@click.pass_obj
def dilute(
    output: Output, /, stock: str | None, parts: str | None, wanted: str | None, make: str, **figures: str | None
) -> None:
    """Say how much stock to measure and what strength comes out.

    \b
    Examples: stockroom calc dilute --stock "1.6 g/L" --parts "1 in 4" --make "500 mL"
              stockroom calc dilute --stock "96 % v/v" --to "50 % v/v" --make "1 L"
    """
    from stockroom.science.numerals import read_decimal
    from stockroom.science.ratios import read_parts, show_parts
    from stockroom.science.reading import read_quantity
    from stockroom.science.strengths import dilute, dilute_to, grams_per_litre, read_strength

    volume = read_quantity(make, expect=Dimension.VOLUME).quantity
    share = None if parts is None else read_parts(parts)
    if (share is None) == (wanted is None):
        raise BadInput("Say either --parts, the share of stock, or --to, the strength that is wanted.")
    strong = read_strength(stock) if stock else None
    if share is not None:
        made = dilute(strong, share, volume)
    elif strong is None:
        raise BadInput("How strong is the stock? With --to say --stock too, such as --stock '1.6 g/L'.")
    else:
        known = {name: read_decimal(typed) for name, typed in figures.items() if typed}
        made = dilute_to(strong, read_strength(wanted or ""), volume, **known)
    strength = made.strength
    in_mass = strength and strength.unit in ("g/L", "% w/v")
    output.document(
        {
            "stock_ml": json_number(Fraction(made.stock.quanta, _ML)),
            "make_up_to_ml": json_number(Fraction(volume.quanta, _ML)),
            "strength_g_per_l": json_number(grams_per_litre(strength)) if strength and in_mass else None,
            "strength": {"number": json_number(strength.number), "unit": strength.unit} if strength else None,
            "parts": show_parts(share) if share else None,
        }
    )
    in_words = f": {_parts_in_words(share)}" if share else ""
    output.say(f"Measure {_to_measure(made.stock)} of the stock and make it up to {show(volume)}{in_words}.")
    if strength:
        output.say(f"That gives {_about(strength.number)} {strength.unit}.")


@calc.command()
@click.argument("name")
@click.option("--strength", required=True, help="The wanted strength, such as 0.5 % w/v.")
@click.option("--make", required=True, metavar="VOLUME", help="The finished volume, such as 500 mL.")
@click.option("--molar-mass", metavar="NUMBER", help="In g/mol, as weighed; needed for mol/L.")
@click.option("--purity", metavar="PERCENT", help="Of the powder, such as 98.")
@click.option("--density", metavar="NUMBER", help="Of the particles in g/mL, instead of the table's; with --bulk.")
@click.option("--bulk", metavar="LOW-HIGH", help="Of the poured powder in g/mL, such as 0.25-0.7; with --density.")
@click.option("--spoons", type=click.Choice(["metric", "us"]), default="metric", show_default=True)
@json_option
@click.pass_obj
def powder(
    output: Output,
    name: str,
    strength: str,
    make: str,
    molar_mass: str | None,
    purity: str | None,
    density: str | None,
    bulk: str | None,
    spoons: str,
) -> None:
    """Say what to weigh of a powder, and what measuring spoons would make of it.

    Example: stockroom calc powder "methyl cellulose" --strength "0.5 % w/v" --make "500 mL"
    """
    from stockroom.science.numerals import read_decimal, read_numeral
    from stockroom.science.powders import plan_powder
    from stockroom.science.reading import read_quantity
    from stockroom.science.spoons import METRIC_SPOONS, US_SPOONS
    from stockroom.science.strengths import read_strength, solute_for

    found = _powder(name, density, bulk)
    wanted = read_strength(strength)
    if wanted.unit == "% v/v":
        raise BadInput(f"A powder is weighed, and {wanted.show()} measures a liquid. Write % w/v or g/L.")
    volume = read_quantity(make, expect=Dimension.VOLUME).quantity
    mass = solute_for(
        wanted,
        volume,
        molar_mass=read_decimal(molar_mass) if molar_mass else None,
        purity=read_numeral(purity.strip().removesuffix("%")) / 100 if purity else None,
    )
    plan = plan_powder(found, mass, wanted, METRIC_SPOONS if spoons == "metric" else US_SPOONS)
    output.document(
        {
            "powder": found.name,
            "strength": {"number": json_number(wanted.number), "unit": wanted.unit},
            "make_up_to_ml": json_number(Fraction(volume.quanta, _ML)),
            "mass_g": json_number(Fraction(mass.quanta, _GRAM)),
            "bulk_ml": _range(plan.bulk_low.quanta, plan.bulk_high.quanta, _ML),
            "particle_ml": _estimate(Fraction(plan.particle_volume.quanta, _ML)),
            "spoons": [_spoons_document(reading, wanted.unit) for reading in plan.readings],
            "warning": _warning(found, plan),
            "sources": [row.cite() for row in found.sources],
        }
    )
    output.say(f"Weigh {_to_measure(mass)} of {found.name} for {show(volume)} of {wanted.show()}.")
    output.say(_warning(found, plan))
    for reading in plan.readings:
        output.say(_spoons_in_words(reading, plan, wanted.unit))
    output.say("Raise no dust and protect your eyes; the safety data sheet and local rules come first.")
    for row in found.sources:
        output.say(f"  {row.cite()}")


@calc.command()
@click.option("--tray", required=True, metavar="SIZE", help="Inside, such as 40 x 30 cm.")
@click.option("--depth", required=True, metavar="LENGTH", help="How deep the liquid stands, such as 8 mm.")
@json_option
@click.pass_obj
def bath(output: Output, tray: str, depth: str) -> None:
    """Say what volume fills a tray to a depth.

    Example: stockroom calc bath --tray "40 x 30 cm" --depth "8 mm"
    """
    from stockroom.science.measuring import tray_fill
    from stockroom.science.reading import read_quantity, read_size

    volume = tray_fill(*read_size(tray), read_quantity(depth, expect=Dimension.LENGTH).quantity.quanta)
    output.document({"volume_ml": json_number(Fraction(volume.quanta, _ML))})
    output.say(f"{show(volume)} fills the tray to that depth, where its sides are upright and its floor is level.")


def _powder(name: str, density: str | None, bulk: str | None) -> Powder:
    from stockroom.science.numerals import read_decimal
    from stockroom.science.powders import Powder, find_powder

    if not density and not bulk:
        return find_powder(name)
    low, dash, high = (bulk or "").replace("–", "-").partition("-")
    if not density or not dash:
        raise Unreadable("Give both --density (such as 1.3) and --bulk (such as 0.25-0.7), in g/mL.", read=bulk)
    return Powder(
        name=name,
        particle_g_per_ml=read_decimal(density),
        bulk_low_g_per_ml=read_decimal(low),
        bulk_high_g_per_ml=read_decimal(high),
    )


def _warning(powder: Powder, plan: PowderPlan) -> str:
    least, most = (_estimate(Fraction(volume.quanta, _ML), 2) for volume in (plan.bulk_low, plan.bulk_high))
    low, high = powder.bulk_low_g_per_ml, powder.bulk_high_g_per_ml
    return (
        f"Weighing is right: a spoon measures poured powder, {low} to {high} g in a millilitre, so that"
        f" {_to_measure(plan.mass)} is about {least} to {most} mL."
    )


def _spoons_in_words(reading: SpoonReading, plan: PowderPlan, unit: str) -> str:
    names = " + ".join(reading.set.names)
    low, high = (_estimate(Fraction(ug, _GRAM), 2) for ug in (reading.set.mass_low_ug, reading.set.mass_high_ug))
    weak, strong = (_estimate(strength, 2) for strength in (reading.strength_low, reading.strength_high))
    holds = f"holds some {low} to {high} g of poured powder: about {weak} to {strong} {unit}."
    if reading.by_particles:
        particles = show_about(plan.particle_volume, 3).removeprefix("about ")
        return (
            f"As bare particles it would be {particles}, for which common practice takes {names}. That {holds}"
            " If a bath made by those spoons has served well, weigh what they hold and write that down."
        )
    return f"Nearest by poured volume: {names}. That {holds}"


def _spoons_document(reading: SpoonReading, unit: str) -> dict[str, Any]:
    return {
        "set": reading.set.names,
        "picked_by": "particle volume (common practice)" if reading.by_particles else "poured volume",
        "volume_ml": json_number(Fraction(reading.set.volume_ul, _ML)),
        "mass_g": _range(reading.set.mass_low_ug, reading.set.mass_high_ug, _GRAM),
        "strength": {
            "low": _estimate(reading.strength_low),
            "high": _estimate(reading.strength_high),
            "unit": unit,
        },
    }


def _parts_in_words(share: Fraction) -> str:
    from stockroom.science.ratios import show_parts

    rest = share.denominator - share.numerator
    return f"{show_parts(share)}, which is {share.numerator} + {rest}" if rest else "the stock itself"


def _to_measure(quantity: Quantity) -> str:
    """Write an amount with no more digits than anyone can weigh or measure."""
    about = show_about(quantity, 4)
    return show(quantity) if about == f"about {show(quantity)}" else about


def _range(low: int, high: int, unit: int) -> dict[str, int | float]:
    return {"low": _estimate(Fraction(low, unit)), "high": _estimate(Fraction(high, unit))}


def _about(number: Decimal) -> str:
    rounded = _estimate(number, 4)
    return f"{number:f}" if rounded == float(number) else f"about {rounded}"


def _estimate(value: Fraction | Decimal, digits: int = 3) -> int | float:
    """Round an estimate to what it is worth: three significant digits, for people two."""
    return json_number(Fraction(f"{float(value):.{digits}g}"))
