"""A stockroom begun with any earlier schema is brought up to date, and nothing in it is lost."""

from __future__ import annotations

from pathlib import Path

import pytest

from stockroom.store import migrate
from stockroom.store.creating import create_store
from stockroom.store.open import SCHEMA_VERSION, open_store

FILES = migrate.schema_files()
OLD_ROWS = (
    "INSERT INTO person (initials, name) VALUES ('AB', 'A. Bauer')",
    "INSERT INTO supplier (key, name, lead_days) VALUES ('harbour', 'Harbour stores', 7)",
    "INSERT INTO material (key, name, folded, kind, dimension) VALUES ('e', 'Ethanol', 'e', 'solvent', 'volume')",
    "INSERT INTO offer (supplier_id, material_id, pack_quanta, price, seen_on) VALUES (1, 1, 1000, 1200, '2026-01')",
    "INSERT INTO purchase_order (code, supplier_id, state) VALUES ('P0015', 1, 'drafted')",
    "INSERT INTO order_line (order_id, position, offer_id, packs, price) VALUES (1, 1, 1, 3, 1200)",
    "INSERT INTO setting (name, value) VALUES ('currency', 'EUR')",
)  # fmt: skip
"""Of tables that were there from the first schema on."""


@pytest.mark.parametrize("count", range(1, len(FILES)), ids=[name for name, _ in FILES[:-1]])
def test_every_row_of_an_older_stockroom_is_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, count: int) -> None:
    """The file as it was left after so many of the numbered files, opened by this program."""
    path = tmp_path / "old.db"
    with monkeypatch.context() as older:
        older.setattr(migrate, "schema_files", lambda: FILES[:count])
        older.setattr(migrate, "SCHEMA_VERSION", int(FILES[count - 1][0][:4]))
        with create_store(path) as store, store.write():
            for statement in OLD_ROWS:
                store.run(statement)
    with open_store(path) as store:
        row = store.row("PRAGMA user_version")
        assert row is not None
        assert row[0] == SCHEMA_VERSION
        kept = store.row(
            "SELECT person.name AS person, supplier.lead_days AS days, offer.price AS price, order_line.packs AS packs "
            "FROM person, supplier JOIN offer ON offer.supplier_id = supplier.id "
            "JOIN order_line ON order_line.offer_id = offer.id"
        )
        assert kept is not None
        assert tuple(kept) == ("A. Bauer", 7, 1200, 3)
        assert not store.rows("PRAGMA foreign_key_check")
        store.check_soundness()


def test_the_version_of_the_schema_is_that_of_its_last_file() -> None:
    assert int(FILES[-1][0][:4]) == SCHEMA_VERSION


def test_the_numbers_of_the_schema_files_go_up_one_by_one() -> None:
    assert [int(name[:4]) for name, _ in FILES] == list(range(1, len(FILES) + 1))
