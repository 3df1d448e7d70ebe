"""Whether the solid in a jar may be watered again, and how a jar stands when its temperature has changed.

Two traditions contradict each other: the United States Pharmacopeia forbids using the undissolved portion again, an
older handbook keeps an excess in the jar. The studio chooses, the program counts.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stockroom.errors import BadInput
from stockroom.science.ranges import Range, Used, exactly, show_best, show_range
from stockroom.science.saturation import Balance
from stockroom.science.solubility import saturation_at, share_of_saturation
from stockroom.science.temperature import row_of

_TRADITIONS = ("solid shaken with a litre, USP", "bench strength, excess kept")


@dataclass(frozen=True, slots=True, kw_only=True)
class Residue:
    """How the solid stands to the studio's rule on watering it again."""

    suspect: bool
    rewettings: int
    why: str
    used: tuple[Used, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """How strong a jar is at today's temperature, going by when it was last shaken and settled."""

    state: Literal["as settled", "warmed", "cooled"]
    strength: Range
    percent: Range
    """Of saturation at today's temperature."""
    why: str
    next_step: str
    used: tuple[Used, ...]


def judge_residue(rewettings: int, allowed: int | None, *, chosen: bool = True) -> Residue:
    """Compare how often the solid was watered again with what the studio allows; None allows any number.

    `chosen` says whether the studio has chosen at all. Raises BadInput for a count below nothing.
    """
    if rewettings < 0 or (allowed is not None and allowed < 0):
        raise BadInput("How often the solid was watered again is counted from nothing up.")
    suspect = allowed is not None and rewettings > allowed
    often = {0: "has not been watered again", 1: "was watered again once"}.get(
        rewettings, f"was watered again {rewettings} times"
    )
    rule = "the studio allows " + ("any number" if allowed is None else "none" if not allowed else f"at most {allowed}")
    rule = rule if chosen else "the studio has not chosen how often it may be"
    found = [row_of("pharmacopoeia", "calcium hydroxide solution", what) for what in _TRADITIONS]
    return Residue(
        suspect=suspect,
        rewettings=rewettings,
        why=f"The solid {often}; {rule}. One pharmacopoeia forbids it (USP, Calcium"
        " Hydroxide Topical Solution), another tradition keeps an excess in the jar. White solid may be carbonate:"
        " titrate after shaking and settling.",
        used=tuple(Used(what=row.what, figure=exactly(float(row.span[0]), row.unit), rows=(row,)) for row in found),
    )


def stand_at(balance: Balance, celsius_now: float) -> Standing:
    """Say how strong a jar is now, by the temperature at which it was last shaken over solid and settled.

    Raises BadInput for a jar without liquid, or a temperature off the table.
    """
    strength, settled = balance.strength, balance.settled_celsius
    if strength is None or settled is None:
        raise BadInput("There is no liquid in this jar. Top it up, shake it and let it settle first.")
    now = saturation_at(celsius_now)
    about = f"{show_best(strength)} as settled at {settled:g} °C ({show_range(strength)})."
    state: Literal["as settled", "warmed", "cooled"]
    if celsius_now > settled:
        state = "warmed"
        why = f"{about} Warmed since: it may be weaker now, or supersaturated, or cloudy. Nothing is spoilt."
        # What comes out of solution leaves at least what water holds when warmer.
        low = min(strength.low, now.figure.low)
        strength = Range(low=low, best=min(strength.best, max(low, now.figure.best)), high=strength.high, unit="g/L")
        next_step = "Let it settle again, and shake it over the solid first if the strength matters."
    elif celsius_now < settled:
        state = "cooled"
        why = f"{about} Cooled since: it could hold more, but is not stronger until it is shaken over solid."
        next_step = "Shake it over the solid and let it settle, if it is to be saturated at today's temperature."
    else:
        state, why, next_step = "as settled", about, "Nothing to do."
    return Standing(
        state=state,
        strength=strength,
        percent=share_of_saturation(strength, now.figure),
        why=why,
        next_step=next_step,
        used=(*balance.used, now),
    )
