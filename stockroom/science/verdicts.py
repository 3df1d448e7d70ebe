"""What a check says of a jar: a word by the whole range, the numbers behind it, and what to do next."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stockroom.errors import BadInput
from stockroom.science.ranges import Range, Used, rounded, show_range
from stockroom.science.reference import Row

Word = Literal["saturated", "weak", "carbonated", "reads too high", "cannot tell", "not ready", "fit", "unfit"]

NEXT_STEPS: dict[Word, str] = {
    "saturated": "Nothing to do: it serves until its next check.",
    "weak": "Shake over the solid, let it settle and titrate again. If still weak, make it afresh; do not top up.",
    "carbonated": "Take the solid for carbonate, at least in part. Make it afresh; do not top up.",
    "not ready": "Let it settle until it is clear, and check it then; nothing is spoilt.",
    "reads too high": "A cloudy sample, an acid weaker than its label or another alkali reads high. Take clear"
    " liquid and fresh acid; then make the studio's own reference: shake over solid, settle, titrate. No rise means"
    " saturated.",
    "cannot tell": "Make the studio's own reference: shake over solid, let it settle and titrate again at the same"
    " temperature. No rise means saturated.",
    "fit": "Nothing to do: it serves until its next check.",
    "unfit": "Do not use it until it has been put right.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """A word for a jar and everything it was made from."""

    word: Word
    why: str
    next_step: str
    used: tuple[Used, ...]
    percent: Range | None = None
    """Of saturation, where that was found."""
    strength: Range | None = None
    carbonated_residue: bool = False
    """Whether the solid is to be taken for carbonate: weak although it was shaken over solid and settled."""
    cautions: tuple[str, ...] = ()
    reference: Used | None = None
    """What was just measured and is kept as the studio's own reference."""

    @property
    def rows(self) -> tuple[Row, ...]:
        """Every reference row it rests on, once each."""
        return tuple(dict.fromkeys(row for used in self.used for row in used.rows))

    @property
    def sources(self) -> tuple[str, ...]:
        """Where every figure comes from that was not read in this very check: tables first, then the studio's own."""
        own = dict.fromkeys(f"{one.what}: {one.own}" for one in self.used if one.own)
        return (*(row.cite() for row in self.rows), *own)


def word_for(percent: Range, limit_percent: float) -> Word:
    """Judge a share of saturation by its whole range against a limit in %. Raises BadInput for a limit off 0 to 100.

    Wholly above saturation reads too high.
    """
    if not 0 < limit_percent < 100:
        raise BadInput(f"A limit of {limit_percent:g} % is none: write more than 0 and less than 100 % of saturation.")
    if percent.low > 100:
        return "reads too high"
    if percent.low > limit_percent:
        return "saturated"
    return "weak" if percent.high < limit_percent else "cannot tell"


def explain(percent: Range, limit_percent: float, word: Word) -> str:
    """Say how a share of saturation stands to the limit: `94 to 104 % of saturation, all above the limit of 90 %`."""
    how = {
        "saturated": f"all above the limit of {limit_percent:g} %",
        "weak": f"all below the limit of {limit_percent:g} %",
        "reads too high": "all above what water can hold",
        "carbonated": f"all below the limit of {limit_percent:g} % although it was shaken over the solid",
    }.get(word, f"on both sides of the limit of {limit_percent:g} %")
    return f"{_beside(percent, limit_percent)} of saturation: {how}."


def _beside(percent: Range, limit_percent: float) -> str:
    """Write a share of saturation; an end that rounds onto the limit or past it says on which side of it it lies."""
    low, best, high = rounded(percent)
    if percent.high < limit_percent <= high:
        return f"{low:f} to just under {limit_percent:g} %, likeliest {best:f} %"
    if low <= limit_percent < percent.low:
        return f"just over {limit_percent:g} to {high:f} %, likeliest {best:f} %"
    return show_range(percent)
