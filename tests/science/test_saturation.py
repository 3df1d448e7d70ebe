"""The saturated jar: what water holds of calcium hydroxide, and where the solid went, to the microgram."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.errors import BadInput
from stockroom.science.ranges import Range, exactly, show_best
from stockroom.science.residue import judge_residue, stand_at
from stockroom.science.saturation import (
    Balance,
    Counted,
    Drawn,
    Event,
    Fill,
    PouredIn,
    Shaken,
    Solid,
    balance_jar,
    refills_left,
)
from stockroom.science.solubility import saturation_at, used_up_by
from stockroom.science.temperature import curve, row_of, water_density

GRAM, LITRE = 1_000_000, 1_000_000
NINETY_FIVE = exactly(95, "%")

FAMILY_A = {0: 1.89, 10: 1.82, 20: 1.73, 30: 1.60, 40: 1.41, 60: 1.21, 80: 0.86, 100: 0.66}
FAMILY_B = {
    0: 1.85,
    10: 1.76,
    20: 1.65,
    30: 1.53,
    40: 1.41,
    50: 1.28,
    60: 1.16,
    70: 1.06,
    80: 0.94,
    90: 0.85,
    100: 0.77,
}


def jar(*events: Event, grams: float = 10) -> Balance:
    return balance_jar([Solid(mass_ug=round(grams * GRAM), purity=NINETY_FIVE), *events])


@pytest.mark.parametrize(("name", "table"), [("A", FAMILY_A), ("B", FAMILY_B)])
def test_both_families_of_solubility_are_held_as_they_circulate(name: str, table: dict[int, float]) -> None:
    """Attributed to Lange (A) and to Perry after Seidell (B), originals not opened.

    A at 10, 30, 40, 60 and 80 °C and B at 50, 80, 90 and 100 °C are from memory.
    """
    family = curve("calcium_hydroxide_solubility", "calcium hydroxide", f"solubility by family {name}")
    assert {celsius: float(10 * row.span[0]) for celsius, row in family.points} == table
    marked = {celsius for celsius, row in family.points if row.verified == "memory"}
    assert marked == ({10, 30, 40, 60, 80} if name == "A" else {50, 80, 90, 100})


def test_the_measured_point_at_25_degrees_is_the_lowest_and_the_families_lie_above_it() -> None:
    """0.0203 mol/L = 1.504 g/L: Bates, Bower and Smith 1956, J. Res. NBS 56, 305-312 (abstract read)."""
    saturated = saturation_at(25)
    assert saturated.figure.low == pytest.approx(1.504, abs=0.0005)
    assert saturated.figure.best == pytest.approx(1.59)
    assert saturated.figure.high == pytest.approx(1.665)
    assert any("Bates" in row.source and row.verified == "secondary" for row in saturated.rows)


def test_at_20_degrees_the_families_are_5_per_cent_apart() -> None:
    """1.65 and 1.73 g/L, families B and A (secondary)."""
    figure = saturation_at(20).figure
    assert (figure.best, figure.high) == (pytest.approx(1.65), pytest.approx(1.73))


@pytest.mark.parametrize(
    ("celsius", "published"),
    [(15, 1.70), (25, 1.5), (100, 0.769), (22, 1.587), (22, 1.6)],
    ids=["USP 35, about 1.70", "Seidell and Linke 1953", "1 in 1300, boiling", "1 in 630, room", "common practice"],
)
def test_what_authorities_say_at_one_temperature_lies_in_the_range(celsius: float, published: float) -> None:
    """United States Pharmacopeia 35 (read), 31 as quoted; Seidell and Linke as quoted; 1.6 g/L: common practice."""
    figure = saturation_at(celsius).figure
    # As a pharmacopoeia's "about" and a rounded 1.5 are no sharper than this.
    assert figure.low * 0.99 < published < figure.high * 1.01


def test_pharmacopoeial_minima_are_held_with_their_source() -> None:
    """1.40 g/L USP 35, 1.5 g/L (0.15 % w/v) British Pharmacopoeia 2025; both read."""
    minima = {
        source: row_of("pharmacopoeia", "calcium hydroxide solution", f"least strength, {source}")
        for source in ("USP", "BP")
    }
    assert {source: float(row.span[0]) for source, row in minima.items()} == {"USP": 1.40, "BP": 1.5}
    assert all(row.verified == "read" for row in minima.values())


@given(st.floats(0, 100), st.floats(0, 100))
def test_warmer_water_never_holds_more(one: float, other: float) -> None:
    """Retrograde solubility; United States Pharmacopeia 35: less at a higher temperature."""
    cold, warm = sorted((one, other))
    at_cold, at_warm = saturation_at(cold).figure, saturation_at(warm).figure
    assert at_warm.low <= at_cold.low + 1e-9
    assert at_warm.best <= at_cold.best + 1e-9
    assert at_warm.high <= at_cold.high + 1e-9


def test_a_strength_on_its_own_shows_no_third_digit() -> None:
    """Good to 0.1 g/L only: the spread of the tables."""
    assert show_best(saturation_at(22).figure) == "about 1.6 g/L"


@pytest.mark.parametrize("celsius", [-0.1, 100.1, -273.0, float("nan"), float("inf")])
def test_a_temperature_off_the_table_is_refused_with_the_limits(celsius: float) -> None:
    with pytest.raises(BadInput, match="from 0 to 100 °C") as refused:
        saturation_at(celsius)
    assert (refused.value.details["low"], refused.value.details["high"]) == (0, 100)


@pytest.mark.parametrize(("grams", "litres"), [(3, 1.78), (5, 2.97), (10, 5.94)])
def test_solid_of_95_per_cent_saturates_so_many_litres_at_1_6_grams(grams: float, litres: float) -> None:
    """Solid budget, computed: grams × 0.95 / 1.6."""
    solid = jar(grams=grams).best.put_in_ug / GRAM
    assert solid / 1.6 == pytest.approx(litres, abs=0.005)


def test_three_grams_a_litre_are_used_up_by_one_fill() -> None:
    """The dose of USP 35 (read): 2.85 g of substance, about 1.25 g left after a litre; no second litre."""
    balance = jar(Fill(volume_ul=LITRE, celsius=22), grams=3)
    left = refills_left(balance, LITRE, 22)
    assert balance.undissolved.low < 1.25 < balance.undissolved.high
    assert left.at_least == 0 and left.refills.high < 1


def test_ten_grams_a_litre_leave_refills_as_a_range_with_its_floor() -> None:
    """9.5 g for 5.5 litres at 1.73 g/L and 6.3 at 1.50, the first one included (computed)."""
    balance = jar(Fill(volume_ul=LITRE, celsius=20))
    left = refills_left(balance, LITRE, 20)
    assert left.refills.low == pytest.approx(9.5 / 1.73 - 1, abs=0.01)
    assert left.at_least == 4
    assert left.refills.low < left.refills.best < left.refills.high
    assert any("Bates" in row.source for used in left.used for row in used.rows)


def test_warming_from_15_to_25_degrees_lets_a_tenth_of_a_gram_or_more_come_out() -> None:
    """Saturated at 15 °C at about 1.70 and at 25 °C at 1.50 to 1.6 g/L (USP 35, Bates 1956): 0.1 to 0.2 g a litre."""
    before = jar(Fill(volume_ul=LITRE, celsius=15))
    after = jar(Fill(volume_ul=LITRE, celsius=15), Shaken(celsius=25))
    came_out = (after.best.undissolved_ug - before.best.undissolved_ug) / GRAM
    assert 0.1 <= came_out <= 0.2


def test_hard_water_uses_up_74_milligrams_a_litre_at_100_milligrams_of_hardness() -> None:
    """Ca(HCO3)2 + Ca(OH)2 = 2 CaCO3 + 2 H2O, molar masses 74.093 and 100.087 (computed)."""
    assert used_up_by(100).figure.best == pytest.approx(100 * 74.093 / 100.087 / 1_000, abs=0.0001)
    balance = jar(Fill(volume_ul=LITRE, celsius=22), Fill(volume_ul=LITRE, celsius=22, hardness_mg_per_l=200))
    assert balance.best.lost_ug == 148_000


def test_watering_the_solid_again_is_counted() -> None:
    fills = [Fill(volume_ul=LITRE, celsius=22), Drawn(volume_ul=LITRE)] * 3
    assert jar(*fills).rewettings == 2
    assert jar().rewettings == 0


@pytest.mark.parametrize(("allowed", "suspect"), [(None, False), (0, True), (1, True), (2, False)])
def test_the_studio_chooses_how_often_residue_is_watered_again(allowed: int | None, suspect: bool) -> None:
    """USP 35 forbids it (read); the American Medical Association's handbook keeps an excess (read)."""
    judged = judge_residue(2, allowed)
    assert judged.suspect is suspect
    assert [row.verified for used in judged.used for row in used.rows] == ["read", "read"]


def test_a_jar_without_solid_gets_weaker_when_it_is_topped_up() -> None:
    balance = jar(
        Fill(volume_ul=LITRE, celsius=22), Drawn(volume_ul=LITRE // 2), Fill(volume_ul=LITRE, celsius=22), grams=1
    )
    assert balance.best.undissolved_ug == 0
    assert balance.strength is not None
    assert balance.strength.best == pytest.approx(0.95 * 0.5 / 1.5, abs=0.001)


def test_evaporation_leaves_the_substance_in_the_jar() -> None:
    before = jar(Fill(volume_ul=LITRE, celsius=22))
    after = jar(Fill(volume_ul=LITRE, celsius=22), Counted(volume_ul=LITRE * 9 // 10))
    assert after.best.drawn_ug == 0
    assert after.best.undissolved_ug > before.best.undissolved_ug
    assert before.strength is not None and after.strength is not None
    assert after.strength.best == pytest.approx(before.strength.best, abs=1e-5)


@pytest.mark.parametrize(("now", "state"), [(15, "cooled"), (20, "as settled"), (25, "warmed")])
def test_strength_follows_the_temperature_at_which_the_jar_was_settled(now: float, state: str) -> None:
    """Bates, Bower and Smith 1956: the solution supersaturates readily, so a warmed jar is a range."""
    balance = jar(Fill(volume_ul=LITRE, celsius=20))
    standing = stand_at(balance, now)
    assert standing.state == state
    assert balance.strength is not None
    assert standing.strength.high == pytest.approx(balance.strength.high)
    assert (standing.strength.low < balance.strength.low) == (state == "warmed")


events = st.one_of(
    st.builds(Solid, mass_ug=st.integers(1, 50 * GRAM), purity=st.just(Range(low=92, best=95, high=100.5, unit="%"))),
    st.builds(
        Fill,
        volume_ul=st.integers(1, 5 * LITRE),
        celsius=st.floats(0, 40),
        hardness_mg_per_l=st.sampled_from([0, 17.3, 250]),
    ),
    st.builds(Shaken, celsius=st.floats(0, 40)),
    st.fractions(0, 1),
    st.builds(Counted, volume_ul=st.integers(0, 5 * LITRE)),
    st.builds(PouredIn, volume_ul=st.integers(1, 5 * LITRE)),
)


def test_liquid_of_the_jars_own_strength_leaves_its_solid_and_its_strength_as_they_are() -> None:
    before = jar(Fill(volume_ul=LITRE, celsius=20))
    after = jar(Fill(volume_ul=LITRE, celsius=20), PouredIn(volume_ul=LITRE // 2))
    assert after.undissolved == before.undissolved
    assert after.volume_ul == 3 * LITRE // 2
    assert before.strength is not None
    assert after.strength is not None
    assert after.strength.best == pytest.approx(before.strength.best, abs=1e-6)
    assert after.rewettings == 0


@given(st.lists(events, max_size=12))
def test_dissolved_undissolved_drawn_and_lost_are_what_was_put_in_to_the_microgram(steps: list[object]) -> None:
    """A conservation law, whatever is put in, filled, shaken, drawn, poured in and counted, on all three lines."""
    history: list[Event] = [Solid(mass_ug=3 * GRAM, purity=NINETY_FIVE)]
    for step in steps:
        if isinstance(step, (Solid, Fill, Shaken, Counted, PouredIn)):
            history.append(step)
        else:
            share = int(balance_jar(history).volume_ul * step)  # type: ignore[operator]
            history += [Drawn(volume_ul=share)] if share else []
    balance = balance_jar(history)
    for line in (balance.least, balance.best, balance.most):
        parts = (line.dissolved_ug, line.undissolved_ug, line.drawn_ug, line.lost_ug)
        assert sum(parts) == line.put_in_ug
        assert min(parts) >= 0
    assert balance.undissolved.low <= balance.undissolved.high


@pytest.mark.parametrize(
    ("history", "why"),
    [
        ([Fill(volume_ul=LITRE, celsius=22)], "No solid"),
        ([Solid(mass_ug=0, purity=NINETY_FIVE)], "more than nothing"),
        ([Solid(mass_ug=GRAM, purity=exactly(150, "%"))], "purity"),
        ([Solid(mass_ug=GRAM, purity=NINETY_FIVE), Fill(volume_ul=-1, celsius=22)], "more than nothing"),
        ([Solid(mass_ug=GRAM, purity=NINETY_FIVE), Fill(volume_ul=1, celsius=120)], "from 0 to 100"),
        ([Solid(mass_ug=GRAM, purity=NINETY_FIVE), Drawn(volume_ul=1)], "Count the jar"),
        ([Solid(mass_ug=GRAM, purity=NINETY_FIVE), Counted(volume_ul=-1)], "less than nothing"),
        ([Solid(mass_ug=GRAM, purity=NINETY_FIVE), Fill(volume_ul=1, celsius=2, hardness_mg_per_l=-1)], "hardness"),
    ],
)
def test_what_cannot_have_happened_to_a_jar_is_refused(history: list[Event], why: str) -> None:
    with pytest.raises(BadInput, match=why):
        balance_jar(history)


def test_a_refill_of_nothing_and_a_jar_without_liquid_are_refused() -> None:
    with pytest.raises(BadInput, match="more than nothing"):
        refills_left(jar(), 0, 22)
    with pytest.raises(BadInput, match="no liquid"):
        stand_at(jar(), 22)


@pytest.mark.parametrize(
    ("celsius", "kg_per_m3"), [(4, 999.9720), (20, 998.2071), (25, 997.0479), (21, 997.9903), (100, 958.4)]
)
def test_water_has_its_density(celsius: float, kg_per_m3: float) -> None:
    """A public table of the density of water (read); 21 °C lies midway between 20 and 22."""
    assert 1_000 * water_density(celsius)[0] == pytest.approx(kg_per_m3, abs=0.0001)
