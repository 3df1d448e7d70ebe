"""What looks say of a jar, in its own words, and whether a pinch of its solid fizzes with acid."""

from __future__ import annotations

from stockroom.domain.lots import Lot
from stockroom.domain.recipe_checks import FINE_LOOKS, folded
from stockroom.domain.recipes import RecipeCheck
from stockroom.errors import BadInput
from stockroom.science.verdicts import NEXT_STEPS, Verdict, Word

OVER_LIME: dict[str, tuple[Word, str]] = {
    "clear": ("cannot tell", "Clear over solid is as it should be, and no proof: titrate to know the strength."),
    "film": ("cannot tell", "A film of carbonate is no fault: draw from below it. Titrate to know the strength."),
    "cloudy": ("not ready", "Let it settle until it is clear; nothing is spoilt."),
    "no solid": ("cannot tell", "Nothing is left to saturate a refill: titrate before use, and make afresh."),
}
"""What looks say of a jar kept over calcium hydroxide: evidence, not proof (common practice, no source)."""

OVER_SALT: dict[str, tuple[Word, str]] = {
    "solid": ("cannot tell", "Solid is as it should be, and no proof: read the humidity with a meter to know."),
    "no solid": ("cannot tell", "Add salt until solid stays, wait a day, and read the humidity."),
    "creeping": ("cannot tell", "Wipe the rim, and keep a tray under it. Read the humidity with a meter to know."),
}
"""The same of a salt for humidity (common practice, no source)."""

SPOILT = ("mould", "smell", "thin", "weeping", "threads", "cloudy", "no bubbles")
"""Looks that end what has no words of its own (common practice, no source)."""

NEXT_SPOILT = "Discard it, by local rules for waste."

FIZZ = {"fizzes": True, "no fizz": False}


def judge_looks(typed: str, lot: Lot, solid: str | None, check: RecipeCheck | None) -> Verdict:
    """Judge a jar by its looks. Raises BadInput, naming the words that are read, for any other."""
    word = folded(typed)
    if lot.over_solid and not (check and word in check.spoilt):
        over = OVER_LIME if solid in ("calcium hydroxide", None) else OVER_SALT
        if word not in over:
            raise BadInput(f"'{word}' is not one of the looks of a jar over solid: {', '.join(over)}.")
        verdict, next_step = over[word]
        return Verdict(word=verdict, why=f"It looks {word}.", next_step=next_step, used=())
    spoilt = check.spoilt if check and check.spoilt else SPOILT
    if word in spoilt:
        why = f"It is spoilt: {word}. No other reading passes it again."
        return Verdict(word="unfit", why=why, next_step=NEXT_SPOILT, used=())
    if word not in FINE_LOOKS:
        raise BadInput(
            f"'{word}' is not read of {lot.material.name}. Say {', '.join(FINE_LOOKS)}; or {', '.join(spoilt)}."
        )
    return Verdict(word="fit", why=f"It looks {word}.", next_step="Nothing to do; looks extend no date.", used=())


def judge_fizz(typed: str) -> Verdict:
    """Judge the solid by a rinsed pinch of it with a drop of dilute acid, outside of the jar.

    Common practice, no source. Raises BadInput for another word.
    """
    word = folded(typed)
    if word not in FIZZ:
        raise BadInput(f"'{typed}' is not read of a pinch with acid. Say {' or '.join(FIZZ)}.")
    cautions = (
        "Eye protection on. A rinsed pinch on a glass, a drop of dilute acid on it: never acid into the jar.",
        "That a pinch which fizzes is carbonate is common practice, no source.",
    )
    if FIZZ[word]:
        return Verdict(
            word="carbonated",
            why="A rinsed pinch of the solid fizzed with dilute acid: it is carbonate, at least in part.",
            next_step=NEXT_STEPS["carbonated"],
            used=(),
            carbonated_residue=True,
            cautions=cautions,
        )
    return Verdict(
        word="cannot tell",
        why="A rinsed pinch of the solid did not fizz: no carbonate was seen. That tells nothing of the strength.",
        next_step="Titrate clear liquid to know the strength.",
        used=(),
        cautions=cautions,
    )
