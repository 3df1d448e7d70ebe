"""Suggest what the label of a made solution should warn of, with the rule and the reference rows behind each word.

It is a suggestion: local rules, the maker's sheet and licensed practice come first, and a competent person confirms.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from stockroom.errors import NotFound
from stockroom.science.extreme_ph import find_share_of_saturated, is_calcium_hydroxide_solution, judge_ph
from stockroom.science.flash_points import judge_fire
from stockroom.science.hazard_sums import Ground, Part, check_parts, sum_up, take_over
from stockroom.science.hazard_words import (
    choose_pictograms,
    choose_precautions,
    choose_signal_word,
    drop_covered,
    write_statement,
)
from stockroom.science.reference import Row
from stockroom.science.substance_groups import groups_of

Number = Decimal | Fraction | int

DEFERENCE = (
    "A suggestion by published rules, to be confirmed by a competent person. Local rules, the maker's sheet and"
    " licensed practice come first."
)
_ORDER = ("H2", "H314", "H318", "H30", "H315", "H319", "H33")
_PH_MATTERS = frozenset({"acid", "strong alkali", "ammonia", "carbonate"})


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardSuggestion:
    """What a label should warn of, and why."""

    hazards: tuple[str, ...]
    """Statements with code and words, as a material keeps them; the weightiest first."""
    pictograms: tuple[str, ...]
    signal_word: str | None
    precautions: tuple[str, ...]
    """Six at most."""
    precautions_left_off: tuple[str, ...]
    grounds: tuple[Ground, ...]
    notes: tuple[str, ...]
    """What was not known, and what would tell."""
    deference: str = DEFERENCE

    @property
    def near_limit(self) -> bool:
        """Whether a measurement or a sheet could decide otherwise."""
        return any(ground.near_limit for ground in self.grounds)

    @property
    def rows(self) -> tuple[Row, ...]:
        """Every reference row that was used, once each."""
        return tuple(dict.fromkeys(row for ground in self.grounds for row in ground.rows))

    @property
    def ground(self) -> str:
        """The whole of the reasoning in one text, as a material keeps it."""
        said = [ground.words for ground in self.grounds] or ["No part reaches a limit that is known here"]
        return " ".join([*(f"{words}." for words in said), *self.notes, self.deference])


def suggest_hazards(
    parts: Sequence[Part],
    *,
    ph: tuple[Number, Number] | None = None,
    saturated_share: Fraction | None = None,
    ethanol_percent_by_volume: Number | None = None,
) -> HazardSuggestion:
    """Suggest statements, pictograms, signal word and precautions for a solution made of `parts`.

    `ph` is a measured pH from its lowest to its highest reading. `saturated_share` is the part of the whole that is
    saturated calcium hydroxide solution (1/4 for 1 in 4); where it is not given it is worked out from the parts.
    `ethanol_percent_by_volume` is that of the finished solution.
    Water and other parts without statements may be left out. Raises BadInput.
    """
    check_parts(parts)
    summed = [part for part in parts if not is_calcium_hydroxide_solution(part)]
    share = find_share_of_saturated(parts) if saturated_share is None else saturated_share
    found = (
        judge_ph(parts, ph, share),
        judge_fire(parts, ethanol_percent_by_volume=ethanol_percent_by_volume),
        *sum_up(summed),
        *take_over(summed),
    )
    reached = [code for ground in found if ground for code in ground.codes]
    codes = sorted(drop_covered(reached), key=_weight)
    grounds = tuple(ground for ground in found if ground and (not ground.codes or set(ground.codes) & set(codes)))
    hazards = tuple(_write(code, parts) for code in codes)
    precautions, left_off = choose_precautions(hazards)
    return HazardSuggestion(
        hazards=hazards,
        pictograms=choose_pictograms(hazards),
        signal_word=choose_signal_word(hazards),
        precautions=precautions,
        precautions_left_off=left_off,
        grounds=grounds,
        notes=_notes(parts, ph_known=ph is not None or found[0] is not None),
    )


def _weight(code: str) -> tuple[int, str]:
    place = next((place for place, start in enumerate(_ORDER) if code.startswith(start)), len(_ORDER))
    return place, code


def _write(code: str, parts: Sequence[Part]) -> str:
    """Take the words of the table, else those that a part carries."""
    try:
        return write_statement(code)
    except NotFound:
        carried = (words for part in parts for words in part.statements if words.split()[:1] == [code])
        return next(carried, code)


def _notes(parts: Sequence[Part], *, ph_known: bool) -> tuple[str, ...]:
    notes = []
    if not ph_known and any(part.codes and groups_of(part.of) & _PH_MATTERS for part in parts):
        notes.append(
            "The pH is not known, and for acids and alkalis sums can say too little (CLP Annex I, 3.2.3.3.4): measure"
            " it. At 2 and below or 11.5 and above the extreme-pH rule says more."
        )
    bare = sorted({part.of for part in parts if part.own_limits and part.purity_percent is None})
    if bare:
        notes.append(f"The strength of {', '.join(bare)} is not known and was taken as pure.")
    return tuple(notes)
