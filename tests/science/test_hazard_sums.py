"""Concentration limits at, below and above each boundary, against their published tables."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stockroom.errors import BadInput
from stockroom.science.hazards import HazardSuggestion, Part, suggest_hazards


def made_of(text: str) -> HazardSuggestion:
    """Suggest for parts such as `4.9 H314, 3 H315`: per cent by weight and the statements of each."""
    parts = []
    for number, part in enumerate(text.split(", ")):
        percent, *codes = part.split()
        statements = tuple(f"{code} as the maker words it" for code in codes)
        parts.append(Part(of=f"part-{number}", percent=Fraction(percent), statements=statements))
    return suggest_hazards(parts)


def codes(suggestion: HazardSuggestion) -> set[str]:
    return {words.split()[0] for words in suggestion.hazards}


SKIN_AND_EYES = [
    # CLP Annex I, Table 3.2.3 (agency slides, read) with Table 3.3.3 (trade association's paper, read)
    ("5 H314", {"H314"}),
    ("4.99 H314", {"H315", "H318"}),
    ("2.5 H314, 2.5 H314", {"H314"}),
    ("1 H314", {"H315", "H319"}),
    ("0.99 H314", set()),
    ("3 H314", {"H315", "H318"}),
    ("2.99 H314", {"H315", "H319"}),
    ("10 H315", {"H315"}),
    ("9.99 H315", set()),
    ("5 H315, 5 H315", {"H315"}),
    ("0.5 H314, 5 H315", {"H315"}),
    ("0.5 H314, 4.99 H315", set()),
    ("3 H318", {"H318"}),
    ("2.99 H318", {"H319"}),
    ("1.5 H318, 1.5 H318", {"H318"}),
    ("1 H318", {"H319"}),
    ("0.99 H318", set()),
    ("10 H319", {"H319"}),
    ("9.99 H319", set()),
    # Table 3.3.3, last row: from memory
    ("0.5 H318, 5 H319", {"H319"}),
    ("0.5 H318, 4.99 H319", set()),
    # a part counts once, though it carries both statements
    ("2.99 H314 H318", {"H315", "H319"}),
]


@pytest.mark.parametrize(("mixture", "expected"), SKIN_AND_EYES)
def test_skin_and_eye_limits_are_reached_at_the_figure_and_not_below(mixture: str, expected: set[str]) -> None:
    """CLP Annex I, Tables 3.2.3 and 3.3.3."""
    assert codes(made_of(mixture)) == expected


OTHERS = [
    # TRGS 201, no. 2.2.6.1 (read): 20 %, H335 and H336 each summed separately
    ("20 H335", {"H335"}),
    ("19.99 H335", set()),
    ("10 H335, 10 H335", {"H335"}),
    ("19 H335, 19 H336", set()),
    ("20 H336", {"H336"}),
    ("19.99 H336", set()),
    # CLP Annex I, 3.1.3.6.1 with a point estimate of 500 mg/kg for category 4, limit 2000: from memory
    ("25 H302", {"H302"}),
    ("24.99 H302", set()),
    ("13 H302, 12 H302", {"H302"}),
    # CLP Annex I, Table 4.1.1: from memory
    ("25 H400", {"H400"}),
    ("24.99 H400", set()),
    # no sum is done: taken over from 1 %, lasting harm from 0.1 % (limits from memory)
    ("1 H290", {"H290"}),
    ("0.99 H290", set()),
    ("0.1 H350", {"H350"}),
    ("0.099 H350", set()),
]


@pytest.mark.parametrize(("mixture", "expected"), OTHERS)
def test_other_limits_are_reached_at_the_figure_and_not_below(mixture: str, expected: set[str]) -> None:
    """Each with its source in the table above."""
    assert codes(made_of(mixture)) == expected


def peroxide(percent: str) -> HazardSuggestion:
    bottle = Part(of="hydrogen-peroxide-70", percent=Fraction(percent), purity_percent=Fraction(100))
    return suggest_hazards([bottle])


PEROXIDE = [
    # GisChem sheet 5 to below 8 % (read)
    ("4.99", set()),
    ("5", {"H319"}),
    ("7.99", {"H319"}),
    # GisChem sheet 8 to below 35 % (read): H318 and H272 throughout, H302 from 25 %, H332 from 30 %
    ("8", {"H318", "H272"}),
    ("24.99", {"H318", "H272"}),
    ("25", {"H318", "H272", "H302"}),
    ("30", {"H318", "H272", "H302", "H332"}),
    ("34.99", {"H318", "H272", "H302", "H332"}),
    # agency's register, specific limits (read): H315 35 to below 50 %; H335 from 35 %: from memory
    ("35", {"H318", "H272", "H302", "H332", "H315", "H335"}),
    ("49.99", {"H318", "H272", "H302", "H332", "H315", "H335"}),
    # the same register: H314 from 50 %, H271 from 70 %
    ("50", {"H314", "H272", "H302", "H332", "H335"}),
    ("69.99", {"H314", "H272", "H302", "H332", "H335"}),
    ("70", {"H314", "H271", "H302", "H332", "H335"}),
]


@pytest.mark.parametrize(("percent", "expected"), PEROXIDE)
def test_limits_of_peroxide_go_before_the_general_ones(percent: str, expected: set[str]) -> None:
    """CLP Annex VI limits and GisChem sheets, each with its source in the table above."""
    assert codes(peroxide(percent)) == expected


def test_only_the_substance_in_the_bottle_counts_against_its_own_limits() -> None:
    """A third of a 35 % bottle is 11.7 % peroxide: eye damage, not skin irritation, whatever the bottle itself says."""
    bottle = Part(
        of="hydrogen-peroxide-35",
        percent=Fraction(100, 3),
        statements=("H315 Causes skin irritation", "H335 May cause respiratory irritation"),
        purity_percent=Fraction(35),
    )
    assert codes(suggest_hazards([bottle])) == {"H318", "H272"}


@pytest.mark.parametrize(
    ("percent", "expected"),
    [
        ("4.99", {"H315", "H318"}),
        ("5", {"H290", "H314", "H335"}),
        ("9.99", {"H290", "H314", "H335"}),
        ("10", {"H290", "H314", "H335", "H400"}),
    ],
)
def test_ammonia_solution_follows_its_sheets(percent: str, expected: set[str]) -> None:
    """GisChem sheets 5 to below 10 % and from 10 % (read); below 5 % the general limits."""
    bottle = Part(of="ammonia-solution", percent=Fraction(percent), purity_percent=Fraction(100))
    assert codes(suggest_hazards([bottle])) == expected


def test_shares_of_own_and_general_limits_add_up() -> None:
    """4 % peroxide is 0.8 of its 5 %, 2 % of an eye irritant 0.2 of 10 %: one. The way of adding: from memory."""
    four = Part(of="hydrogen-peroxide-3", percent=Fraction(4), purity_percent=Fraction(100))
    irritant = Part(of="salt", percent=Fraction(2), statements=("H319 Causes serious eye irritation",))
    assert codes(suggest_hazards([four, irritant])) == {"H319"}
    less = Part(of="salt", percent=Fraction("1.99"), statements=irritant.statements)
    assert codes(suggest_hazards([four, less])) == set()


def test_the_row_that_was_looked_up_is_cited_before_one_from_memory() -> None:
    """12 % of an eye irritant passes by the plain row of Table 3.3.3 and by its last row: the first was read."""
    [ground] = made_of("12 H319").grounds
    assert [row.verified for row in ground.rows] == ["read"]
    [ground] = made_of("0.5 H318, 5 H319").grounds
    assert ground.rows[0].cite().endswith("(from memory, not verified)")


@pytest.mark.parametrize("mixture", ["101 H315", "-1 H315", "60 H315, 60 H319"])
def test_parts_that_cannot_be_are_refused(mixture: str) -> None:
    """No part is less than nothing, and together they are no more than the whole."""
    with pytest.raises(BadInput, match=r"% w/w|whole"):
        made_of(mixture)


def test_a_strength_that_is_not_known_is_taken_as_pure_and_said() -> None:
    """The cautious reading, with what would tell."""
    suggestion = suggest_hazards([Part(of="hydrogen-peroxide-3", percent=Fraction(10))])
    assert codes(suggestion) == {"H318", "H272"}
    assert "not known" in suggestion.ground
