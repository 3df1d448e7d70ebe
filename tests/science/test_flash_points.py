"""Flash-point classes at, below and above their limits, and which table serves which solvent."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput
from stockroom.science.flash_points import classify_flash_point, flash_point_of_ethanol, judge_fire
from stockroom.science.hazard_sums import Part

ETHANOL = Part(of="ethanol", percent=Fraction(40), statements=("H225 Highly flammable liquid and vapour",))


@pytest.mark.parametrize(
    ("celsius", "code"),
    [("12.7", "H225"), ("22.9", "H225"), ("23", "H226"), ("60", "H226"), ("60.1", None), ("93", None)],
)
def test_flash_point_classes(celsius: str, code: str | None) -> None:
    """Below 23 °C H225, 23 to 60 °C H226: CLP Annex I, Table 2.6.1 (read). 12.7 °C is pure ethanol (secondary)."""
    assert classify_flash_point(Decimal(celsius)) == code


@pytest.mark.parametrize(
    ("percent", "celsius"),
    [
        (5, 62),
        (10, 49),
        (20, 36),
        (30, 29),
        (40, 26),
        (50, 24),
        (60, 22),
        (70, 21),
        (80, 20),
        (90, 17),
        (96, 17),
        (100, 13),
    ],
)
def test_the_table_is_read_as_by_volume(percent: int, celsius: int) -> None:
    """Two public tables with the same figures and opposite units (read); by volume is the cautious one."""
    found, rows = flash_point_of_ethanol(percent)
    assert found == celsius
    assert all("by weight" in row.source and "by volume" in row.source for row in rows)


@given(st.fractions(5, 100), st.fractions(5, 100))
def test_more_ethanol_never_raises_the_flash_point(one: Fraction, other: Fraction) -> None:
    """The table falls throughout, and so does what is read between its figures."""
    less, more = sorted((one, other))
    weak, strong = flash_point_of_ethanol(less)[0], flash_point_of_ethanol(more)[0]
    assert weak is not None and strong is not None and weak >= strong


@pytest.mark.parametrize(
    ("percent", "code", "near"),
    [
        ("3", None, False),
        ("5", "H226", True),
        ("6", "H226", True),
        ("10", "H226", False),
        ("40", "H226", False),
        ("50", "H225", True),
        ("60", "H225", True),
        ("70", "H225", True),
        ("80", "H225", False),
        ("96", "H225", False),
    ],
)
def test_ethanol_water_takes_the_stricter_class_near_a_limit(percent: str, code: str | None, near: bool) -> None:
    """Within 2 °C of a limit, a judgement without a source; the class boundary lies between 50 and 60 % v/v."""
    ground = judge_fire([ETHANOL], ethanol_percent_by_volume=Decimal(percent))
    assert ground is not None
    assert ground.codes == ((code,) if code else ())
    assert ground.near_limit is near
    assert ("Near the limit" in ground.words) is near
    assert "sources disagree" in ground.words


@pytest.mark.parametrize("key", ["isopropanol", "denatured-alcohol", "acetone"])
def test_no_table_is_borrowed_for_another_solvent(key: str) -> None:
    """Isopropanol-water and the like take the class of the pure solvent, until a sheet's value is recorded."""
    solvent = Part(of=key, percent=Fraction(5), statements=ETHANOL.statements)
    ground = judge_fire([solvent], ethanol_percent_by_volume=Decimal(5))
    assert ground is not None and ground.codes == ("H225",)
    recorded = judge_fire([solvent], flash_point_c=Decimal(40))
    assert recorded is not None and recorded.codes == ("H226",) and not recorded.near_limit
    close = judge_fire([solvent], flash_point_c=Decimal(24))
    assert close is not None and close.codes == ("H226",) and close.near_limit


def test_a_mixture_of_solvents_takes_the_strictest_class() -> None:
    """Ethanol with isopropanol has no table either."""
    other = Part(of="isopropanol", percent=Fraction(10), statements=("H226 Flammable liquid and vapour",))
    ground = judge_fire([other, ETHANOL], ethanol_percent_by_volume=Decimal(10))
    assert ground is not None and ground.codes == ("H225",)


def test_without_a_solvent_nothing_is_said_of_fire() -> None:
    """A trace below 1 % of a solvent without a table is left out (common practice)."""
    assert judge_fire([]) is None
    trace = Part(of="isopropanol", percent=Fraction("0.9"), statements=ETHANOL.statements)
    assert judge_fire([trace]) is None


@pytest.mark.parametrize("percent", ["-1", "100.1"])
def test_a_strength_that_cannot_be_is_refused(percent: str) -> None:
    """Ethanol is 0 to 100 % v/v of the whole."""
    with pytest.raises(BadInput, match="0 to 100 % v/v"):
        judge_fire([ETHANOL], ethanol_percent_by_volume=Decimal(percent))
