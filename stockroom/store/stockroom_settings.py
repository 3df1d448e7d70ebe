"""The stockroom's own settings, fixed when it is begun."""

from __future__ import annotations

from stockroom.store.open import Store


def setting(store: Store, name: str) -> str:
    """Return one of the stockroom's own settings: currency, time_zone, costs."""
    row = store.row("SELECT value FROM setting WHERE name = :name", name=name)
    if row is None:
        raise LookupError(name)
    return str(row["value"])


def set_setting(store: Store, name: str, value: str) -> None:
    store.run(
        "INSERT INTO setting (name, value) VALUES (:name, :value) "
        "ON CONFLICT (name) DO UPDATE SET value = excluded.value",
        name=name,
        value=value,
    )
