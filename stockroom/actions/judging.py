"""From what was typed to a verdict: each method reads its own numbers and names the one that is missing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from math import hypot

from stockroom.actions.judging_looks import NEXT_SPOILT, judge_fizz, judge_looks
from stockroom.actions.judging_range import judge_by_range
from stockroom.domain.lots import Lot
from stockroom.domain.recipe_checks import folded
from stockroom.domain.recipes import RecipeCheck
from stockroom.errors import BadInput
from stockroom.planning.fitness import spoken
from stockroom.science.humidity import judge_humidity
from stockroom.science.own_range import read_figure
from stockroom.science.ph_check import judge_conductivity, judge_ph
from stockroom.science.ranges import Range, Used, exactly, show_best, show_range
from stockroom.science.temperature import read_celsius
from stockroom.science.titration import judge_titration
from stockroom.science.titration_reading import read_titration
from stockroom.science.verdicts import NEXT_STEPS, Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """What was read, as a person tells it; every text as typed."""

    method: str
    """titration, ph, conductivity, fizz, humidity, looks or reading."""
    values: dict[str, str] = field(default_factory=dict)
    """Name of each reading and what was typed."""
    sample: str | None = None
    """What was taken out of the jar for it."""
    shaken_and_settled: bool = False
    """Just before, over its solid."""
    own_reference: bool = False
    """Whether it is a fresh jar whose reading is kept as the studio's own reference."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """An earlier titration of the same jar at the same temperature, over the same filling."""

    day: str
    strength: Range


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known of a jar before it is read."""

    celsius: float
    """At which it was last shaken over solid and settled, or what was typed."""
    assumed: bool = False
    """Whether nobody wrote that temperature down."""
    settled_celsius: float | None = None
    """At which the books say that it settled, where that is another temperature than the one typed."""
    solid_left: Range | None = None
    """Grams undissolved by the books, where they tell."""
    solid: str | None = None
    """What lies in it undissolved: calcium hydroxide, or a salt whose humidity is known."""
    limit: Used | None = None
    """The studio's own limit, in % of saturation; None where the table's serves."""
    tolerance: Used | None = None
    """The studio's own, in % RH, for humidity over a salt; None where the table's serves."""
    reference: Used | None = None
    """The studio's own strength of saturation at that temperature, in g/L."""
    fresh_conductivity: Used | None = None
    """The studio's own fresh reference at that temperature."""
    settling_until: str | None = None
    refilled: bool = False
    """Whether water was put on its solid again."""
    before: Before | None = None
    check: RecipeCheck | None = None
    """The recipe's own."""
    spoilt: str | None = None
    """What it was once seen to be, that no other reading passes again."""


LIME = "calcium hydroxide"
_OF_LIME = ("titration", "ph", "conductivity", "fizz")
_CLEAR = ("titration", "ph", "conductivity", "humidity")
"""Ways that need a jar over solid to have settled."""


def judge(lot: Lot, readings: Readings, known: Known) -> Verdict:
    """Judge a jar by what was read. Raises BadInput naming a reading that is missing or unknown, Unreadable."""
    methods: dict[str, Callable[[Lot, Readings, Known], Verdict]] = {
        "titration": _titration,
        "ph": _ph,
        "conductivity": _conductivity,
        "fizz": lambda lot, readings, known: judge_fizz(asked(readings, "reading", "fizzes")),
        "humidity": _humidity,
        "looks": _looks,
        "reading": lambda lot, readings, known: judge_by_range(
            asked(readings, "reading", "pH 8.2"), readings.values, known.check, lot.material.name
        ),
    }
    if readings.method not in methods:
        raise BadInput(f"'{readings.method}' is no way to check. Ways: {', '.join(methods)}.")
    if readings.method in _OF_LIME and not (lot.over_solid and known.solid in (LIME, None)):
        raise BadInput(
            f"{lot.code} ({lot.material.name}) is not a saturated solution of calcium hydroxide: check it by a reading "
            "against its own range, a salt by its humidity, or by looks."
        )
    verdict = methods[readings.method](lot, readings, known)
    if readings.method == "titration":
        verdict = replace(verdict, cautions=(*_of_temperature(readings, known), *verdict.cautions))
    if known.settling_until and readings.method in _CLEAR and not readings.shaken_and_settled:
        return replace(
            verdict,
            word="not ready",
            carbonated_residue=False,
            why=f"It is settling until {spoken(known.settling_until)}: solid in the sample reads high, and less than "
            f"all may be dissolved yet. {verdict.why}",
            next_step=NEXT_STEPS["not ready"] + " If it was shaken and has settled already, say --shaken.",
        )
    if known.spoilt and verdict.word in ("fit", "saturated"):
        return replace(
            verdict,
            word="unfit",
            why=f"{verdict.why} But {known.spoilt}: no other reading passes that again.",
            next_step=NEXT_SPOILT,
        )
    return verdict


def _of_temperature(readings: Readings, known: Known) -> tuple[str, ...]:
    """Say what is doubtful about the temperature that strength is held against."""
    if known.assumed:
        return (f"No temperature was written down: {known.celsius:g} °C was taken. A degree is about 1 % of strength.",)
    if known.settled_celsius is None or readings.shaken_and_settled:
        return ()
    since = "warmed since, it may be cloudy or supersaturated: let it settle again"
    if known.celsius < known.settled_celsius:
        since = "cooled since, it is not stronger until it is shaken over its solid"
    return (f"By the books it settled at {known.settled_celsius:g} °C, and {known.celsius:g} °C was taken: {since}.",)


def asked(readings: Readings, name: str, example: str) -> str:
    """Return what was typed for a reading. Raises BadInput naming the option where nothing was."""
    typed = readings.values.get(name)
    if typed:
        return typed
    option = "its reading" if name == "reading" else f"--{name}"
    shown = example if name == "reading" else f"--{name} '{example}'"
    raise BadInput(f"A check by {readings.method} needs {option}, for example {shown}.")


def number(typed: str, what: str) -> float:
    """Read a number that may carry its unit. Raises BadInput saying of what."""
    try:
        return float(read_figure(typed)[0])
    except BadInput as error:
        raise BadInput(f"{error.message} It was read as {what}.") from None


def _looks(lot: Lot, readings: Readings, known: Known) -> Verdict:
    word = asked(readings, "reading", "clear")
    verdict = judge_looks(word, lot, known.solid, known.check)
    left = known.solid_left
    if left is None:
        return verdict
    if folded(word) == "no solid" and left.low > 0:
        told = (
            f"By the books {show_range(left)} should lie undissolved: shake it and look again, or count what was drawn."
        )
    elif folded(word) != "no solid" and left.high <= 0:
        told = "By the books no solid is left: what lies at the bottom may be carbonate."
    else:
        return verdict
    return replace(verdict, why=f"{verdict.why} {told}")


def _temperature(readings: Readings) -> float:
    return read_celsius(asked(readings, "temperature", "22 °C"))


def _titration(lot: Lot, readings: Readings, known: Known) -> Verdict:
    titration = read_titration(
        asked(readings, "sample", "25 mL"),
        asked(readings, "acid", "0.1 mol/L"),
        asked(readings, "used", "10.8 mL"),
        sample_error=readings.values.get("sample-error"),
        acid_error=readings.values.get("acid-error"),
        used_error=readings.values.get("used-error"),
    )

    def judged(reference: Used | None) -> Verdict:
        return judge_titration(
            titration,
            known.celsius,
            limit=known.limit,
            reference=reference,
            shaken_and_settled=readings.shaken_and_settled,
            jar_ml=lot.balance.quantity / 1000,
        )

    first = judged(known.reference)
    if readings.own_reference:
        if known.refilled:
            raise BadInput(f"{lot.code} was topped up: a reference is a fresh jar. Leave --own-reference out.")
        if first.word == "reads too high":
            raise BadInput(f"It cannot be the studio's own reference yet: {first.why} {first.next_step}")
        return _kept(first, judged, f"a fresh jar ({lot.code}), shaken over its solid and settled")
    if readings.shaken_and_settled and first.strength and first.word in _UNSURE:
        old = known.before
        if old is None:
            return replace(first, next_step=_ONCE_MORE)
        margin = hypot(first.strength.half_width, old.strength.half_width)
        told = f"{show_best(old.strength)} on {old.day}"
        if first.strength.best - old.strength.best > margin:
            return replace(
                first,
                why=f"{first.why} It was {told}: it rose.",
                next_step="It rose, so it was not saturated before. Shake, settle and titrate until it rises no more.",
            )
        return _kept(first, judged, f"no rise after shaking over its solid and settling ({told})")
    return first


_UNSURE = ("cannot tell", "reads too high")
_ONCE_MORE = "Shake and settle it once more, and titrate at the same temperature. No rise means saturated."


def _kept(first: Verdict, judged: Callable[[Used | None], Verdict], how: str) -> Verdict:
    """Take the strength just measured as the studio's own reference. One that is weak by the tables is none."""
    if first.word in ("weak", "carbonated") or first.strength is None:
        raise BadInput(
            f"It cannot be the studio's own reference: {first.why} Leave --own-reference out to book it as a check."
        )
    own = Used(what="the studio's own reference", figure=first.strength, own=how)
    verdict = judged(own)
    return replace(
        verdict,
        why=f"{verdict.why} It is the studio's own reference from now on: {how}.",
        reference=own,
        used=(*verdict.used, *first.used),
    )


def _ph(lot: Lot, readings: Readings, known: Known) -> Verdict:
    if not readings.values.get("temperature"):
        raise BadInput("A check by ph needs --temperature: one degree moves it by 0.033.")
    return judge_ph(
        number(asked(readings, "reading", "12.4"), "a pH"),
        number(asked(readings, "error", "0.1"), "the meter's error"),
        known.celsius,
        buffers=[number(one, "a buffer") for one in readings.values.get("buffers", "").split(",") if one.strip()],
        limit=known.limit,
    )


def _conductivity(lot: Lot, readings: Readings, known: Known) -> Verdict:
    at = _temperature(readings)
    read = number(asked(readings, "reading", "7.9"), "a conductivity")
    if readings.own_reference:
        readings = replace(readings, values={**readings.values, "reference": str(read)})
    own = known.fresh_conductivity if "reference" not in readings.values else None
    of_reference, change = readings.values.get("reference-temperature"), readings.values.get("ph-change")
    verdict = judge_conductivity(
        read,
        own.figure.best if own else number(asked(readings, "reference", "8.1"), "the reference"),
        at,
        read_celsius(of_reference) if of_reference else at,
        ph_change=number(change, "the change of pH") if change else None,
        limit=known.limit,
    )
    if readings.own_reference:
        kept = Used(what="the studio's own reference", figure=exactly(read, ""))
        return replace(verdict, word="cannot tell", reference=kept, why="Kept as the studio's own fresh reference.")
    return replace(verdict, used=(*verdict.used, own)) if own else verdict


def _humidity(lot: Lot, readings: Readings, known: Known) -> Verdict:
    if known.solid in (LIME, None):
        raise BadInput(f"{lot.code} ({lot.material.name}) is not kept over a salt whose humidity is known here.")
    return judge_humidity(
        known.solid,
        number(asked(readings, "reading", "75 %"), "a humidity"),
        number(asked(readings, "error", "2"), "the meter's error"),
        _temperature(readings),
        tolerance=known.tolerance,
    )
