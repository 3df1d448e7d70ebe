"""Entries, balances and counts: reading them, and inserting what an action books."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence

from stockroom.domain.ledger import Draft, Entry, Holding, Movement
from stockroom.domain.lots import Balance, NewLot
from stockroom.domain.occasion import Occasion
from stockroom.store.counts import count_difference, first_count_after
from stockroom.store.open import Row, Store
from stockroom.store.stockroom_settings import closed_until

_ENTRY = (
    "SELECT action_number, position, lot_id, quantity, value, other_end, other_lot_id, job_id, reason, effect, day, "
    "at, standing, reverses_action, reverses_position, refers_action, refers_position, count_action FROM entry"
)

_LAST_DAY = "9999-12-31"

LOT_FACTS = (
    "place_id", "opened_on", "use_by", "use_by_rule", "check_by", "ready_on", "strength", "state", "ended_on",
    "ended_why", "unfit", "look_for",
)  # fmt: skip
"""The columns of a lot that facts change."""

LOT_ORIGIN = (
    "supplier_id", "job_id", "maker_lot", "maker_use_by", "made_at", "received_on", "purity", "cost_known", "about",
    "over_solid", "length_um", "width_um", "grain", "life_closed", "life_opened", "own_use_by",
)  # fmt: skip
"""The columns of a lot that never change, beside its code, material, kind, beginning and initials."""


def entry_of(row: Row) -> Entry:
    """Build an entry from its row."""
    reverses = None
    if row["reverses_action"] is not None:
        reverses = (row["reverses_action"], row["reverses_position"])
    refers = None if row["refers_action"] is None else (row["refers_action"], row["refers_position"])
    return Entry(
        place=(row["action_number"], row["position"]),
        lot=row["lot_id"],
        quantity=row["quantity"],
        value=row["value"],
        other_end=row["other_end"],
        other_lot=row["other_lot_id"],
        job_id=row["job_id"],
        reason=row["reason"],
        effect=row["effect"],
        day=row["day"],
        at=row["at"],
        standing=row["standing"],
        reverses=reverses,
        refers=refers,
        count_action=row["count_action"],
    )


def entries_of_action(store: Store, number: int) -> list[Entry]:
    """Return an action's entries in order."""
    return [entry_of(row) for row in store.rows(f"{_ENTRY} WHERE action_number = :n ORDER BY position", n=number)]


def entries_of_lot(store: Store, lot_id: int) -> list[Entry]:
    """Return a lot's entries in order of booking."""
    sql = f"{_ENTRY} WHERE lot_id = :lot ORDER BY action_number, position"
    return [entry_of(row) for row in store.rows(sql, lot=lot_id)]


def entries_referring(store: Store, place: tuple[int, int]) -> list[Entry]:
    """Return the entries that belong to a draw: what came back, its reversals, and value put right later."""
    sql = f"{_ENTRY} WHERE refers_action = :a AND refers_position = :p ORDER BY action_number, position"
    return [entry_of(row) for row in store.rows(sql, a=place[0], p=place[1])]


def entries_into_lot(store: Store, lot_id: int) -> list[Entry]:
    """Return the draws of other lots that went into a lot and stand, in order of booking."""
    sql = (
        f"{_ENTRY} WHERE other_lot_id = :lot AND effect = 'draw' AND NOT EXISTS (SELECT back.position "
        "FROM entry AS back WHERE back.reverses_action = entry.action_number "
        "AND back.reverses_position = entry.position "
        "AND back.action_number NOT IN (SELECT action_number FROM undone)) ORDER BY action_number, position"
    )
    return [entry_of(row) for row in store.rows(sql, lot=lot_id)]


def entries_of_job(store: Store, job_id: int) -> list[Entry]:
    """Return the entries whose other end is a job, in order of booking."""
    sql = f"{_ENTRY} WHERE job_id = :job ORDER BY action_number, position"
    return [entry_of(row) for row in store.rows(sql, job=job_id)]


def reversed_places(store: Store, lot_id: int) -> set[tuple[int, int]]:
    """Return the addresses of a lot's entries that another entry in effect reverses."""
    sql = (
        "SELECT reverses_action AS a, reverses_position AS p FROM entry WHERE lot_id = :lot "
        "AND reverses_action IS NOT NULL AND action_number NOT IN (SELECT action_number FROM undone)"
    )
    return {(row["a"], row["p"]) for row in store.rows(sql, lot=lot_id)}


def balances(store: Store, lot_ids: Iterable[int]) -> dict[int, Balance]:
    """Return the kept balances of some lots."""
    found: dict[int, Balance] = {}
    for lot_id in set(lot_ids):
        row = store.row(
            "SELECT quantity, value, base_quantity, base_value FROM balance WHERE lot_id = :lot", lot=lot_id
        )
        if row is not None:
            found[lot_id] = Balance(**dict(row))
    return found


def holdings(store: Store, lot_ids: Iterable[int]) -> dict[int, Holding]:
    """Return how some lots stand; whole lots with their materials would take three times as long."""
    sql = (
        "SELECT lot.id, lot.kind, lot.state, lot.over_solid, lot.look_for, balance.quantity FROM lot "
        "JOIN balance ON balance.lot_id = lot.id WHERE lot.id = :lot"
    )
    rows = (row for lot_id in lot_ids for row in store.rows(sql, lot=lot_id))
    return {row["id"]: Holding(**{**dict(row), "over_solid": row["over_solid"] == "over solid"}) for row in rows}


def later_days(store: Store, lot_id: int, day: str) -> list[tuple[str, int]]:
    """Return, newest first, the days after `day` on which a lot moved, and by how much in all."""
    sql = (
        "SELECT day, sum(quantity) AS moved FROM entry WHERE lot_id = :lot AND day > :day GROUP BY day "
        "ORDER BY day DESC"
    )
    return [(row["day"], row["moved"]) for row in store.rows(sql, lot=lot_id, day=day)]


def last_draw_on(store: Store, lot_id: int, day: str) -> str | None:
    """Name the newest action that takes out of a lot on a day: its code and kind."""
    row = store.row(
        "SELECT action.code, action.kind FROM entry JOIN action ON action.number = entry.action_number "
        "WHERE entry.lot_id = :lot AND entry.day = :day AND entry.quantity < 0 ORDER BY entry.action_number DESC",
        lot=lot_id,
        day=day,
    )
    return f"{row['code']} ({row['kind']})" if row else None


def least_balance(store: Store, lot_id: int, day: str, until: str | None = None) -> tuple[int, str]:
    """Return the least end-of-day quantity of a lot from `day` on (to the day before `until`), and that day."""
    row = store.row("SELECT quantity FROM balance WHERE lot_id = :lot", lot=lot_id)
    held = int(row["quantity"]) if row else 0
    least: tuple[int, str] | None = None
    for moved_on, moved in later_days(store, lot_id, day):
        if (until is None or moved_on < until) and (least is None or held < least[0]):
            least = (held, moved_on)
        held -= moved
    if least is None or held < least[0]:
        least = (held, day)
    return least


def first_day(store: Store, lot_id: int) -> str:
    """Return the first day on which anything of a lot was booked."""
    row = store.row("SELECT min(day) AS day FROM entry WHERE lot_id = :lot", lot=lot_id)
    return str(row["day"]) if row else ""


def available(store: Store, lot_id: int, occasion: Occasion) -> int:
    """Return how much can be taken from a lot on an occasion without any later day falling below nothing.

    A later count pins the amount at its moment, so days from then on are not touched; but what the books said
    before it must stay at nothing or more. For a closed day it is taken from what is there now.
    """
    day, at = occasion.day.isoformat(), occasion.at_text
    count = first_count_after(store, lot_id, at)
    closed = closed_until(store)
    late = closed is not None and day <= closed
    if count is None:
        return max(0, least_balance(store, lot_id, _LAST_DAY if late else day)[0])
    before_count = count.quantity - count_difference(store, lot_id, count.action)[0]
    if late or count.day <= day:
        return max(0, before_count)
    return max(0, min(before_count, least_balance(store, lot_id, day, until=count.day)[0]))


def insert_action(store: Store, number: int, code: str, draft: Draft, booked_at: str) -> None:
    """Insert an action's own row with its objects and loan."""
    occasion = draft.occasion
    store.insert(
        "action",
        number=number,
        code=code,
        kind=draft.kind,
        day=occasion.day.isoformat(),
        at=occasion.at_text,
        booked_at=booked_at,
        initials=occasion.by,
        reason=occasion.reason,
        job_id=draft.job_id,
        version_id=draft.version_id,
        booking_id=draft.booking_id,
        order_id=draft.order_id,
        undoes=draft.undoes,
        details=json.dumps(draft.details, ensure_ascii=False, sort_keys=True),
    )
    for object_id in sorted(set(draft.objects)):
        store.insert("action_object", action_number=number, object_id=object_id)
    if draft.loan is not None:
        to_whom, back_on = draft.loan
        store.insert("loan", action_number=number, to_whom=to_whom, back_on=back_on)


def insert_lot(store: Store, lot: NewLot, code: str, action: int, initials: str) -> int:
    """Begin a lot, with where it came from; how it stands is for `insert_fact`. Return its id."""
    unknown = set(lot.fields) - {*LOT_ORIGIN, *LOT_FACTS}
    if unknown:
        raise ValueError(f"a lot has no {sorted(unknown)}")
    return store.insert(
        "lot",
        code=code,
        material_id=lot.material.id,
        kind=lot.kind,
        begun_by=action,
        initials=initials,
        **{name: lot.fields[name] for name in LOT_ORIGIN if name in lot.fields},
    )


def insert_entries(store: Store, number: int, movements: Sequence[Movement]) -> None:
    """Insert an action's entries in the order given."""
    for position, movement in enumerate(movements, 1):
        reverses = movement.reverses or (None, None)
        refers = movement.refers or (None, None)
        store.insert(
            "entry",
            action_number=number,
            position=position,
            lot_id=movement.lot,
            quantity=movement.quantity,
            value=movement.value,
            other_end=movement.other_end,
            other_lot_id=movement.other_lot,
            job_id=movement.job_id,
            reason=movement.reason,
            effect=movement.effect,
            day=movement.day,
            at=movement.at,
            standing=movement.standing or number,
            reverses_action=reverses[0],
            reverses_position=reverses[1],
            refers_action=refers[0],
            refers_position=refers[1],
            count_action=number if movement.count_action == 0 else movement.count_action,
        )


def insert_fact(store: Store, number: int, position: int, lot_id: int, field: str, became: str | int | None) -> None:
    """Change one column of a lot and keep what it said before; do nothing where it says so already."""
    if field not in LOT_FACTS:
        raise ValueError(f"{field} is not a fact of a lot")
    was = store.row(f"SELECT {field} AS was FROM lot WHERE id = :lot", lot=lot_id)
    if was is None:
        raise LookupError(lot_id)
    if was["was"] == became:
        return
    store.insert(
        "fact",
        action_number=number,
        position=position,
        lot_id=lot_id,
        field=field,
        was=None if was["was"] is None else str(was["was"]),
        became=None if became is None else str(became),
    )
    store.update("lot", lot_id, **{field: became})
