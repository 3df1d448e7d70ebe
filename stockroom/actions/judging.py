"""From what was typed to a verdict: each method reads its own numbers and names the one that is missing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from stockroom.domain.lots import Lot
from stockroom.errors import BadInput
from stockroom.science.numerals import read_decimal, tidy
from stockroom.science.ph_check import judge_conductivity, judge_ph
from stockroom.science.quantities import Dimension
from stockroom.science.ranges import Used
from stockroom.science.reading import read_quantity
from stockroom.science.strengths import grams_per_litre, read_strength
from stockroom.science.temperature import read_celsius
from stockroom.science.titration import judge_titration, measure_titration
from stockroom.science.verdicts import Verdict, Word


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """What was read, as a person tells it; every text as typed."""

    method: str
    """titration, ph, conductivity, looks or reading."""
    values: dict[str, str] = field(default_factory=dict)
    """Name of each reading and what was typed."""
    sample: str | None = None
    """What was taken out of the jar for it."""
    shaken_and_settled: bool = False


LOOKS_OVER_SOLID: dict[str, tuple[Word, str]] = {
    "clear": ("cannot tell", "Clear over solid is as it should be, and no proof: titrate to know the strength."),
    "film": ("cannot tell", "A film of carbonate is no fault: draw from below it. Titrate to know the strength."),
    "cloudy": ("cannot tell", "Let it settle until it is clear; nothing is spoilt."),
    "no solid": ("cannot tell", "Nothing is left to saturate a refill: titrate before use, and make afresh."),
}
"""What looks say of a jar kept over solid: evidence, not proof (common practice, no source)."""

SPOILT = ("mould", "mouldy", "smell", "thin", "thinned", "weeping", "threads", "cloudy", "no bubbles")
"""Looks that no other reading passes again (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known of a jar before it is read."""

    celsius: float
    """At which it was last shaken over solid and settled, or what was typed."""
    limit: Used | None = None
    """The studio's own limit, in % of saturation; None where the table's serves."""


def judge(lot: Lot, readings: Readings, known: Known) -> Verdict:
    """Judge a jar by what was read. Raises BadInput naming a reading that is missing or unknown, Unreadable."""
    methods: dict[str, Callable[[Lot, Readings, Known], Verdict]] = {
        "titration": _titration,
        "ph": _ph,
        "conductivity": _conductivity,
        "looks": _looks,
        "reading": _reading,
    }
    if readings.method not in methods:
        raise BadInput(f"'{readings.method}' is no way to check. Ways: {', '.join(methods)}.")
    if readings.method in ("titration", "ph", "conductivity") and not lot.over_solid:
        raise BadInput(
            f"{lot.code} ({lot.material.name}) is not a saturated solution of calcium hydroxide: check it by a reading "
            "against its own range, or by looks."
        )
    return methods[readings.method](lot, readings, known)


def _asked(readings: Readings, name: str, example: str) -> str:
    typed = readings.values.get(name)
    if not typed:
        raise BadInput(f"A {readings.method} needs --{name}, for example --{name} '{example}'.")
    return typed


def _number(typed: str, name: str) -> float:
    plain = tidy(typed)
    sign = -1.0 if plain.startswith(("-", "−")) else 1.0
    digits = plain.lstrip("-−").lower().removeprefix("ph").strip().split(" ")[0]
    try:
        return sign * float(read_decimal(digits))
    except (ValueError, ArithmeticError):
        raise BadInput(f"'{typed}' is not a number for {name}.") from None


def _millilitres(typed: str) -> float:
    return read_quantity(typed, expect=Dimension.VOLUME, allow_zero=True).quantity.quanta / 1000


def _titration(lot: Lot, readings: Readings, known: Known) -> Verdict:
    acid = read_strength(_asked(readings, "acid", "0.1 mol/L"))
    if acid.unit not in ("mol/L", "mmol/L"):
        raise BadInput(f"The acid's strength is needed in mol/L; '{acid.show()}' is not.")
    moles = grams_per_litre(acid, molar_mass=1)
    titration = measure_titration(
        sample_ml=_millilitres(_asked(readings, "sample", "25 mL")),
        acid_mol_per_l=float(moles),
        used_ml=_millilitres(_asked(readings, "used", "10.8 mL")),
    )
    return judge_titration(
        titration,
        known.celsius,
        limit=known.limit,
        shaken_and_settled=readings.shaken_and_settled,
        jar_ml=lot.balance.quantity / 1000,
    )


def _ph(lot: Lot, readings: Readings, known: Known) -> Verdict:
    typed = readings.values.get("temperature")
    if not typed:
        raise BadInput("A pH needs --temperature: one degree moves it by 0.033.")
    buffers = [_number(one, "a buffer") for one in readings.values.get("buffers", "").split(",") if one.strip()]
    return judge_ph(
        _number(_asked(readings, "reading", "12.4"), "a pH"),
        _number(_asked(readings, "error", "0.1"), "the meter's error"),
        known.celsius,
        buffers=buffers,
        limit=known.limit,
    )


def _conductivity(lot: Lot, readings: Readings, known: Known) -> Verdict:
    at = read_celsius(_asked(readings, "temperature", "22 °C"))
    of_reference = readings.values.get("reference-temperature")
    change = readings.values.get("ph-change")
    return judge_conductivity(
        _number(_asked(readings, "reading", "7.9"), "a conductivity"),
        _number(_asked(readings, "reference", "8.1"), "the reference"),
        at,
        read_celsius(of_reference) if of_reference else at,
        ph_change=_number(change, "the change of pH") if change else None,
        limit=known.limit,
    )


def _looks(lot: Lot, readings: Readings, known: Known) -> Verdict:
    word = " ".join(_asked(readings, "reading", "clear").lower().split())
    if lot.over_solid:
        if word not in LOOKS_OVER_SOLID:
            raise BadInput(f"'{word}' is not one of the looks of a jar over solid: {', '.join(LOOKS_OVER_SOLID)}.")
        verdict, next_step = LOOKS_OVER_SOLID[word]
        return Verdict(word=verdict, why=f"It looks {word}.", next_step=next_step, used=())
    if word in SPOILT:
        why = f"It looks spoilt: {word}. No other reading passes it again."
        return Verdict(word="unfit", why=why, next_step="Discard it, by local rules for waste.", used=())
    if word not in ("clear", "as made", "good"):
        raise BadInput(f"'{word}' is not read. Say good, as made or clear; or {', '.join(SPOILT)}.")
    return Verdict(word="fit", why=f"It looks {word}.", next_step="Nothing to do; looks extend no date.", used=())


def _reading(lot: Lot, readings: Readings, known: Known) -> Verdict:
    reading = _number(_asked(readings, "reading", "pH 8.2"), "a reading")
    low, high = readings.values.get("low"), readings.values.get("high")
    if not low or not high:
        why = f"{readings.values['reading']} was read, and no range was given to hold it against."
        return Verdict(word="cannot tell", why=why, next_step="Give the range with --low and --high.", used=())
    fits = _number(low, "--low") <= reading <= _number(high, "--high")
    why = f"{readings.values['reading']} lies {'within' if fits else 'outside'} {low} to {high}."
    next_step = "Nothing to do." if fits else "Do not use it; put it right or discard it."
    return Verdict(word="fit" if fits else "unfit", why=why, next_step=next_step, used=())
