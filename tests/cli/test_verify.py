"""`stockroom verify`: problems, sums and the last seal."""

from __future__ import annotations

import sqlite3
from typing import Any

from stockroom.store.open import Store


def test_sound_books_end_with_nothing_wrong_and_their_sums(stockroom: Any) -> None:
    lot = stockroom.json("receive", "ethanol", "1 L", "--cost", "10.00")["code"]
    stockroom.json("take", lot, "100 mL", "--why", "spilled")
    found = stockroom.json("verify")
    assert found["problems"] == []
    assert found["sums"] == {
        "bought": "10.00",
        "on_the_shelves": "9.00",
        "in_jobs": "0.00",
        "studio_use": "0.00",
        "wasted": "1.00",
        "differences": "0.00",
    }
    assert len(found["last_seal"]) == 64
    shown = stockroom("verify")
    assert shown.code == 0
    assert "Nothing is wrong." in shown.out
    assert found["last_seal"] in shown.out


def test_books_that_were_tampered_with_end_with_one_and_name_the_action(stockroom: Any, store: Store) -> None:
    lot = stockroom.json("receive", "ethanol", "1 L", "--cost", "10.00")["code"]
    action = stockroom.json("take", lot, "100 mL", "--why", "spilled")["action"]
    with sqlite3.connect(store.path) as connection:
        connection.execute("DROP TRIGGER entry_never_changes")
        connection.execute("UPDATE entry SET reason = 'nothing' WHERE action_number = 2")
    connection.close()
    found = stockroom.json("verify", code=1)
    assert [(one["kind"], one["code"]) for one in found["problems"]] == [("schema", None), ("seal", action)]
    shown = stockroom("verify")
    assert (shown.code, action in shown.out) == (1, True)


def test_a_new_stockroom_is_sound(stockroom: Any) -> None:
    assert stockroom("verify").code == 0
