"""The extreme-pH rule and the dilutions of calcium hydroxide that it covers."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import log10, sqrt

import pytest

from stockroom.errors import BadInput
from stockroom.science.hazards import HazardSuggestion, Part, suggest_hazards

POWDER = ("H315 Causes skin irritation", "H318 Causes serious eye damage", "H335 May cause respiratory irritation")


def lime(one_in: str) -> HazardSuggestion:
    share = 1 / Fraction(one_in)
    jar = Part(of="calcium-hydroxide-solution", percent=100 * share, statements=POWDER[:2])
    return suggest_hazards([jar])


def labelled(suggestion: HazardSuggestion) -> list[str]:
    return [words.split()[0] for words in suggestion.hazards]


@pytest.mark.parametrize(
    ("one_in", "codes", "near"),
    [
        ("1", ["H318", "H315"], False),
        ("2", ["H318", "H315"], False),
        ("4", ["H318", "H315"], False),
        ("7.9", ["H318", "H315"], False),
        ("8", ["H318", "H315"], True),
        ("12", ["H318", "H315"], True),
        ("20", ["H318", "H315"], True),
        ("20.1", [], False),
        ("50", [], False),
    ],
)
def test_calcium_hydroxide_and_its_baths_are_labelled_by_their_ph(one_in: str, codes: list[str], near: bool) -> None:
    """pH 11.5 and above: CLP Annex I, 3.2.3.1.2 and 3.3.3.1.2 (read); which baths: computed, see below."""
    suggestion = lime(one_in)
    assert labelled(suggestion) == codes
    assert suggestion.near_limit is near
    assert suggestion.signal_word == ("Danger" if codes else None)
    assert suggestion.pictograms == (("GHS05",) if codes else ())
    assert ("labelled unless measured" in suggestion.ground) is near


def ph_of(calcium_mol_per_l: float) -> float:
    """Work out the pH at 25 °C by the Davies equation (A 0.5085, b 0.3) with the ion pair CaOH+, log K 1.22.

    Lothenbach's cement database: portlandite log K 22.80, log Kw -14.00, CaOH+ -12.78; its 1.50 g/L at saturation
    agrees with 0.0203 mol/L of Bates, Bower and Smith 1956, J. Res. NBS 56, 305.
    """
    free, hydroxide = calcium_mol_per_l, 2 * calcium_mol_per_l
    gamma = 1.0
    for _ in range(200):
        strength = 0.5 * (4 * free + hydroxide + (calcium_mol_per_l - free))
        gamma = 10 ** (-0.5085 * (sqrt(strength) / (1 + sqrt(strength)) - 0.3 * strength))
        # The pair forms from Ca++ and OH-, and has itself a charge of one: gamma of a charge of two is gamma^4.
        pair = 10**1.22 * gamma**4 * free * hydroxide
        free = calcium_mol_per_l / (1 + pair / free)
        hydroxide = 2 * calcium_mol_per_l - (calcium_mol_per_l - free)
    return 14.0 + log10(hydroxide * gamma)


def test_the_dilutions_near_the_limit_lie_about_ph_11_5() -> None:
    """Saturated 12.45 (Bates 1956); 1 in 8 and 1 in 20 lie within 0.25 of 11.5, 1 in 50 well below."""
    saturated = 0.0203
    assert ph_of(saturated) == pytest.approx(12.45, abs=0.03)
    assert ph_of(saturated / 2) == pytest.approx(12.2, abs=0.05)
    assert ph_of(saturated / 4) == pytest.approx(11.9, abs=0.05)
    assert 11.5 < ph_of(saturated / 8) < 11.75
    assert 11.25 < ph_of(saturated / 20) < 11.5
    assert ph_of(saturated / 50) < 11.0


def test_sums_alone_say_nothing_of_saturated_calcium_hydroxide() -> None:
    """0.16 % is below every limit of Tables 3.2.3 and 3.3.3, so that the pH rule is the one ground."""
    suggestion = suggest_hazards([Part(of="calcium-hydroxide", percent=Fraction("0.16"), statements=POWDER)])
    assert labelled(suggestion) == ["H318", "H315"]
    [ground] = suggestion.grounds
    assert "extreme-pH rule says skin corrosion and eye damage (H314)" in ground.words
    assert "classed no higher for the skin (calcium-hydroxide: H315, H318)" in ground.words
    assert "competent person" in suggestion.ground and "Local rules" in suggestion.ground


def test_a_bath_from_powder_is_judged_like_one_from_the_jar() -> None:
    """0.4 g/L of powder is 1 in 4 of 1.6 g/L; 0.03 g/L is weaker than 1 in 50."""
    quarter = suggest_hazards([Part(of="calcium-hydroxide", percent=Fraction("0.04"), statements=POWDER)])
    assert "1 in 4" in quarter.ground and labelled(quarter) == ["H318", "H315"]
    assert labelled(suggest_hazards([Part(of="calcium-hydroxide", percent=Fraction("0.003"), statements=POWDER)])) == []


def acid(low: str, high: str, *statements: str) -> HazardSuggestion:
    part = Part(of="something", percent=Fraction(1, 2), statements=statements)
    return suggest_hazards([part], ph=(Decimal(low), Decimal(high)))


@pytest.mark.parametrize(
    ("low", "high", "codes", "near"),
    [
        ("11.5", "11.6", ["H314"], False),
        ("11.49", "11.49", [], False),
        ("11.4", "11.6", ["H314"], True),
        ("2", "2", ["H314"], False),
        ("1.9", "2.1", ["H314"], True),
        ("2.01", "2.1", [], False),
        ("7", "7", [], False),
    ],
)
def test_a_measured_ph_is_judged_by_its_whole_range(low: str, high: str, codes: list[str], near: bool) -> None:
    """pH 2 or less, 11.5 or more: corrosive absent other information (CLP Annex I, 3.2.3.1.2, read)."""
    suggestion = acid(low, high)
    assert labelled(suggestion) == codes
    assert suggestion.near_limit is near


def test_skin_corrosion_is_held_back_only_where_nothing_in_it_is_corrosive() -> None:
    """An irritant alone: H318 and H315. With something corrosive in it, or nothing that is known: H314."""
    assert labelled(acid("12", "12.2", "H319 Causes serious eye irritation")) == ["H318", "H315"]
    assert labelled(acid("12", "12.2", "H314 Causes severe skin burns and eye damage")) == ["H314"]


def test_a_measured_ph_goes_before_the_reckoned_share() -> None:
    """1 in 12 is labelled unless measured; measured at 11.2 to 11.3 it lies outside."""
    jar = Part(of="calcium-hydroxide-solution", percent=Fraction(100, 12), statements=POWDER[:2])
    suggestion = suggest_hazards([jar], ph=(Decimal("11.2"), Decimal("11.3")))
    assert labelled(suggestion) == []
    assert "as measured" in suggestion.ground


def test_without_a_ph_acids_and_alkalis_ask_for_one() -> None:
    """Sums can say too little of them: CLP Annex I, 3.2.3.3.4 and 3.3.3.3.4 (that they exist: read)."""
    part = Part(of="citric-acid", percent=Fraction(5), statements=("H319 Causes serious eye irritation",))
    assert "measure it" in suggest_hazards([part]).ground
    assert "measure it" not in suggest_hazards([part], ph=(Decimal("2.1"), Decimal("2.2"))).ground


@pytest.mark.parametrize(("low", "high"), [("12", "11"), ("-1", "3"), ("13", "15")])
def test_a_ph_that_cannot_be_is_refused(low: str, high: str) -> None:
    """It is given from its lowest to its highest reading, between 0 and 14."""
    with pytest.raises(BadInput, match="between 0 and 14"):
        acid(low, high)


def ph_of_carbonate(mol_per_l: float, *, activities: bool) -> float:
    """Work out the pH of a soluble carbonate at 25 °C: pK 10.33 (Harned and Scholes 1941), pKw 14.00, Davies."""
    hydroxide = 1e-3
    for _ in range(200):
        strength = 2 * mol_per_l + mol_per_l - hydroxide
        gamma = 10 ** (-0.5085 * (sqrt(strength) / (1 + sqrt(strength)) - 0.3 * strength)) if activities else 1.0
        constant = 10 ** -(14.00 - 10.33) * gamma**2
        hydroxide = (sqrt(constant**2 + 4 * constant * mol_per_l) - constant) / 2
    return 14.0 + log10(gamma * hydroxide)


@pytest.mark.parametrize(("name", "molar_mass"), [("potassium-carbonate", 138.205), ("sodium-carbonate", 105.988)])
def test_soluble_carbonate_is_near_the_limit_between_what_activities_say_and_what_they_do_not(
    name: str, molar_mass: float
) -> None:
    """Molar masses: CRC Handbook (secondary); the solution reckoned at 1 g/mL."""
    part = {"of": name, "statements": ("H315 Causes skin irritation", "H319 Causes serious eye irritation")}
    said = {percent: suggest_hazards([Part(percent=Fraction(percent), **part)]) for percent in ("1/10", "1", "4")}  # type: ignore[arg-type]
    assert ph_of_carbonate(10 / molar_mass, activities=True) < 11.5 < ph_of_carbonate(10 / molar_mass, activities=False)
    assert labelled(said["1"]) == ["H318", "H315"] and said["1"].near_limit
    assert ph_of_carbonate(40 / molar_mass, activities=True) > 11.5
    assert labelled(said["4"]) == ["H318", "H315"] and not said["4"].near_limit
    assert ph_of_carbonate(1 / molar_mass, activities=False) < 11.5
    assert labelled(said["1/10"]) == []


def test_bicarbonate_and_carbonate_with_acid_are_not_judged_by_the_carbonate_in_their_name() -> None:
    for parts in (("potassium-bicarbonate",), ("potassium-carbonate", "citric-acid")):
        suggestion = suggest_hazards([Part(of=name, percent=Fraction(4)) for name in parts])
        assert labelled(suggestion) == []
