"""Finding by words."""

from __future__ import annotations

import pytest

from stockroom.store.fold import fold, holds, words_to_find


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("acid 0,1", "Hydrochloric acid 0.1 mol/L"),
        ("0.1 ACID", "Hydrochloric acid 0.1 mol/L"),
        ("25.11.2026", "booked for 2026-11-25"),
        ("2026-11-25", "booked for 2026-11-25"),
        ("gummi 1,5", "Gummi, 1,5 mm thick"),
        ("25.11.2026", "as it says, 25.11.2026"),
        ("", "anything"),
    ],
)
def test_days_and_numbers_are_found_in_the_form_they_are_kept_or_typed_in(typed: str, text: str) -> None:
    assert holds(fold(text), words_to_find(typed))


@pytest.mark.parametrize("typed", ["0,2", "25.12.2026", "acid base"])
def test_nothing_else_is_found(typed: str) -> None:
    assert not holds(fold("Hydrochloric acid 0.1 mol/L 2026-11-25"), words_to_find(typed))
