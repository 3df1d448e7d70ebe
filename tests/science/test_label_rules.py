"""Label and pictogram sizes by volume, and what small containers are let off, on both sides of each limit."""

from __future__ import annotations

import pytest

from stockroom.errors import BadInput
from stockroom.science.label_rules import GOOD_PRACTICE, find_label_rule, find_relief, warn_of_size
from stockroom.science.quantities import Dimension, Quantity


def ml(volume: float) -> Quantity:
    return Quantity(Dimension.VOLUME, round(volume * 1_000))


@pytest.mark.parametrize(
    ("volume_ml", "label", "pictogram"),
    [
        (30, (52, 74), 16),
        (3_000, (52, 74), 16),
        (3_001, (74, 105), 23),
        (50_000, (74, 105), 23),
        (50_001, (105, 148), 32),
        (500_000, (105, 148), 32),
        (500_001, (148, 210), 46),
    ],
)
def test_sizes_follow_the_volume(volume_ml: float, label: tuple[int, int], pictogram: int) -> None:
    """CLP Annex I, Table 1.3 (read): up to 3 L, above 3 to 50 L, above 50 to 500 L, above 500 L."""
    rule = find_label_rule(ml(volume_ml))
    assert (rule.short_side_mm, rule.long_side_mm) == label
    assert rule.pictogram_mm == pictogram
    assert rule.least_pictogram_mm == (10 if volume_ml <= 3_000 else pictogram)
    assert rule.if_possible is (volume_ml <= 3_000)


@pytest.mark.parametrize("volume_ml", [1_000, 10_000, 100_000, 1_000_000])
def test_each_pictogram_is_about_a_fifteenth_of_its_label(volume_ml: float) -> None:
    """CLP Annex I, 1.2.1.3: at least one fifteenth of the least label surface; Table 1.3 rounds to whole mm."""
    rule = find_label_rule(ml(volume_ml))
    assert float(rule.pictogram_mm**2 * 15) == pytest.approx(float(rule.short_side_mm * rule.long_side_mm), rel=0.025)


@pytest.mark.parametrize(("volume_ml", "x_height"), [(500, "1.2"), (501, "1.4"), (3_000, "1.4")])
def test_letters_have_a_least_height(volume_ml: float, x_height: str) -> None:
    """1.2 mm: BAuA example label (read); 1.4 mm above 0.5 L: amendment of 2024, from memory."""
    rule = find_label_rule(ml(volume_ml))
    assert str(rule.x_height_mm) == x_height
    letters = next(row for row in rule.rows if row.what == "letters, x-height")
    assert letters.verified == ("read" if volume_ml <= 500 else "memory")


def test_a_label_below_the_size_is_warned_of_as_good_practice() -> None:
    """The table binds who supplies: a jar of the studio is a workplace container."""
    [size, pictogram, letters] = warn_of_size(ml(1_000), (70, 40), pictogram_mm=12, x_height_mm=1.2)
    assert "52 x 74 mm if possible" in size and "40 x 70" in size
    assert "16 mm wide if possible" in pictogram
    assert "1.4 mm" in letters
    assert all(words.endswith(GOOD_PRACTICE) for words in (size, pictogram, letters))
    [least] = warn_of_size(ml(1_000), (74, 52), pictogram_mm=9.9)
    assert "never below 10 mm" in least
    assert warn_of_size(ml(1_000), (74, 52), pictogram_mm=16, x_height_mm=1.4) == ()


def test_relief_for_small_containers_never_covers_corrosion_or_eye_damage() -> None:
    """CLP Annex I, 1.5.2 (read): skin and eye irritation yes, Skin Corr. and Eye Dam. 1 no."""
    relief = find_relief(ml(125), ("H318 Causes serious eye damage", "H315 Causes skin irritation"))
    assert relief.applies
    assert relief.may_leave_off == ("H315",)
    assert relief.must_keep == ("H318",)
    assert "H318 stay in full" in relief.words and "signal word" in relief.words
    assert find_relief(ml(50), ("H314 Causes severe skin burns and eye damage",)).applies is False


@pytest.mark.parametrize("code", ["H315", "H319", "H272", "H335", "H336"])
def test_relief_that_was_read(code: str) -> None:
    """CLP Annex I, 1.5.2: Skin Irrit. 2, Eye Irrit. 2, Ox. Liq. 2 and 3, STOT SE 3 (read)."""
    relief = find_relief(ml(100), (code,))
    assert relief.may_leave_off == (code,)
    assert {row.verified for row in relief.rows} == {"read"}


@pytest.mark.parametrize("code", ["H225", "H226", "H302", "H332"])
def test_relief_from_memory_says_so(code: str) -> None:
    """Flam. Liq. 2 and 3 and Acute Tox. 4: from memory."""
    relief = find_relief(ml(100), (code,))
    assert relief.may_leave_off == (code,)
    assert any("from memory" in row.cite() for row in relief.rows)


def test_there_is_no_relief_above_125_ml() -> None:
    """Up to and with 125 mL: CLP Annex I, 1.5.2 (read)."""
    relief = find_relief(ml(125.001), ("H315 Causes skin irritation",))
    assert not relief.applies and relief.must_keep == ("H315",)


@pytest.mark.parametrize("quantity", [ml(0), Quantity(Dimension.MASS, 5)])
def test_what_is_no_volume_is_refused(quantity: Quantity) -> None:
    """The message says what is accepted."""
    for asked in (find_label_rule, lambda volume: find_relief(volume, ())):
        with pytest.raises(BadInput, match="like 500 mL"):
            asked(quantity)
