"""What pH and conductivity can say of calcium hydroxide solution: that it is weak, hardly ever that it is saturated.

Half the strength reads only 0.28 lower and a degree moves the reading by 0.033 (Bates, Bower and Smith 1956), so the
strength goes as 2 to the power of the difference in pH over 0.28.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from stockroom.errors import BadInput
from stockroom.science.ranges import Range, Used, exactly, give_or_take, show_range, spread
from stockroom.science.solubility import SUBSTANCE, default_limit, of_25_degrees
from stockroom.science.temperature import check_temperature, curve, row_of
from stockroom.science.verdicts import NEXT_STEPS, Verdict, Word, explain, word_for

_TABLE = "calcium_hydroxide_ph"
_POINT_AT = 25.0
_TITRATE = "Titrate clear liquid with acid: a pH cannot decide this."


def ph_at(celsius: float) -> Used:
    """Give the pH at a temperature of the solution that was saturated at 25 °C, across two standards and a measurement.

    The measured point at 25 °C is carried along both standards. Raises BadInput off the tables.
    """
    tables = [curve(_TABLE, SUBSTANCE, f"pH by {name}") for name in ("HJ 1147", "NBS")]
    check_temperature(
        celsius,
        max(table.limits[0] for table in tables),
        min(table.limits[1] for table in tables),
        f"the pH of saturated {SUBSTANCE}",
    )
    read = [table.at(celsius) for table in tables]
    at_point = [table.at(_POINT_AT) for table in tables]
    point = row_of(_TABLE, SUBSTANCE, "pH of the saturated solution at 25 °C")
    change = sum(here - there for (here, _), (there, _) in zip(read, at_point, strict=True)) / len(tables)
    found = dict.fromkeys((point, *(row for _, of_table in (*read, *at_point) for row in of_table)))
    return Used(
        what=f"pH at {celsius:g} °C, saturated at 25 °C",
        figure=spread([float(point.span[0]) + change, *(value for value, _ in read)], "pH"),
        rows=tuple(found),
    )


def share_by_ph(reading: Used, error_of_temperature: Used, celsius: float) -> tuple[Range, tuple[Used, ...]]:
    """Give the strength in % of saturation that a reading leaves open, with the figures used.

    `reading` carries the instrument's error, `error_of_temperature` is in °C. Raises BadInput.
    """
    halving, degree = (
        row_of(_TABLE, SUBSTANCE, f"fall of pH {for_}") for for_ in ("at half strength", "for a degree warmer")
    )
    expected, warmth = ph_at(celsius), of_25_degrees(celsius)
    error = hypot(reading.figure.high - reading.figure.best, error_of_temperature.figure.best * float(degree.span[0]))

    def share(ph: float, standard: float, saturated: float) -> float:
        return 100 * 2 ** ((ph - standard) / float(halving.span[0])) / saturated

    best = reading.figure.best
    percent = Range(
        low=share(best - error, expected.figure.high, warmth.figure.high),
        best=share(best, expected.figure.best, warmth.figure.best),
        high=share(best + error, expected.figure.low, warmth.figure.low),
        unit="%",
    )
    rules = tuple(
        Used(what=row.what, figure=exactly(float(row.span[0]), row.unit), rows=(row,)) for row in (halving, degree)
    )
    return percent, (reading, error_of_temperature, expected, warmth, *rules)


def judge_ph(
    reading: float,
    error: float,
    celsius: float,
    *,
    error_celsius: float | None = None,
    limit: Used | float | None = None,
    buffers: Sequence[float] = (),
) -> Verdict:
    """Judge a jar by its pH at the temperature of the reading: weak, reads too high, or cannot tell; never saturated.

    `buffers` are those that the meter was set with. Raises BadInput for a reading that no meter shows.
    """
    if not 0 <= reading <= 14:
        raise BadInput(
            f"A pH of {reading:g} is not one that a meter shows here: 0 to 14. Look at the number and its sign."
        )
    if not 0 <= error <= 2:
        raise BadInput(f"An error of {error:g} pH is not one of a meter: write it like 0.1.")
    limit = default_limit(limit)
    percent, used = share_by_ph(
        Used(what="pH read", figure=give_or_take(reading, error, "pH")), _temperature(error_celsius), celsius
    )
    word = word_for(percent, limit.figure.best)
    why = f"pH {reading:g} ± {error:g} at {celsius:g} °C leaves open {explain(percent, limit.figure.best, word)}"
    next_step = NEXT_STEPS[word]
    if word in ("saturated", "cannot tell"):
        word, next_step = "cannot tell", _TITRATE
        why += " Half the strength reads only 0.28 lower, and a pH never shows that a jar is saturated."
    elif word == "reads too high":
        next_step = "Set the meter with a buffer near 12.5 and read again; if it stays, another alkali is in the jar."
    return Verdict(
        word=word,
        percent=percent,
        why=why,
        next_step=next_step,
        used=(*used, limit),
        cautions=_buffer_cautions(buffers, ph_at(celsius).figure.low),
    )


def judge_conductivity(
    reading: float,
    reference: float,
    celsius: float,
    reference_celsius: float,
    *,
    error_percent: float | None = None,
    ph_change: float | None = None,
    limit: Used | float | None = None,
) -> Verdict:
    """Judge a jar by its conductivity against the studio's own fresh reference, both in the same unit and cell.

    Published as unsaturated: a loss over 30 % with a pH change over 0.15 (Tashima et al. 2014). Raises BadInput.
    """
    loss_row, ph_row, degree, own = (
        row_of("conductivity", SUBSTANCE, what)
        for what in (
            "loss of conductivity when unsaturated, more than",
            "change of pH when unsaturated, more than",
            "rise of conductivity for a degree warmer",
            "error of a conductivity reading",
        )
    )
    _check_conductivity(reading, reference, celsius, reference_celsius, ph_change)
    limit = default_limit(limit)
    warmth = abs(celsius - reference_celsius) * float(degree.span[1])
    error = warmth + (float(own.span[0]) if error_percent is None else error_percent)
    lost = 100 * (1 - reading / reference)
    loss = Range(low=lost - error, best=lost, high=lost + error, unit="%")
    most, ph_most = float(loss_row.span[0]), float(ph_row.span[0])
    word: Word = "cannot tell"
    if loss.high < 0:
        word = "reads too high"
    elif loss.low > most and (ph_change is None or ph_change > ph_most):
        word = "weak"
    elif loss.low <= 0 and loss.high < 100 - limit.figure.best:
        word = "saturated"
    used = [
        Used(what="conductivity over the reference", figure=exactly(100 * reading / reference, "%")),
        Used(what="error, with the difference in temperature", figure=exactly(error, "%"), rows=(own, degree)),
        Used(what="loss when unsaturated, more than", figure=exactly(most, "%"), rows=(loss_row,)),
        Used(what="change of pH when unsaturated, more than", figure=exactly(ph_most, "pH"), rows=(ph_row,)),
        limit,
    ]
    if ph_change is not None:
        used.append(Used(what="change of pH", figure=exactly(ph_change, "pH")))
    unread = "; the change of pH, which belongs to it, was not read" if ph_change is None else ""
    return Verdict(
        word=word,
        why=f"Against the studio's own reference the conductivity is lower by {show_range(loss)}. Published as"
        f" unsaturated is a loss over {most:g} % with a change of pH over {ph_most:g}{unread}.",
        next_step=NEXT_STEPS[word] if word != "cannot tell" else "Titrate clear liquid with acid.",
        used=tuple(used),
    )


def _temperature(error_celsius: float | None) -> Used:
    if error_celsius is not None:
        if not 0 <= error_celsius <= 20:
            raise BadInput(f"An error of {error_celsius:g} °C is not one of a thermometer: write it like 0.5.")
        return Used(what="error of the thermometer", figure=exactly(error_celsius, "°C"))
    row = row_of(_TABLE, SUBSTANCE, "error of the thermometer")
    return Used(what=row.what, figure=exactly(float(row.span[0]), row.unit), rows=(row,))


def _buffer_cautions(buffers: Sequence[float], expected: float) -> tuple[str, ...]:
    if not buffers:
        return ("Which buffers was the meter set with? 7 and 10 do not reach the pH of this solution.",)
    if max(buffers) >= expected - 0.5:
        return ()
    named = " and ".join(f"{buffer:g}" for buffer in sorted(buffers))
    return (f"Buffers {named} do not reach the pH of this solution: set the meter with one near 12.5 as well.",)


def _check_conductivity(
    reading: float, reference: float, celsius: float, reference_celsius: float, ph_change: float | None
) -> None:
    if not (reading >= 0 and reference > 0):
        raise BadInput("A conductivity cannot be negative, and the reference must be more than nothing.")
    if ph_change is not None and not 0 <= ph_change <= 14:
        raise BadInput("Write by how much the pH is lower than the reference's, such as 0.2.")
    for degrees in (celsius, reference_celsius):
        check_temperature(degrees, 0, 50, "a comparison of conductivity")
    if abs(celsius - reference_celsius) > 1:
        raise BadInput(
            f"The reference was read at {reference_celsius:g} °C and the jar at {celsius:g} °C: a degree is 2 to 3 %."
            " Bring both to the same temperature and read again."
        )
