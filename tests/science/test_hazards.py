"""What a label shows for its statements, and that suggestions agree with the starter materials' published classes."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.starter_files import starter_materials
from stockroom.errors import NotFound
from stockroom.science.hazard_words import (
    choose_pictograms,
    choose_precautions,
    choose_signal_word,
    drop_covered,
    write_statement,
)
from stockroom.science.hazards import DEFERENCE, Part, suggest_hazards
from stockroom.science.reference import rows

MATERIALS = {material.key: material for material in starter_materials()}
TABLES = ("hazard_statements", "hazard_limits", "extreme_ph", "flash_points", "incompatible_pairs", "label_sizes")


@pytest.mark.parametrize(
    ("codes", "pictograms"),
    [
        # CLP Article 26(1)(c), read: GHS05 leaves out GHS07 for skin or eye irritation
        ("H318 H315", "GHS05"),
        ("H314 H319", "GHS05"),
        ("H315 H319", "GHS07"),
        # and for nothing else: airways, narcosis, swallowing keep it
        ("H318 H315 H335", "GHS05 GHS07"),
        ("H318 H336", "GHS05 GHS07"),
        ("H314 H302", "GHS05 GHS07"),
        # Article 26(1)(b), read: GHS06 leaves out GHS07 altogether
        ("H301 H315 H335", "GHS06"),
        ("H301 H314 H302", "GHS05 GHS06"),
        # label elements of the classes: CLP Annex I, from memory, flammable liquids read (Table 2.6.2)
        ("H225 H319", "GHS02 GHS07"),
        ("H272", "GHS03"),
        ("H360F", "GHS08"),
        ("H400", "GHS09"),
        ("EUH066", ""),
    ],
)
def test_which_pictogram_gives_way(codes: str, pictograms: str) -> None:
    """CLP Article 26."""
    assert choose_pictograms(codes.split()) == tuple(pictograms.split())


@pytest.mark.parametrize(
    ("codes", "word"),
    [
        ("H318 H315", "Danger"),
        ("H226 H319", "Warning"),
        ("H225 H319", "Danger"),
        ("H224", "Danger"),
        ("H290", "Warning"),
        ("H400", "Warning"),
        ("H412", None),
        ("EUH066", None),
        ("", None),
    ],
)
def test_danger_takes_the_place_of_warning(codes: str, word: str | None) -> None:
    """One signal word alone: CLP Article 20(3), from memory; flammable liquids by Table 2.6.2 (read)."""
    assert choose_signal_word(codes.split()) == word


def test_a_weightier_statement_covers_the_weaker_of_its_kind() -> None:
    """H314 speaks of skin and eyes both (CLP Article 27, from memory); airways are another matter."""
    assert drop_covered(["H315", "H314", "H318", "H335"]) == ("H314", "H335")
    assert drop_covered(["H319", "H318", "H315"]) == ("H318", "H315")
    assert drop_covered(["H226", "H225"]) == ("H225",)


@given(st.sets(st.sampled_from(sorted({row.of for row in rows("hazard_statements") if row.of.startswith("H")}))))
def test_never_more_than_six_precautions(codes: set[str]) -> None:
    """CLP Article 28(3), read: not more than six; what was left off is named, and nothing is said twice."""
    chosen, left_off = choose_precautions(codes)
    assert len(chosen) <= 6
    assert not left_off or len(chosen) == 6
    assert len({*chosen, *left_off}) == len(chosen) + len(left_off)
    if codes & {"H314", "H318", "H319"}:
        assert chosen[0].startswith("P280") and chosen[1].startswith("P305+P351+P338")


def test_starter_statements_are_worded_as_in_the_table() -> None:
    """CLP Annexes III and IV, as transcribed in a public list; sentences joined by semicolons."""
    known = {f"{row.of} {row.what}" for row in rows("hazard_statements")}
    for material in MATERIALS.values():
        coded = [words for words in material.precautions if words.startswith("P")]
        assert {*material.hazards, *coded} <= known, material.key


def test_a_statement_without_words_here_keeps_the_makers_words() -> None:
    """Nothing is made up: an unknown code is refused, and in a suggestion the material's own words are used."""
    with pytest.raises(NotFound, match="maker's sheet"):
        write_statement("H999")
    part = Part(of="dye", percent=Fraction(5), statements=("H317 May cause an allergic skin reaction",))
    assert suggest_hazards([part]).hazards == ("H317 May cause an allergic skin reaction",)


@pytest.mark.parametrize(
    ("key", "purity"), [("hydrogen-peroxide-3", 3), ("hydrogen-peroxide-35", 35), ("ammonia-solution", 10)]
)
def test_bought_solutions_agree_with_their_published_classes(key: str, purity: int) -> None:
    """The starter materials carry their own sources (GisChem, CLP Annex VI); the sums must lead to the same."""
    material = MATERIALS[key]
    suggestion = suggest_hazards([Part(of=key, percent=Fraction(100), purity_percent=Fraction(purity))])
    found, stated = ({words.split()[0] for words in some.hazards} for some in (suggestion, material))
    assert found == stated
    assert suggestion.signal_word == material.signal_word
    assert set(suggestion.pictograms) == set(material.pictograms)


def test_alcohol_water_is_suggested_as_the_starter_has_it() -> None:
    """50 % v/v is 42.5 % w/w of ethanol (from memory): flash point 24 °C, near the limit, the stricter class."""
    ethanol = Part(of="ethanol", percent=Fraction("42.5"), statements=MATERIALS["ethanol"].hazards)
    suggestion = suggest_hazards([ethanol], ethanol_percent_by_volume=50)
    starter = MATERIALS["alcohol-water-50"]
    assert suggestion.hazards == starter.hazards
    assert suggestion.pictograms == starter.pictograms
    assert suggestion.signal_word == starter.signal_word
    assert suggestion.near_limit


def test_calcium_hydroxide_solution_is_suggested_as_the_starter_has_it() -> None:
    """CLP Annex I, 3.2.3.1.2 and 3.3.3.1.2, held at the dry substance's own skin class."""
    powder = Part(of="calcium-hydroxide", percent=Fraction("0.3"), statements=MATERIALS["calcium-hydroxide"].hazards)
    suggestion, starter = suggest_hazards([powder]), MATERIALS["calcium-hydroxide-solution"]
    assert suggestion.hazards == starter.hazards
    assert suggestion.precautions == starter.precautions
    assert suggestion.pictograms == starter.pictograms


def test_every_suggestion_defers_and_cites() -> None:
    """Local rules, the maker's sheet and licensed practice come first; each ground stands on rows with a source."""
    acid = Part(of="citric-acid", percent=Fraction(12), statements=MATERIALS["citric-acid"].hazards)
    for suggestion in (suggest_hazards([]), suggest_hazards([acid])):
        assert suggestion.ground.endswith(DEFERENCE)
        assert all(word in DEFERENCE for word in ("competent person", "Local rules", "maker's sheet", "licensed"))
        assert all(ground.rows for ground in suggestion.grounds)
    assert "No part reaches a limit that is known here" in suggest_hazards([]).ground


@pytest.mark.parametrize("table", TABLES)
def test_every_row_has_a_source_and_says_how_far_it_was_verified(table: str) -> None:
    """What nobody looked up says so where it is cited."""
    for row in rows(table):
        assert row.source and row.conditions
        assert row.verified in ("read", "secondary", "computed", "memory", "common practice")
        assert ("from memory" in row.cite()) or row.verified != "memory"
