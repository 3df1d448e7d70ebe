"""Hazard statements of a made solution by what its parts are and how much of each it holds.

Concentration limits and sums of CLP Annex I (Tables 3.2.3, 3.3.3 and others); a substance's own limits go before the
general ones (CLP Article 10, from memory). Where parts with and without limits of their own meet, each is counted as
a share of its limit and the shares are added: the sum reaches a class at one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.errors import BadInput
from stockroom.science.reference import Row, rows
from stockroom.science.substance_groups import codes_of, limits_of

_SUMMED_ELSEWHERE = frozenset({"H224", "H225", "H226"})
_LASTING = ("H334", "H340", "H341", "H350", "H351", "H360", "H361", "H362", "H370", "H371", "H372", "H373")


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One thing that is in a made solution. A jar made here is best given as what went into it."""

    of: str
    """The material's key."""
    percent: Fraction
    """Per cent by weight of the material as it was weighed or poured in the whole; of a range, the highest."""
    statements: tuple[str, ...] = ()
    """Hazard statements of the material, the code first."""
    purity_percent: Fraction | None = None
    """Per cent by weight of the substance in the material; not known counts as all of it."""

    @property
    def codes(self) -> frozenset[str]:
        return codes_of(self.statements)

    @property
    def own_limits(self) -> dict[str, Row]:
        """Limits that hold for this substance alone, by statement; none for most."""
        substance = limits_of(self.of)
        return {row.what: row for row in rows("hazard_limits") if row.of == substance}

    @property
    def substance_percent(self) -> Fraction:
        """Per cent by weight of the substance itself in the whole."""
        return self.percent * (100 if self.purity_percent is None else self.purity_percent) / 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """Why statements are suggested, or are not: the rule in words and the reference rows behind it."""

    codes: tuple[str, ...]
    words: str
    rows: tuple[Row, ...] = ()
    near_limit: bool = False


def check_parts(parts: Sequence[Part]) -> None:
    """Raise BadInput for a part that cannot be: less than nothing, or together more than the whole."""
    for part in parts:
        if not 0 <= part.percent <= 100:
            raise BadInput(f"{part.of}: {_show(part.percent)} cannot be a part of a solution; give 0 to 100 % w/w.")
        if part.purity_percent is not None and not 0 < part.purity_percent <= 100:
            raise BadInput(f"{part.of}: a purity is more than 0 and at most 100 % w/w.")
    whole = sum((part.percent for part in parts), Fraction(0))
    if whole > 101:
        raise BadInput(f"The parts come to {_show(whole)} of the whole; give each as % w/w of the finished solution.")


def sum_up(parts: Sequence[Part]) -> Iterator[Ground]:
    """Give what follows from limits and sums, a ground for each statement that is reached."""
    for target in _targets(parts):
        ground = _own(target, parts) or _general(target, parts)
        if ground:
            yield ground


def take_over(parts: Sequence[Part]) -> Iterator[Ground]:
    """Give statements for which no sum is done here, as the part that is there in some amount carries them."""
    general = {row.what: row for row in rows("hazard_limits") if row.of == "any substance"}
    summed = {what.split(" from ")[0] for what in general} | _SUMMED_ELSEWHERE
    for part in parts:
        for code in sorted(part.codes - summed) if not part.own_limits else ():
            row = general["lasting harm" if code.startswith(_LASTING) else "other statements"]
            if part.percent >= Fraction(row.span[0]):
                words = f"{code} is taken over from {part.of}, {_show(part.percent)}: no sum is done for it here"
                yield Ground(codes=(code,), words=words, rows=(row,))


def _targets(parts: Sequence[Part]) -> tuple[str, ...]:
    general = [row.what.split(" from ")[0] for row in rows("hazard_limits") if " from " in row.what]
    return tuple(dict.fromkeys(general + [code for part in parts for code in part.own_limits]))


def _own(target: str, parts: Sequence[Part]) -> Ground | None:
    """Judge by the parts that have limits of their own alone."""
    counted = [(part, part.own_limits[target]) for part in parts if target in part.own_limits]
    if sum(part.substance_percent / Fraction(row.span[0]) for part, row in counted) < 1:
        return None
    limits = "; ".join(f"{row.of} {_show(part.substance_percent)}, limit {_limit(row)}" for part, row in counted)
    return Ground(codes=(target,), words=f"{target} by limits of its own: {limits}", rows=tuple(r for _, r in counted))


def _general(target: str, parts: Sequence[Part]) -> Ground | None:
    """Judge by the general limits; rows that were looked up go before those from memory, as the table has them."""
    own = [(part, part.own_limits[target]) for part in parts if target in part.own_limits]
    shares = sum((part.substance_percent / Fraction(row.span[0]) for part, row in own), Fraction(0))
    for row in rows("hazard_limits"):
        statement, _, formula = row.what.partition(" from ")
        if statement != target or not formula:
            continue
        counted = [(part, _weight(part, formula)) for part in parts if not part.own_limits]
        total = sum((weight * part.percent for part, weight in counted), Fraction(0))
        if total and shares + total / Fraction(row.span[0]) >= 1:
            named = ", ".join(f"{part.of} {_show(part.percent)}" for part, weight in counted if weight)
            also = "".join(f", {part.of} {_show(part.substance_percent)} of {_limit(its)}" for part, its in own)
            words = f"{target} by the sum of {formula}, limit {_limit(row)}: {named}{also}"
            return Ground(codes=(target,), words=words, rows=(row, *(its for _, its in own)))
    return None


def _weight(part: Part, formula: str) -> int:
    """Give how often a part counts in a sum such as `10 × H314 + H315`; a part counts once, at its heaviest."""
    heaviest = 0
    for term in formula.split(" + "):
        times, _, code = term.rpartition(" × ")
        if code in part.codes:
            heaviest = max(heaviest, int(times or 1))
    return heaviest


def _limit(row: Row) -> str:
    return f"{row.span[0].normalize():f} %"


def _show(percent: Fraction) -> str:
    return f"{float(percent):.3g} %"
