"""A verdict says nothing of its own figures that they do not say."""

from __future__ import annotations

import pytest

from stockroom.science.ranges import Range
from stockroom.science.verdicts import explain, word_for


@pytest.mark.parametrize(
    ("low", "best", "high", "told"),
    [
        (79.8, 84.2, 89.7, "80 to just under 90 %, likeliest 84 % of saturation: all below the limit of 90 %."),
        (90.3, 95.0, 101.0, "just over 90 to 101 %, likeliest 95 % of saturation: all above the limit of 90 %."),
        (70.0, 75.0, 80.0, "70 to 80 %, likeliest 75 % of saturation: all below the limit of 90 %."),
        (88.0, 92.0, 98.0, "88 to 98 %, likeliest 92 % of saturation: on both sides of the limit of 90 %."),
    ],
)
def test_no_range_is_told_as_reaching_the_limit_that_it_lies_wholly_beside(
    low: float, best: float, high: float, told: str
) -> None:
    percent = Range(low=low, best=best, high=high, unit="%")
    assert explain(percent, 90, word_for(percent, 90)) == told
