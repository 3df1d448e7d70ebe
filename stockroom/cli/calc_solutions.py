"""`calc saturated`, `calc titrate` and `calc strength`: the sums of solutions alone, without a stockroom."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.output import Output, json_number, json_option
from stockroom.cli.sources import range_document, row_document, used_documents
from stockroom.errors import BadInput
from stockroom.science.quantities import Dimension

if TYPE_CHECKING:
    from stockroom.science.ranges import Range, Used
    from stockroom.science.reference import Row
    from stockroom.science.strengths import Strength

_CALCIUM_HYDROXIDE = ("calcium hydroxide", "limewater", "lime water", "slaked lime", "hydrated lime")


@click.command()
@click.argument("name")
@click.option("--temperature", required=True, metavar="CELSIUS", help="At which it was shaken over solid and settled.")
@json_option
@click.pass_obj
def saturated(output: Output, name: str, temperature: str) -> None:
    """Say how strong a saturated solution is: calcium hydroxide, or a salt that holds a humidity.

    Example: stockroom calc saturated "calcium hydroxide" --temperature 25
    """
    from stockroom.science.temperature import read_celsius

    celsius = read_celsius(temperature)
    plain = " ".join(name.casefold().replace("-", " ").split())
    if plain and any(plain in known for known in _CALCIUM_HYDROXIDE):
        _say_calcium_hydroxide(output, celsius)
    else:
        _say_salt(output, name, celsius)


@click.command()
@click.option("--sample", required=True, metavar="VOLUME", help="Clear liquid taken, such as 25 mL, or 30 drops.")
@click.option("--acid", required=True, metavar="STRENGTH", help="Of the hydrochloric acid, such as 0.1 mol/L.")
@click.option("--used", required=True, metavar="VOLUME", help="Acid used, such as 10.8 mL, or 17 drops.")
@click.option("--temperature", required=True, metavar="CELSIUS", help="At which the jar was shaken and settled.")
@click.option("--sample-error", metavar="VOLUME", help="Of the pipette, such as 0.06 mL.")
@click.option("--acid-error", metavar="PERCENT", help="Of the acid's strength, such as 0.5 %.")
@click.option("--used-error", metavar="VOLUME", help="Of the burette, such as 0.05 mL.")
@click.option("--limit", metavar="PERCENT", help="Least share of saturation that serves (else 90).")
@click.option("--reference", metavar="STRENGTH", help="Of the studio's own fresh jar at the same temperature.")
@click.option("--shaken", is_flag=True, help="The jar was shaken over solid and settled just before.")
@json_option
@click.pass_obj
def titrate(
    output: Output,
    sample: str,
    acid: str,
    used: str,
    temperature: str,
    sample_error: str | None,
    acid_error: str | None,
    used_error: str | None,
    limit: str | None,
    reference: str | None,
    shaken: bool,
) -> None:
    """Work out the strength of calcium hydroxide solution from a titration, and whether it is saturated.

    Example: stockroom calc titrate --sample "25 mL" --acid "0.1 mol/L" --used "10.8 mL" --temperature 22
    """
    from stockroom.science.ranges import rounded_alone, show_range
    from stockroom.science.temperature import read_celsius
    from stockroom.science.titration import judge_titration
    from stockroom.science.titration_reading import read_percent, read_titration

    verdict = judge_titration(
        read_titration(sample, acid, used, sample_error=sample_error, acid_error=acid_error, used_error=used_error),
        read_celsius(temperature),
        limit=read_percent(limit),
        reference=_reference(reference, temperature),
        shaken_and_settled=shaken,
    )
    strength, percent = verdict.strength, verdict.percent
    output.document(
        {
            "g_per_l": json_number(rounded_alone(strength)) if strength else None,
            "strength": range_document(strength) if strength else None,
            "percent_of_saturation": range_document(percent) if percent else None,
            "verdict": verdict.word,
            "carbonated_residue": verdict.carbonated_residue,
            "why": verdict.why,
            "next_step": verdict.next_step,
            "cautions": list(verdict.cautions),
            "used": used_documents(verdict.used),
            "sources": [row_document(row) for row in verdict.rows],
        }
    )
    output.say(f"{verdict.word.capitalize()}. {verdict.why}")
    output.say(verdict.next_step)
    sample_acid_and_used = verdict.used[:3]
    for one in sample_acid_and_used:
        output.say(f"  {one.what}: {show_range(one.figure)}")
    for caution in verdict.cautions:
        output.say(caution)
    output.say("Protect your eyes; what the workplace and the maker's sheet ask for comes first.")
    _say_sources(output, verdict.rows)


@click.command()
@click.argument("strength")
@click.option("--to", "unit", metavar="UNIT", help="The unit wanted, such as g/L, mol/L or % w/v.")
@click.option("--molar-mass", metavar="NUMBER", help="In g/mol; needed for mol/L.")
@click.option("--density", metavar="NUMBER", help="Of the solution in g/mL; needed for % w/w and ppm.")
@click.option("--solute-density", metavar="NUMBER", help="Of the pure liquid in g/mL; needed for % v/v.")
@click.option("--volume", metavar="VOLUME", help="How much there is of it, to mix or top up.")
@click.option("--add", metavar="VOLUME", help="How much is poured in: water, or what --of says.")
@click.option("--of", "other", metavar="STRENGTH", help="The strength of what is poured in.")
@json_option
@click.pass_obj
def strength(
    output: Output,
    strength: str,
    unit: str | None,
    molar_mass: str | None,
    density: str | None,
    solute_density: str | None,
    volume: str | None,
    add: str | None,
    other: str | None,
) -> None:
    """Write a strength in another unit, or say what mixing or topping up makes of it.

    Example: stockroom calc strength "1.6 g/L" --to mmol/L --molar-mass 74.093
    """
    from stockroom.science.conversions import convert, mix, read_unit
    from stockroom.science.numerals import read_decimal
    from stockroom.science.strengths import read_strength

    found = read_strength(strength)
    if (volume is None) != (add is None) or (other is not None and add is None):
        raise BadInput("To mix or top up give --volume and --add, and --of where it is not water that is poured in.")
    figures = {
        "molar_mass": read_decimal(molar_mass) if molar_mass else None,
        "density_g_per_ml": read_decimal(density) if density else None,
        "solute_density_g_per_ml": read_decimal(solute_density) if solute_density else None,
    }
    if volume and add:
        poured = convert(read_strength(other), found.unit, **figures) if other else None
        found = mix(found, _microlitres(volume), poured, _microlitres(add))
    if unit:
        found = convert(found, read_unit(unit), **figures)
    output.document({"strength": _strength_document(found), "from": strength})
    output.say(found.show_about(4))


def _say_calcium_hydroxide(output: Output, celsius: float) -> None:
    from stockroom.science.ph_check import ph_at
    from stockroom.science.ranges import rounded_alone, show_best, show_range
    from stockroom.science.solubility import saturation_at

    strength = saturation_at(celsius)
    try:
        ph = ph_at(celsius)
    except BadInput:
        ph = None
    found = (*strength.rows, *(ph.rows if ph else ()))
    output.document(
        {
            "substance": "calcium hydroxide",
            "temperature_c": json_number(Decimal(str(celsius))),
            "g_per_l": range_document(strength.figure),
            "ph": json_number(rounded_alone(ph.figure)) if ph else None,
            "ph_conditions": "of the solution saturated at 25 °C" if ph else None,
            "sources": [row_document(row) for row in found],
        }
    )
    output.say(f"Saturated at {celsius:g} °C: {show_best(strength.figure)}; by source {show_range(strength.figure)}.")
    if ph:
        output.say(f"What was saturated at 25 °C reads pH {rounded_alone(ph.figure)} there.")
    output.say("It holds less when warmer. The strength is that at which it was last shaken over solid and settled.")
    output.say("Alkaline enough to harm eyes and skin: protect them; local rules and the maker's sheet come first.")
    _say_sources(output, found)


def _say_salt(output: Output, name: str, celsius: float) -> None:
    from stockroom.errors import NotFound
    from stockroom.science.humidity import find_salt, humidity_over, make_up_salt
    from stockroom.science.ranges import show_range

    salt = find_salt(name)
    humidity = humidity_over(salt, celsius)
    found = list(humidity.rows)
    grams: dict[str, Range] = {}
    for hydrate in (False, True):
        try:
            make_up = make_up_salt(salt, celsius, hydrate=hydrate)
        except (BadInput, NotFound):
            continue
        grams[make_up.as_weighed] = make_up.grams
        found.extend(row for used in make_up.used for row in used.rows)
    output.document(
        {
            "substance": salt,
            "temperature_c": json_number(Decimal(str(celsius))),
            "g_per_l": None,
            "ph": None,
            "humidity_percent": range_document(humidity.figure),
            "g_for_100_g_water": {form: range_document(figure) for form, figure in grams.items()},
            "sources": [row_document(row) for row in dict.fromkeys(found)],
        }
    )
    output.say(f"Over saturated {salt} at {celsius:g} °C: {show_range(humidity.figure)}.")
    for form, figure in grams.items():
        output.say(f"100 g of water takes {show_range(figure)} of the {form} salt; add more, so that solid stays.")
    if not grams:
        output.say("How much of it dissolves at that temperature is not in the tables here.")
    _say_sources(output, dict.fromkeys(found))


def _reference(text: str | None, temperature: str) -> Used | None:
    from stockroom.science.ranges import Used, exactly
    from stockroom.science.solubility import molar_mass
    from stockroom.science.strengths import grams_per_litre, read_strength

    if text is None:
        return None
    strength = exactly(float(grams_per_litre(read_strength(text), molar_mass=molar_mass().value)), "g/L")
    return Used(what=f"the studio's own reference at {temperature}", figure=strength, own="as typed")


def _microlitres(text: str) -> int:
    from stockroom.science.reading import read_quantity

    return read_quantity(text, expect=Dimension.VOLUME, allow_zero=True).quantity.quanta


def _strength_document(strength: Strength) -> dict[str, Any]:
    return {"number": json_number(strength.number), "unit": strength.unit}


def _say_sources(output: Output, found: Iterable[Row]) -> None:
    for row in found:
        output.say(f"  {row.cite()}")
