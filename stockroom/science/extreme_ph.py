"""The rule that a very acid or very alkaline solution is corrosive whatever its sums say.

pH 2 or less, or 11.5 or more: skin corrosion and eye damage, absent other information (CLP Annex I, 3.2.3.1.2 and
3.3.3.1.2). Saturated calcium hydroxide is below 0.2 %, so that every sum says nothing, and yet above pH 12.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from stockroom.errors import BadInput
from stockroom.science.hazard_sums import Ground, Part
from stockroom.science.reference import Row, rows
from stockroom.science.substance_groups import groups_of

Number = Decimal | Fraction | int

_CORROSIVE = ("H314",)
_HELD = ("H318", "H315")
_SKIN_AND_EYES = frozenset({"H314", "H315", "H318", "H319"})
_MADE_WITH_LIME = ("solution", "saturated", "limewater", "water")
_CARBONATE = "part near pH 11.5"
_CONFIRM = "A low alkaline or acid reserve may show that it is less, which other data must confirm"


def is_calcium_hydroxide_solution(part: Part) -> bool:
    """Say whether a part is itself a calcium hydroxide solution, whose few tenths of a per cent no sum should see."""
    in_it = "calcium hydroxide" in groups_of(part.of)
    return in_it and any(word in part.of.split("-") for word in _MADE_WITH_LIME)


def find_share_of_saturated(parts: Sequence[Part]) -> Fraction:
    """Find which part of a solution is saturated calcium hydroxide: 1 for the jar itself, 1/4 for 1 in 4.

    Powder counts by the middle strength of 1.6 g/L, at most as saturated; a solution counts as saturated.
    """
    dissolved = Fraction(0)
    saturated_percent = Fraction(_find("calcium hydroxide solution", "saturated strength").span[0]) / 10
    for part in parts:
        if is_calcium_hydroxide_solution(part):
            dissolved += part.percent / 100
        elif "calcium hydroxide" in groups_of(part.of):
            dissolved += part.percent / saturated_percent
    return min(Fraction(1), dissolved)


def judge_ph(parts: Sequence[Part], ph: tuple[Number, Number] | None, saturated_share: Fraction) -> Ground | None:
    """Judge by a measured pH (its lowest and highest reading), or else by what is in it.

    Known by what is in them are shares of saturated calcium hydroxide, and potassium or sodium carbonate without acid.

    None where neither says anything. Raises BadInput for a pH or a share that cannot be.
    """
    if not 0 <= saturated_share <= 1:
        raise BadInput("The share of saturated solution is at most the whole: give it like 1 in 4.")
    if ph is None:
        return _by_share(parts, saturated_share) if saturated_share else _by_carbonate(parts)
    low, high = Fraction(ph[0]), Fraction(ph[1])
    if not 0 <= low <= high <= 14:
        raise BadInput("A pH is given from its lowest to its highest reading, both between 0 and 14.")
    acid, alkali = _find("extreme pH", "acid"), _find("extreme pH", "alkali")
    acid_limit, alkali_limit = Fraction(acid.span[0]), Fraction(alkali.span[0])
    reading = f"pH {_show(low)}" if low == high else f"pH {_show(low)} to {_show(high)}"
    row, side, limit = (alkali, "alkali", "11.5 and above") if high > 7 else (acid, "acid", "2 and below")
    if low >= alkali_limit or high <= acid_limit:
        return _label(parts, f"{reading} lies within the extreme-pH rule ({limit})", (row,), near=False)
    if high >= alkali_limit or low <= acid_limit:
        words = f"{reading} is near the limit of the extreme-pH rule ({limit}): labelled unless measured more closely"
        return _label(parts, words, (row,), near=True)
    return Ground(codes=(), words=f"{reading} as measured lies outside the extreme-pH rule for {side}", rows=(row,))


def _by_share(parts: Sequence[Part], share: Fraction) -> Ground:
    alkali = _find("extreme pH", "alkali")
    near = _find("calcium hydroxide solution", "share of saturated solution near pH 11.5")
    low, high = map(Fraction, near.span)
    named = "Saturated calcium hydroxide" if share == 1 else f"Saturated calcium hydroxide, 1 in {float(1 / share):.3g}"
    found = (alkali, near)
    if share > high:
        words = f"{named}: above pH 11.5, where the extreme-pH rule says skin corrosion and eye damage (H314)"
        return _label(parts, words, found, near=False)
    if share >= low:
        words = f"{named}: near pH 11.5, the limit of the extreme-pH rule: labelled unless measured"
        return _label(parts, words, found, near=True)
    return Ground(codes=(), words=f"{named}: below pH 11.5, outside the extreme-pH rule", rows=found)


def _by_carbonate(parts: Sequence[Part]) -> Ground | None:
    """Judge by soluble carbonate, which bicarbonate is not; None where there is none, or acid with it."""
    if any("acid" in groups_of(part.of, statements=part.statements) for part in parts):
        return None
    for row in rows("extreme_ph"):
        if row.what != _CARBONATE:
            continue
        named = f"-{row.of.replace(' ', '-')}-"
        percent = sum((part.substance_percent for part in parts if named in f"-{part.of}-"), Fraction(0))
        low, high = map(Fraction, row.span)
        if percent < low:
            continue
        words = f"{row.of.capitalize()} {float(percent):.2g} %"
        found = (_find("extreme pH", "alkali"), row)
        if percent > high:
            return _label(parts, f"{words}: above pH 11.5, the limit of the extreme-pH rule", found, near=False)
        return _label(
            parts, f"{words}: near pH 11.5, the limit of the rule: labelled unless measured", found, near=True
        )
    return None


def _label(parts: Sequence[Part], words: str, found: tuple[Row, ...], *, near: bool) -> Ground:
    """Hold skin corrosion at skin irritation where nothing that is in it is itself classed as corrosive to skin."""
    classed = [part for part in parts if part.codes & _SKIN_AND_EYES]
    if not classed or any("H314" in part.codes or "H314" in part.own_limits for part in classed):
        return Ground(codes=_CORROSIVE, words=f"{words}. {_CONFIRM}", rows=found, near_limit=near)
    own = "; ".join(f"{part.of}: {', '.join(sorted(part.codes & _SKIN_AND_EYES))}" for part in classed)
    words = (
        f"{words}. Labelled eye damage and skin irritation, since what is in it is itself classed no higher for the"
        f" skin ({own}). {_CONFIRM}"
    )
    return Ground(codes=_HELD, words=words, rows=found, near_limit=near)


def _find(of: str, what: str) -> Row:
    return next(row for row in rows("extreme_ph") if row.of == of and row.what == what)


def _show(ph: Number) -> str:
    return f"{float(ph):.2f}".rstrip("0").rstrip(".")
