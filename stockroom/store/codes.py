"""Give out codes. A number is never given out twice, not even one that was skipped, nor after a copy was put back."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import TYPE_CHECKING

from stockroom.store.open import Store

if TYPE_CHECKING:
    from stockroom.domain.codes import Code

MOVED_ON = 1000
"""By how much every counter moves on when a copy is put back: more than anybody books between two copies."""


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


def counters(store: Store) -> dict[str, int]:
    """Return the last number given out for each kind of code."""
    return {row["prefix"]: row["last"] for row in store.rows("SELECT prefix, last FROM counter")}


def move_counters_on(store: Store, known: Mapping[str, int]) -> dict[str, tuple[int, int]]:
    """Move every counter a thousand on from what is here or `known` to have been given out elsewhere; in `write()`.

    Returns for each kind of code the last number before and the one that codes are given out after now.
    """
    from stockroom.domain.codes import NOUNS

    now = counters(store)
    moved = {}
    for prefix in NOUNS:
        last = now.get(prefix, 0)
        moved[prefix] = last, max(last, known.get(prefix, 0)) + MOVED_ON
        store.run(
            "INSERT INTO counter (prefix, last) VALUES (:prefix, :last) "
            "ON CONFLICT (prefix) DO UPDATE SET last = excluded.last",
            prefix=prefix,
            last=moved[prefix][1],
        )
    return moved


def why_unknown(store: Store, code: Code) -> str | None:
    """Say why a good code names nothing here, or None where it should."""
    for row in store.rows("SELECT day, details FROM action WHERE kind = 'restore' ORDER BY number DESC"):
        last, moved_to = json.loads(row["details"])["codes"].get(code.prefix, (0, 0))
        if last < code.number <= moved_to:
            return (
                f"{code.text} was made after this copy was taken, which was put back on {row['day']}: "
                "receive it as found."
            )
    if code.number > counters(store).get(code.prefix, 0):
        return (
            f"{code.text} is a good code, but this stockroom has not given it out: it was made after this copy was "
            "taken, or belongs to another stockroom. Receive it as found."
        )
    return None


def keep_code(store: Store, code: str) -> str:
    """Take a code that a thing has already, so that it is never given out to another; inside `write()`.

    Raises Unreadable for what is no code.
    """
    from stockroom.domain.codes import read_code

    kept = read_code(code)
    store.run(
        "INSERT INTO counter (prefix, last) VALUES (:prefix, :number) ON CONFLICT (prefix) DO UPDATE "
        "SET last = CASE WHEN excluded.last > counter.last THEN excluded.last ELSE counter.last END",
        prefix=kept.prefix,
        number=kept.number,
    )
    return kept.text
