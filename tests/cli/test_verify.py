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


def test_a_seal_that_was_written_down_shows_that_nothing_up_to_it_was_changed(stockroom: Any, store: Store) -> None:
    stockroom.json("receive", "ethanol", "1 L", "--cost", "10.00")
    written_down = stockroom.json("verify")["last_seal"]
    stockroom.json("take", "L001W", "100 mL", "--why", "spilled")
    found = stockroom.json("verify", "--seal", f"{written_down[:32]} {written_down[32:].upper()}")
    assert (found["problems"], found["sealed_until"]) == ([], "A001N")
    assert "up to it nothing was changed since" in stockroom("verify", "--seal", written_down).out
    assert "64 characters" in stockroom.json("verify", "--seal", "abc", code=2)["error"]["message"]


def test_books_without_the_seal_that_was_written_down_are_not_those_books(stockroom: Any) -> None:
    stockroom.json("receive", "ethanol", "1 L", "--cost", "10.00")
    found = stockroom.json("verify", "--seal", "ab" * 32, code=1)
    assert [one["kind"] for one in found["problems"]] == ["seal"]
    assert "another stockroom" in found["problems"][0]["words"]


def spoil(store: Store, *statements: str) -> None:
    with sqlite3.connect(store.path) as connection:
        connection.execute("PRAGMA ignore_check_constraints = 1")
        for statement in statements:
            connection.execute(statement)
    connection.close()


def test_repair_derives_anew_what_is_kept_beside_the_entries_and_says_so(stockroom: Any, store: Store) -> None:
    stockroom.json("receive", "ethanol", "1 L", "--cost", "10.00", "--place", "shelf")
    stockroom.json("take", "L001W", "100 mL", "--why", "spilled")
    spoil(
        store,
        "UPDATE balance SET quantity = 5, value = 7",
        "UPDATE lot SET place_id = NULL, use_by = '2099-01-01', state = 'ended'",
        "INSERT INTO undone VALUES (2)",
    )
    wrong = stockroom.json("verify", code=1)["problems"]
    shown = stockroom.json("verify", "--repair", "--dry-run", code=1)
    assert stockroom.json("verify", code=1)["problems"] == wrong
    done = stockroom.json("verify", "--repair", "--why", "verify said so")
    assert done["mended"] == shown["mended"]
    assert len(done["mended"]) == 5
    assert done["problems"] == []
    assert stockroom.json("verify")["problems"] == []
    lot = stockroom.json("lot", "L001W")
    assert (lot["amount"], lot["place"]) == ("900", "shelf")
    assert "before repair" in {copy["why"] for copy in stockroom.json("backup", "--list")["copies"]}
    again = stockroom.json("verify", "--repair")
    assert (again["mended"], again["action"]) == ([], None)


def test_repair_leaves_entries_as_they_are_and_tells_what_stays_wrong(stockroom: Any, store: Store) -> None:
    stockroom.json("receive", "ethanol", "1 L", "--cost", "10.00")
    stockroom.json("take", "L001W", "100 mL", "--why", "spilled")
    spoil(store, "DROP TRIGGER entry_never_changes", "UPDATE entry SET quantity = -1500000 WHERE action_number = 2")
    before = store.rows("SELECT * FROM entry")
    left = stockroom.json("verify", "--repair", code=1)
    assert {"seal", "below-nothing", "balance", "schema"} <= {one["kind"] for one in left["problems"]}
    assert store.rows("SELECT * FROM entry") == before
