"""A reading against a range of its own: fit where all of it lies within, unfit where all of it lies outside."""

from __future__ import annotations

import re
from decimal import Decimal

from stockroom.errors import BadInput, Unreadable
from stockroom.science.numerals import quoted, read_decimal, tidy
from stockroom.science.ranges import Range, Used, give_or_take, show_range
from stockroom.science.verdicts import NEXT_STEPS, Verdict, Word

_TYPED = r"(?P<before>pH )?(?P<number>[0-9.,]+) ?(?P<unit>.*)"
_NEXT: dict[Word, str] = {
    "fit": NEXT_STEPS["fit"],
    "unfit": "Do not use it: put it right and check it again, or discard it by local rules.",
    "cannot tell": "Read it again by something with a smaller error; until then take it as not known to be fit.",
}


def read_figure(text: str) -> tuple[Decimal, str]:
    """Read a figure with the unit it was read in, which may be left out: `pH 8.2`, `0.75 % w/v`, `12,5`.

    Raises Unreadable, for a negative figure too.
    """
    plain = re.sub(r"(?i)^ph ?(?=[0-9.,-])", "pH ", tidy(text))
    match = re.fullmatch(_TYPED, plain)
    if not match:
        if plain.removeprefix("pH ").startswith("-"):
            raise Unreadable(f"{quoted(text)} is negative. Look at the number and its sign.", read=text)
        raise Unreadable(f"{quoted(text)} is not a reading. Write a number, such as pH 8.2 or 0.75 % w/v.", read=text)
    unit = match["unit"].strip() or (match["before"] or "").strip()
    return read_decimal(match["number"]), "pH" if unit.casefold() == "ph" else unit


def last_digit(figure: Decimal) -> Decimal:
    """Give one of the last digit that was written: 0.1 for 8.2."""
    return Decimal((0, (1,), int(figure.as_tuple().exponent)))


def judge_in_range(
    figure: Decimal,
    error: Decimal,
    *,
    low: Decimal | None,
    high: Decimal | None,
    unit: str,
    range_from: str,
    error_from: str,
) -> Verdict:
    """Judge a reading, with its error either way, by a range that may be open at one end.

    `range_from` and `error_from` say in words where they come from. Raises BadInput for a range that is none.
    """
    if low is None and high is None:
        raise BadInput("A reading needs a range to be held against: its least, its most, or both.")
    if low is not None and high is not None and low > high:
        raise BadInput(f"{low} to {high} {unit} is no range: the least is more than the most.")
    read = give_or_take(float(figure), float(error), unit)
    # in decimals: a reading that ends just on an end of the range lies within
    lowest, highest = max(Decimal(0), figure - error), figure + error
    word: Word = "cannot tell"
    how = "on both sides of an end of"
    if (low is None or low <= lowest) and (high is None or highest <= high):
        word, how = "fit", "all within"
    elif low is not None and highest < low:
        word, how = "unfit", "all below"
    elif high is not None and lowest > high:
        word, how = "unfit", "all above"
    said = f"{low} to {high}" if low is not None and high is not None else ""
    said = f"{said or (f'at most {high}' if low is None else f'at least {low}')} {unit}".strip()
    known = [float(end) for end in (low, high) if end is not None]
    ends = Range(low=known[0], best=known[0], high=known[-1], unit=unit)
    return Verdict(
        word=word,
        why=f"{show_range(read)} was read, good to {error} either way: {how} the range that is fit, {said}.",
        next_step=_NEXT[word],
        used=(
            Used(what="reading", figure=read, own=f"good to {error}, {error_from}"),
            Used(what="range that is fit", figure=ends, own=f"{said}, {range_from}"),
        ),
    )
