"""Strength of calcium hydroxide solution by titration with acid of known strength.

c = c(acid) × V(acid) / (2 × V(sample)), in g/L by 74.093 g/mol; so 1 mL of 0.1 mol/L hydrochloric acid counts 3.705 mg
(British Pharmacopoeia 2025). Errors are joined as the root of the sum of their squares.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import hypot

from stockroom.errors import BadInput
from stockroom.science.ranges import Range, Used, exactly, give_or_take, show_best, show_range
from stockroom.science.reference import Row
from stockroom.science.solubility import default_limit, molar_mass, saturation_at, share_of_saturation
from stockroom.science.strengths import read_strength
from stockroom.science.temperature import row_of
from stockroom.science.verdicts import NEXT_STEPS, Verdict, explain, word_for


@dataclass(frozen=True, slots=True, kw_only=True)
class Titration:
    """What was measured: sample and acid used in mL, and the acid's strength in mol/L of hydrochloric acid."""

    sample: Used
    acid: Used
    used: Used


def read_acid(text: str) -> float:
    """Read the strength of the acid in mol/L: `0.1 mol/L`, `100 mmol/L`. Raises BadInput for any other unit."""
    strength = read_strength(text)
    per_mole = {"mol/L": 1, "mmol/L": 1_000}.get(strength.unit)
    if per_mole is None:
        raise BadInput(f"{strength.show()}: write the acid's strength as on its label in mol/L, such as 0.1 mol/L.")
    return float(strength.number) / per_mole


def read_drops(text: str) -> int | None:
    """Read a count of drops: `17 drops`. None for anything else, which is an amount."""
    match = re.fullmatch(r"([0-9]{1,4}) ?drops?", text.strip().casefold())
    return int(match[1]) if match else None


def measure_titration(
    *,
    sample_ml: float,
    acid_mol_per_l: float,
    used_ml: float,
    sample_error_ml: float | None = None,
    acid_error_percent: float | None = None,
    used_error_ml: float | None = None,
) -> Titration:
    """Take readings of pipette and burette; an error not stated is the table's. Raises BadInput."""
    pipette, burette, acid = _row("pipette"), _row("burette"), row_of("titration", "acid", "error of the strength")
    return Titration(
        sample=_measured("sample", sample_ml, sample_error_ml, pipette, "mL"),
        acid=_acid(acid_mol_per_l, acid_error_percent, acid),
        used=_measured("acid used", used_ml, used_error_ml, burette, "mL"),
    )


def count_drops(
    *,
    acid_drops: int,
    acid_mol_per_l: float,
    sample_drops: int | None = None,
    sample_ml: float | None = None,
    acid_error_percent: float | None = None,
) -> Titration:
    """Take drops of acid against drops from the same dropper, or against a measured sample. Raises BadInput.

    Each count may be off by one drop. From the same dropper the size of its drops cancels out but for its spread.
    """
    if (sample_drops is None) == (sample_ml is None):
        raise BadInput("Give the sample either in drops or in mL.")
    if acid_drops < 0 or (sample_drops is not None and sample_drops < 1):
        raise BadInput("Count whole drops: at least one of the sample, and none or more of the acid.")
    drop = row_of("titration", "drop", "volume")
    same = "error of the volume, same dropper" if sample_drops is not None else "error of the volume"
    error = row_of("titration", "drop", same)
    drop_ml, share = float(drop.span[0]), float(error.span[0]) / 100
    used_ml = acid_drops * drop_ml
    used = Used(
        what=f"acid used, {acid_drops} drops",
        figure=give_or_take(used_ml, hypot(drop_ml, used_ml * share), "mL"),
        rows=(drop, error),
    )
    if sample_drops is None:
        sample = _measured("sample", sample_ml or 0.0, None, _row("pipette"), "mL")
    else:
        figure = give_or_take(sample_drops * drop_ml, drop_ml, "mL")
        sample = Used(what=f"sample, {sample_drops} drops", figure=figure, rows=(drop,))
    acid = _acid(acid_mol_per_l, acid_error_percent, row_of("titration", "acid", "error of the strength"))
    return Titration(sample=sample, acid=acid, used=used)


def strength_by(titration: Titration, *, jar_ml: float | None = None) -> Range:
    """Give the strength in g/L of calcium hydroxide with its error.

    `jar_ml` is what the jar holds. Raises BadInput for a sample of nothing or larger than the jar.
    """
    sample, acid, used = (one.figure for one in (titration.sample, titration.acid, titration.used))
    if sample.best <= 0:
        raise BadInput("A sample of nothing cannot be titrated. Write what the pipette delivered, such as 25 mL.")
    if jar_ml is not None and sample.best > jar_ml:
        raise BadInput(
            f"A sample of {sample.best:g} mL is more than the {jar_ml:g} mL in the jar."
            " Look at the number and its unit, or count the jar first.",
            sample_ml=sample.best,
            jar_ml=jar_ml,
        )
    grams_a_millilitre = acid.best * float(molar_mass().span[0]) / (2 * sample.best)
    best = used.best * grams_a_millilitre
    error = hypot(
        (used.high - used.best) * grams_a_millilitre,
        best * (sample.high / sample.best - 1),
        best * (acid.high / acid.best - 1),
    )
    return give_or_take(best, error, "g/L")


def judge_titration(
    titration: Titration,
    celsius: float,
    *,
    limit: Used | float | None = None,
    reference: Used | None = None,
    shaken_and_settled: bool = False,
    jar_ml: float | None = None,
) -> Verdict:
    """Judge a jar by titration at the temperature at which it was last shaken over solid and settled.

    `limit` is the studio's own, in % of saturation. `reference` is the strength in g/L of the studio's own fresh jar,
    same lot and temperature: it replaces the handbooks' spread. `shaken_and_settled` says that the jar was shaken over
    solid and settled just before; a weak result then speaks against the solid itself. Raises BadInput.
    """
    strength = strength_by(titration, jar_ml=jar_ml)
    limit = default_limit(limit)
    saturated = saturation_at(celsius)
    if reference is not None:
        if reference.figure.low <= 0:
            raise BadInput("The studio's own reference must be a strength above nothing, such as 1.6 g/L.")
        saturated = reference
    percent = share_of_saturation(strength, saturated.figure)
    word = word_for(percent, limit.figure.best)
    if word == "weak" and shaken_and_settled:
        word = "carbonated"
    mass = Used(what="molar mass", figure=exactly(float(molar_mass().span[0]), "g/mol"), rows=(molar_mass(),))
    shown = show_best(strength).removeprefix("about ")
    named = saturated.what[0].upper() + saturated.what[1:]
    return Verdict(
        word=word,
        percent=percent,
        strength=strength,
        why=f"{shown} by titration. {named} is {show_range(saturated.figure)}."
        f" That makes {explain(percent, limit.figure.best, word)}",
        next_step=NEXT_STEPS[word],
        used=(titration.sample, titration.acid, titration.used, mass, saturated, limit),
        carbonated_residue=word == "carbonated",
        cautions=(
            "Clear liquid only: solid in the sample dissolves in the acid and reads high.",
            "Phenolphthalein counts half of any carbonate, methyl orange all of it.",
        ),
    )


def _row(of: str) -> Row:
    return row_of("titration", of, "error of a volume")


def _measured(what: str, value: float, error: float | None, row: Row, unit: str) -> Used:
    if error is not None:
        return Used(what=what, figure=give_or_take(value, error, unit))
    return Used(what=what, figure=give_or_take(value, float(row.span[0]), unit), rows=(row,))


def _acid(mol_per_l: float, error_percent: float | None, row: Row) -> Used:
    strongest = row_of("titration", "hydrochloric acid", "concentrated")
    if not 0 < mol_per_l <= float(strongest.span[1]):
        raise BadInput(
            f"Hydrochloric acid of {mol_per_l:g} mol/L cannot be: at most {strongest.span[1]} mol/L is sold."
            " Here 0.1 mol/L serves. Look at the label.",
            limit=float(strongest.span[1]),
        )
    error = float(row.span[0]) if error_percent is None else error_percent
    figure = give_or_take(mol_per_l, mol_per_l * error / 100, "mol/L")
    return Used(what="acid", figure=figure, rows=(row,) if error_percent is None else ())
