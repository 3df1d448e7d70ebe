"""Whole tables for export, as stored."""

from __future__ import annotations

import json

from stockroom.store.open import Row, Store


def every_action(store: Store) -> list[Row]:
    """Return the actions in the order of booking, with the codes of what they belong to."""
    return store.rows(
        "SELECT action.number, action.code, action.kind, action.day, action.at, action.booked_at, action.initials, "
        "action.reason, job.code AS job, booking.code AS booking, purchase_order.code AS purchase, "
        "other.code AS undoes, recipe.key AS recipe, recipe_version.number AS version, "
        "CASE WHEN undone.action_number IS NULL THEN 'yes' ELSE 'no' END AS in_effect, seal.hash AS seal FROM action "
        "LEFT JOIN job ON job.id = action.job_id LEFT JOIN booking ON booking.id = action.booking_id "
        "LEFT JOIN purchase_order ON purchase_order.id = action.order_id "
        "LEFT JOIN action AS other ON other.number = action.undoes "
        "LEFT JOIN recipe_version ON recipe_version.id = action.version_id "
        "LEFT JOIN recipe ON recipe.id = recipe_version.recipe_id "
        "LEFT JOIN undone ON undone.action_number = action.number "
        "LEFT JOIN seal ON seal.action_number = action.number ORDER BY action.number"
    )


def every_entry(store: Store) -> list[Row]:
    """Return the entries in the order of booking, with the codes and words of what they move."""
    return store.rows(
        "SELECT action.code AS action, entry.position, entry.day, entry.at, lot.code AS lot, "
        "material.key AS material, material.dimension, entry.quantity, entry.value, entry.other_end, "
        "other.code AS other_lot, job.code AS job, entry.reason, entry.effect, reversed.code AS reverses, "
        "entry.reverses_position, counting.code AS counted_by FROM entry "
        "JOIN action ON action.number = entry.action_number JOIN lot ON lot.id = entry.lot_id "
        "JOIN material ON material.id = lot.material_id LEFT JOIN lot AS other ON other.id = entry.other_lot_id "
        "LEFT JOIN job ON job.id = entry.job_id "
        "LEFT JOIN action AS reversed ON reversed.number = entry.reverses_action "
        "LEFT JOIN action AS counting ON counting.number = entry.count_action "
        "ORDER BY entry.action_number, entry.position"
    )


def every_check(store: Store) -> list[Row]:
    """Return the checks in the order of booking."""
    return store.rows(
        "SELECT action.code AS action, action.day, action.at, action.initials, lot.code AS lot, "
        "material.key AS material, jar_check.method, jar_check.readings, jar_check.verdict, jar_check.why, "
        "CASE WHEN undone.action_number IS NULL THEN 'yes' ELSE 'no' END AS in_effect FROM jar_check "
        "JOIN action ON action.number = jar_check.action_number JOIN lot ON lot.id = jar_check.lot_id "
        "JOIN material ON material.id = lot.material_id LEFT JOIN undone ON undone.action_number = action.number "
        "ORDER BY action.number, lot.id"
    )


_COUNT = (
    "SELECT action.code AS action, counted.day, counted.at, action.initials, lot.code AS lot, "
    "material.key AS material, place.name AS place, material.dimension, counted.quantity, counted.books_said, "
    "counted.method, counted.reason, CASE WHEN undone.action_number IS NULL THEN 'yes' ELSE 'no' END AS in_effect, "
    "CASE WHEN undone.action_number IS NULL AND lot.state <> 'ended' AND NOT EXISTS (SELECT 1 FROM entry "
    "WHERE entry.lot_id = counted.lot_id AND entry.action_number <> counted.action_number "
    "AND (entry.at > counted.at OR (entry.at = counted.at AND entry.standing > counted.action_number))) "
    "AND NOT EXISTS (SELECT 1 FROM counted AS later WHERE later.lot_id = counted.lot_id "
    "AND later.action_number > counted.action_number "
    "AND later.action_number NOT IN (SELECT action_number FROM undone)) "
    "THEN 'yes' ELSE 'no' END AS stands FROM counted "
    "JOIN action ON action.number = counted.action_number JOIN lot ON lot.id = counted.lot_id "
    "JOIN material ON material.id = lot.material_id LEFT JOIN place ON place.id = lot.place_id "
    "LEFT JOIN undone ON undone.action_number = action.number"
)


def every_count(store: Store) -> list[Row]:
    """Return the counts in the order of booking.

    A count stands where it is the last thing that moved its lot.
    """
    return store.rows(f"{_COUNT} ORDER BY action.number, lot.id")


def counts_of_lot(store: Store, lot_id: int) -> list[Row]:
    """Return the counts of one lot in the order of booking."""
    return store.rows(f"{_COUNT} WHERE counted.lot_id = :lot ORDER BY action.number", lot=lot_id)


def every_edit(store: Store) -> list[Row]:
    """Return what was edited, in its order."""
    return store.rows("SELECT booked_at, initials, noun, named, field, was, became, reason FROM edit ORDER BY id")


def imported_before(store: Store, digest: str) -> Row | None:
    """Return when a file of that content was taken in, and by whom."""
    return store.row(
        "SELECT became AS name, initials, booked_at FROM edit WHERE noun = 'import' AND named = :digest ORDER BY id",
        digest=digest,
    )


def imported_lots(store: Store) -> dict[str, list[str]]:
    """Return the codes of the lots that each row of a file began, those in effect, by the row's digest."""
    found: dict[str, list[str]] = {}
    for row in store.rows(
        "SELECT lot.code, action.details FROM lot JOIN action ON action.number = lot.begun_by "
        "WHERE action.kind = 'receive' AND action.number NOT IN (SELECT action_number FROM undone) ORDER BY lot.id"
    ):
        digest = json.loads(row["details"]).get("imported")
        if digest:
            found.setdefault(digest, []).append(row["code"])
    return found


def begun_at(store: Store) -> dict[int, str]:
    """Return the moment at which each lot began, by its id."""
    return {
        row["id"]: row["at"]
        for row in store.rows("SELECT lot.id, action.at FROM lot JOIN action ON action.number = lot.begun_by")
    }
