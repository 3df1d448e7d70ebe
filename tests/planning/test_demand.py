"""When to order what no booked treatment asks for."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.materials import Material
from stockroom.errors import BadInput
from stockroom.planning.demand import OrderWhenBelow, Use, foretell, is_fading, likely, order_when_below
from stockroom.science.event_counts import exact_limits
from stockroom.science.quantities import Dimension
from stockroom.science.ranges import Range

TISSUE = Material(id=1, key="tissue", name="Mending tissue", kind="sheet", dimension=Dimension.PIECES)
TODAY = date(2026, 11, 25)


def used(*told: tuple[int, int]) -> list[Use]:
    """Uses as (days ago, pieces)."""
    return [Use(day=TODAY - timedelta(days=ago), quanta=1_000 * pieces) for ago, pieces in told]


def asked(uses: list[Use], days: int = 730, *, delivery: int = 14, material: Material = TISSUE) -> OrderWhenBelow:
    return order_when_below(material, uses, TODAY - timedelta(days=days - 1), TODAY, delivery, 0.05)


def test_without_use_only_what_can_be_excluded_is_said() -> None:
    """None in two years: the exact one-sided limit is 2.9957 in that time (rule of three: Eypasch et al. 1995)."""
    answer = asked([])
    assert (answer.rule, answer.point, answer.below) == ("by hand", None, None)
    assert answer.per_year.high == pytest.approx(2.9957 * 365.25 / 730, abs=1e-4)
    assert answer.why == (
        "No use not booked ahead in 24 months: fewer than 1.5 a year.",
        "Too little to reckon with: set by hand below which amount to order.",
    )


def test_below_three_uses_the_amount_set_by_hand_stands() -> None:
    answer = asked(used((30, 4), (200, 2)), material=replace(TISSUE, low_quanta=5_000))
    assert (answer.rule, answer.point) == ("by hand", None)
    assert answer.below is not None and answer.below.quanta == 5_000
    assert answer.why[1] == "Too little to reckon with: order when below 5 pieces, as set by hand."


def test_below_ten_uses_the_plain_rate_and_its_exact_limits_are_told() -> None:
    answer = asked(used((30, 4), (200, 2), (600, 3)))
    low, high = exact_limits(3)
    assert answer.rule == "plain rate"
    assert (answer.per_year.low, answer.per_year.high) == pytest.approx((low * 365.25 / 730, high * 365.25 / 730))
    assert answer.why[0] == "3 uses not booked ahead in 24 months: likely 0.3 to 4.4 a year."


def test_three_uses_in_24_months_foretell_two_months_as_worked_out() -> None:
    """Chance of none 75.57 %, of one at most 95.91 % (scipy's nbinom of shape 3.5): one use is the 5 % point."""
    series = [0] * 21 + [2, 2, 2]
    found = foretell(series, 2, 0.05)
    assert (found.point, found.order_when_below) == (2, 4)


def test_from_ten_uses_on_the_smoothed_rate_is_used() -> None:
    answer = asked(used(*((30 * month, 2) for month in range(12))))
    assert answer.rule == "smoothed rate"
    assert answer.below is not None and answer.point is not None
    assert answer.below.quanta == answer.point.quanta + 2_000


def test_the_least_set_by_hand_holds_where_it_is_more() -> None:
    least = replace(TISSUE, low_quanta=90_000)
    answer = asked(used((30, 4), (200, 2), (600, 3)), material=least)
    assert answer.below is not None and answer.below.quanta == 90_000
    assert "set by hand is more" in answer.why[2]


def test_uses_of_one_day_are_one_use_and_older_than_three_years_count_no_more() -> None:
    answer = asked(used((30, 4), (30, 2), (200, 2), (1_200, 9)), days=1_500)
    assert answer.uses == 2


def test_use_that_ended_long_ago_is_told_as_fading() -> None:
    ended = asked(used(*((600 + 30 * month, 2) for month in range(12))), days=1_000)
    assert ended.fading and ended.why[-1] == "It is used less and less: is it still needed?"
    going_on = asked(used(*((30 * month, 2) for month in range(12))), days=400)
    assert not going_on.fading


def test_a_short_silence_is_not_fading() -> None:
    assert not is_fading([0, 2, 0, 0, 2, 0, 2, 0, 0])


@pytest.mark.parametrize(
    ("material", "typed", "words"),
    [
        (replace(TISSUE, dimension=Dimension.VOLUME), 12_345, "order when below"),
        (
            replace(TISSUE, dimension=Dimension.AREA, sheet_length_um=1_000_000, sheet_width_um=700_000),
            100_000,
            "sheet",
        ),
    ],
)
def test_amounts_are_rounded_up_to_what_is_ordered(material: Material, typed: int, words: str) -> None:
    uses = [Use(day=TODAY - timedelta(days=ago), quanta=typed) for ago in (5, 100, 300, 500)]
    answer = asked(uses, material=material)
    assert answer.below is not None and answer.point is not None
    assert answer.below.quanta >= answer.point.quanta
    assert len(str(answer.below.quanta).rstrip("0")) <= 2
    assert words in answer.why[1]


def test_the_theory_is_not_spoken_of() -> None:
    told = " ".join(
        sentence
        for uses in (
            [],
            used((1, 1), (9, 2)),
            used((30, 4), (200, 2), (600, 3)),
            used(*((30 * m, 2) for m in range(12))),
        )
        for sentence in asked(uses).why
    ).lower()
    for word in ("poisson", "binomial", "croston", "reorder point", "safety stock", "lead time", "service level"):
        assert word not in told


@pytest.mark.parametrize(
    ("ends", "words"), [((0.31, 1.5, 4.38), "likely 0.3 to 4.4 a year"), ((8, 12, 21.4), "likely 8 to 21 a year")]
)
def test_ends_are_written_without_false_digits(ends: tuple[float, float, float], words: str) -> None:
    low, best, high = ends
    assert likely(Range(low=low, best=best, high=high, unit="a year")) == words


@given(
    ago=st.lists(st.tuples(st.integers(0, 700), st.integers(1, 20)), min_size=3, max_size=30),
    delivery=st.integers(0, 60),
)
def test_a_longer_delivery_never_needs_less(ago: list[tuple[int, int]], delivery: int) -> None:
    one, longer = asked(used(*ago), delivery=delivery), asked(used(*ago), delivery=delivery + 14)
    if one.below is not None and longer.below is not None:
        assert one.below.quanta <= longer.below.quanta


@pytest.mark.parametrize(("delivery", "chance"), [(-1, 0.05), (14, 0), (14, 0.9)])
def test_what_cannot_be_is_refused(delivery: int, chance: float) -> None:
    with pytest.raises(BadInput):
        order_when_below(TISSUE, [], TODAY, TODAY, delivery, chance)
