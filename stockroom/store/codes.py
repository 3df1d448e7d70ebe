"""Give out codes. A number is never given out twice, not even one that was skipped."""

from __future__ import annotations

from stockroom.store.open import Store


def give_code(store: Store, prefix: str) -> tuple[int, str]:
    """Return the next number and code for a kind of thing; inside `write()`."""
    # reading finds codes without giving any out, and should not wait for the check characters
    from stockroom.domain.codes import next_code

    row = store.row("SELECT last FROM counter WHERE prefix = :prefix", prefix=prefix)
    number, code = next_code(prefix, int(row["last"]) if row else 0)
    store.run(
        "INSERT INTO counter (prefix, last) VALUES (:prefix, :last) "
        "ON CONFLICT (prefix) DO UPDATE SET last = excluded.last",
        prefix=prefix,
        last=number,
    )
    return number, code
