"""Verify names what was changed behind the program's back, and everything that is wrong at once."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from builders import Bench

from stockroom.actions.verifying import verify
from stockroom.errors import DatabaseUnusable
from stockroom.store.open import Store
from stockroom.store.seals import FIRST, hash_of, last_seal, sealed_text

ONLY_ADDED_TO = (
    "action", "action_object", "fact", "entry", "counted", "jar_check", "loan", "seal",
    "recipe_version", "recipe_line", "recipe_step", "recipe_check", "version_care", "edit",
)  # fmt: skip


@pytest.fixture
def bench(store: Store) -> Bench:
    """Two lots, a jar, a job, a loan, a count and an undoing."""
    bench = Bench(store)
    bench.do(
        "receive A 100 for 1000", "receive B 50 for 99", "take A 20 for J", "take A 5 lent", "make C 30 from A 10, B 7"
    )
    bench.do("count A 60", "take C 3 for K", "undo last", "price B 120")
    return bench


@pytest.fixture
def behind(bench: Bench) -> Iterator[Callable[[str], None]]:
    """Call it with SQL to run on a bare connection, with every trigger and check out of the way."""
    path = bench.store.path

    def change(sql: str) -> None:
        with sqlite3.connect(path) as connection:
            connection.execute("PRAGMA ignore_check_constraints = 1")
            triggers = connection.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
            for name, _ in triggers:
                connection.execute(f"DROP TRIGGER {name}")
            connection.execute(sql)
            for _, create in triggers:
                connection.execute(create)
        connection.close()

    yield change


def kinds(store: Store) -> set[str]:
    return {problem.kind for problem in verify(store).problems}


def test_nothing_is_wrong_with_books_that_were_left_alone(bench: Bench) -> None:
    found = verify(bench.store)
    assert found.problems == ()
    assert found.sums.bought == 1120
    assert found.sums.balance
    assert found.last_seal == last_seal(bench.store)


def test_a_new_stockroom_has_nothing_wrong(store: Store) -> None:
    assert verify(store).problems == ()


@pytest.mark.parametrize(
    "sql",
    [
        "UPDATE entry SET value = value - 1 WHERE action_number = 3",
        "UPDATE entry SET job_id = 2 WHERE action_number = 3",
        "UPDATE entry SET day = '2026-03-02' WHERE action_number = 3",
        "UPDATE entry SET reason = 'nothing' WHERE action_number = 3",
        "DELETE FROM entry WHERE action_number = 3",
        "UPDATE action SET initials = 'XY' WHERE number = 3",
        "UPDATE action SET details = '{}' WHERE number = 3",
        "INSERT INTO fact VALUES (3, 9, 1, 'unfit', NULL, NULL)",
        "INSERT INTO action_object VALUES (3, 1)",
        "INSERT INTO loan VALUES (3, 'somebody', NULL)",
    ],
)
def test_an_action_that_was_tampered_with_is_named(bench: Bench, behind: Callable[[str], None], sql: str) -> None:
    behind(sql)
    seals = [problem for problem in verify(bench.store).problems if problem.kind == "seal"]
    assert [problem.where for problem in seals] == [bench.actions[2]]
    assert "not as it was sealed" in seals[0].words


def test_a_seal_made_anew_over_a_changed_action_breaks_the_chain_at_the_next(
    bench: Bench, behind: Callable[[str], None]
) -> None:
    behind("UPDATE entry SET value = value - 1 WHERE action_number = 3")
    row = bench.store.rows("SELECT previous FROM seal WHERE action_number = 3")[0]
    anew = hash_of(row["previous"], sealed_text(bench.store, 3))
    behind(f"UPDATE seal SET hash = '{anew}' WHERE action_number = 3")
    seals = [problem for problem in verify(bench.store).problems if problem.kind == "seal"]
    assert [problem.where for problem in seals] == [bench.actions[3]]
    assert "not sealed over the action before it" in seals[0].words


def test_the_chain_begins_at_a_documented_value_and_every_seal_is_over_the_one_before(bench: Bench) -> None:
    """SHA-256 (FIPS 180-4) over the previous seal, a line feed and the action's text."""
    import hashlib

    previous = FIRST
    for row in bench.store.rows("SELECT * FROM seal ORDER BY action_number"):
        text = f"{previous}\n{sealed_text(bench.store, row['action_number'])}".encode()
        assert (row["previous"], row["hash"]) == (previous, hashlib.sha256(text).hexdigest())
        previous = row["hash"]
    assert previous != FIRST


def test_an_action_that_was_cut_off_the_end_shows_in_the_seal_that_was_written_down(
    bench: Bench, behind: Callable[[str], None]
) -> None:
    written_down = last_seal(bench.store)
    for table in ("seal", "entry", "fact", "counted"):
        behind(f"DELETE FROM {table} WHERE action_number = (SELECT max(number) FROM action)")
    behind("DELETE FROM action WHERE number = (SELECT max(number) FROM action)")
    assert last_seal(bench.store) != written_down


@pytest.mark.parametrize(
    ("sql", "kind"),
    [
        ("UPDATE balance SET quantity = quantity + 1 WHERE lot_id = 1", "balance"),
        ("UPDATE balance SET value = value + 1 WHERE lot_id = 2", "balance"),
        ("UPDATE balance SET base_value = base_value + 1 WHERE lot_id = 2", "balance"),
        ("DELETE FROM balance WHERE lot_id = 1", "balance"),
        ("INSERT INTO undone VALUES (1)", "undone"),
        ("DELETE FROM undone", "undone"),
        ("UPDATE lot SET use_by = '2099-01-01' WHERE id = 1", "fact"),
        ("UPDATE lot SET state = 'ended' WHERE id = 1", "state"),
        ("UPDATE lot SET strength = '9 % w/v' WHERE id = 3", "fact"),
        ("UPDATE fact SET was = 'x' WHERE action_number = 5 AND position = 1", "fact"),
        ("UPDATE counted SET quantity = 61", "count"),
        ("UPDATE counted SET books_said = 1", "count"),
        ("UPDATE entry SET day = '2026-02-01' WHERE action_number = 3", "below-nothing"),
        ("UPDATE entry SET value = -5000 WHERE action_number = 3", "below-nothing"),
        ("UPDATE entry SET value = value - 1 WHERE other_end = 'lot' AND action_number = 5 AND lot_id = 1", "unequal"),
        ("UPDATE entry SET other_end = 'found', value = 900 WHERE action_number = 1", "sums"),
        ("UPDATE entry SET lot_id = 99 WHERE action_number = 3", "file"),
        ("UPDATE seal SET form = 9 WHERE action_number = 3", "seal"),
        ("DELETE FROM seal WHERE action_number = 3", "seal"),
        ("DELETE FROM lot WHERE id = 1", "file"),
    ],
)
def test_whatever_does_not_agree_with_the_entries_is_found(
    bench: Bench, behind: Callable[[str], None], sql: str, kind: str
) -> None:
    behind(sql)
    assert kind in kinds(bench.store)


def test_a_lot_without_quantity_has_no_value(bench: Bench, behind: Callable[[str], None]) -> None:
    bench.do("receive D 10 for 100", "discard D")
    behind("UPDATE entry SET value = -40 WHERE action_number = (SELECT max(number) FROM action)")
    assert "worth-nothing" in kinds(bench.store)


def test_everything_that_is_wrong_is_told_at_once(bench: Bench, behind: Callable[[str], None]) -> None:
    behind("UPDATE entry SET value = value - 1 WHERE action_number = 3")
    behind("UPDATE lot SET unfit = 'no reason' WHERE id = 2")
    behind("INSERT INTO undone VALUES (1)")
    assert {"seal", "balance", "fact", "undone"} <= kinds(bench.store)


@pytest.mark.parametrize(
    "sql",
    [
        "DROP TRIGGER entry_never_changes",
        "CREATE TRIGGER quiet AFTER INSERT ON entry BEGIN UPDATE balance SET value = 0; END",
        "DROP INDEX entry_by_lot",
    ],
)
def test_a_schema_that_was_meddled_with_is_found(bench: Bench, sql: str) -> None:
    with sqlite3.connect(bench.store.path) as connection:
        connection.execute(sql)
    connection.close()
    assert kinds(bench.store) == {"schema"}


@pytest.mark.parametrize("table", ONLY_ADDED_TO)
@pytest.mark.parametrize("recursive", ["OFF", "ON"])
def test_what_is_only_added_to_holds_against_a_bare_connection(store: Store, table: str, recursive: str) -> None:
    """Update, delete, and INSERT OR REPLACE, which deletes without firing the delete trigger unless recursive triggers
    are on (sqlite.org, lang_conflict.html)."""
    bench = Bench(store)
    bench.do("receive A 100 for 1000", "take A 20 lent", "count A 70")
    bench.look_for("A", "not seen")
    with store.write():
        store.run("INSERT INTO edit (noun, named, field, initials, booked_at) VALUES ('place', '1', 'x', 'AB', 'now')")
    connection = sqlite3.connect(store.path, isolation_level=None)
    connection.execute(f"PRAGMA recursive_triggers = {recursive}")
    if table in ("action_object", "jar_check"):
        last = connection.execute("SELECT max(number) + 1 FROM action").fetchone()[0]
        connection.execute(
            "INSERT INTO action (number, code, kind, day, at, booked_at, initials) "
            "VALUES (?, 'A9', 'check', '2026-03-01', '2026-03-01T11:00:00Z', '2026-03-01T11:00:00Z', 'AB')",
            (last,),
        )
        values = (last, 1) if table == "action_object" else (last, 1, "ph", "{}", "fit", "read")
        connection.execute(f"INSERT INTO {table} VALUES ({', '.join('?' * len(values))})", values)
    before = connection.execute(f"SELECT * FROM {table}").fetchall()
    assert before, f"nothing is in {table} to be changed"
    columns = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
    same = ", ".join("?" * len(columns))
    for sql, values in (
        (f"UPDATE {table} SET {columns[-1]} = NULL", ()),
        (f"UPDATE OR REPLACE {table} SET {columns[0]} = {columns[0]}", ()),
        (f"DELETE FROM {table}", ()),
        (f"INSERT OR REPLACE INTO {table} VALUES ({same})", before[0]),
        (f"REPLACE INTO {table} VALUES ({same})", before[-1]),
    ):
        with pytest.raises(sqlite3.IntegrityError, match=r"only added to|sealed"):
            connection.execute(sql, values)
    assert connection.execute(f"SELECT * FROM {table}").fetchall() == before
    connection.close()


@pytest.mark.parametrize(
    "sql",
    [
        "INSERT INTO entry (action_number, position, lot_id, quantity, value, other_end, effect, day, at, standing) "
        "VALUES (3, 9, 1, 5, 0, 'found', 'base', '2026-03-01', '2026-03-01T11:00:00Z', 3)",
        "INSERT INTO fact VALUES (3, 9, 1, 'unfit', NULL, 'bad')",
        "INSERT INTO loan VALUES (3, 'somebody', NULL)",
        "INSERT INTO counted VALUES (3, 1, '2026-03-01T11:00:00Z', '2026-03-01', 5, 5, 'measured', 'waste', NULL)",
        "INSERT INTO jar_check VALUES (3, 1, 'ph', '{}', 'fit', 'read')",
        "DELETE FROM lot WHERE id = 1",
        "INSERT OR REPLACE INTO action (number, code, kind, day, at, booked_at, initials) "
        "SELECT 999, code, kind, day, at, booked_at, initials FROM action WHERE number = 3",
        "INSERT OR REPLACE INTO recipe_version (id, recipe_id, number, made_by, made_at) "
        "SELECT 999, recipe_id, number, 'AB', 'now' FROM recipe_version WHERE id = 1",
        "INSERT OR REPLACE INTO lot (id, code, material_id, kind, begun_by, initials) "
        "SELECT 999, code, material_id, kind, begun_by, 'AB' FROM lot WHERE id = 1",
        "INSERT OR REPLACE INTO lot (id, code, material_id, kind, begun_by, initials) "
        "SELECT id, code, material_id, kind, begun_by, 'AB' FROM lot WHERE id = 1",
        "UPDATE lot SET begun_by = 2 WHERE id = 1",
        "UPDATE lot SET maker_lot = 'other' WHERE id = 1",
        "UPDATE counter SET last = last - 1 WHERE prefix = 'A'",
    ],
)
def test_nothing_is_added_to_a_sealed_action_nor_a_lots_origin_changed(bench: Bench, sql: str) -> None:
    connection = sqlite3.connect(bench.store.path, isolation_level=None)
    with pytest.raises(sqlite3.IntegrityError):
        connection.execute(sql)
    connection.close()
    assert verify(bench.store).problems == ()


@pytest.mark.parametrize(("quantity", "value"), [(-1, 0), (0, -1), (-101, -1000)])
def test_the_database_itself_keeps_every_balance_at_nothing_or_more(store: Store, quantity: int, value: int) -> None:
    bench = Bench(store)
    bench.do("receive A 100 for 1000", "discard A" if quantity > -100 else "count A 100")
    connection = sqlite3.connect(store.path, isolation_level=None)
    number = connection.execute("SELECT max(number) + 1 FROM action").fetchone()[0]
    connection.execute(
        "INSERT INTO action (number, code, kind, day, at, booked_at, initials) "
        "VALUES (?, 'A9', 'take', '2026-03-01', '2026-03-01T11:00:00Z', '2026-03-01T11:00:00Z', 'AB')",
        (number,),
    )
    with pytest.raises(sqlite3.IntegrityError, match="CHECK"):
        connection.execute(
            "INSERT INTO entry (action_number, position, lot_id, quantity, value, other_end, effect, day, at, "
            "standing) VALUES (?, 1, 1, ?, ?, 'waste', 'base', '2026-03-01', '2026-03-01T11:00:00Z', ?)",
            (number, quantity, value, number),
        )
    connection.close()


def test_verify_changes_nothing(bench: Bench, tmp_path: Path) -> None:
    before = list(bench.store.connection.iterdump())
    verify(bench.store)
    assert list(bench.store.connection.iterdump()) == before
    assert not bench.store.connection.in_transaction


def test_nothing_is_booked_after_an_action_that_is_not_whole(bench: Bench, behind: Callable[[str], None]) -> None:
    """As where a write was cut off and its journal taken away."""
    behind("DELETE FROM seal WHERE action_number = (SELECT max(action_number) FROM seal)")
    before = list(bench.store.connection.iterdump())
    with pytest.raises(DatabaseUnusable, match="not whole"):
        bench.do("take A 1 spilled")
    assert list(bench.store.connection.iterdump()) == before


def test_text_that_is_no_text_is_found_where_no_seal_covers_it(bench: Bench, behind: Callable[[str], None]) -> None:
    behind("UPDATE person SET name = CAST(x'ff41' AS TEXT)")
    assert [problem.kind for problem in verify(bench.store).problems] == ["file"]
