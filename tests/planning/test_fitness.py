"""Whether a lot may be used, and why."""

from __future__ import annotations

import pytest
import shelf_words as words

from stockroom.planning.fitness import fitness, has_passed


@pytest.mark.parametrize(
    ("last", "now", "passed"),
    [
        ("2026-11-25", "2026-11-25T23:59", False),
        ("2026-11-25", "2026-11-26T00:00", True),
        ("2026-11-25T14:10", "2026-11-25T14:10", False),
        ("2026-11-25T14:10", "2026-11-25T14:11", True),
        ("2026-11-25T14:10", "2026-11-25T09:00", False),
    ],
)
def test_a_day_is_usable_to_its_end_and_a_minute_through_itself(last: str, now: str, passed: bool) -> None:
    """Usable through the end of the last day: common practice, no source (USP <7> for month-only dates)."""
    assert has_passed(last, words.moment(now)) is passed


@pytest.mark.parametrize(
    ("fields", "kind"),
    [
        ({"use_by": "2026-11-24"}, "past-use-by"),
        ({"use_by": "2026-11-25"}, "fit"),
        ({"ready_on": "2026-11-25T15:00"}, "not-ready"),
        ({"ready_on": "2026-11-25T14:10"}, "fit"),
        ({"ready_on": "2026-11-26"}, "not-ready"),
        ({"unfit": "maker's recall"}, "unfit"),
        ({"kind": "used bath"}, "used-bath"),
        ({"state": "solid only", "quantity": 0}, "solid-only"),
        ({"state": "ended", "ended_on": "2026-11-01", "ended_why": "used up", "quantity": 0}, "ended"),
        ({"quantity": 0}, "empty"),
        ({}, "fit"),
    ],
)
def test_the_first_reason_against_a_lot_is_given(fields: dict[str, object], kind: str) -> None:
    assert fitness(words.lot("A1", **fields), words.moment("2026-11-25T14:10")).kind == kind


def test_a_date_in_the_reason_names_its_rule() -> None:
    verdict = fitness(
        words.lot("A1", use_by="2026-11-01", use_by_rule="once opened: 30 days"), words.moment("2026-11-25T14:10")
    )
    assert verdict.why == "past use-by 2026-11-01 (once opened: 30 days)"
