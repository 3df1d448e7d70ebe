"""The register of a material: its running page, and losses of it that somebody must explain."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion, utc_text
from stockroom.domain.registers import Register, RegisterLine, UnexplainedLoss
from stockroom.errors import BadInput, Refused
from stockroom.planning.due import Due
from stockroom.science.days import refuse_reversed
from stockroom.science.quantities import show
from stockroom.store.history import find_action
from stockroom.store.materials import all_materials, find_material
from stockroom.store.open import Row, Store
from stockroom.store.registers import entries_of_material, explain, explanations, unexplained_losses

_ENDS = {"studio": "studio use", "waste": "waste", "found": "found", "evaporated": "evaporated"}
"""What an entry was for, where neither a job nor a jar got it."""


def registered(store: Store) -> list[Material]:
    """Return the materials that a register is kept of."""
    return [one for one in all_materials(store, retired=True) if one.register]


def register_of(store: Store, words: str, until: date, since: date | None = None) -> Register:
    """Return the running page of a material, whether or not a register is kept of it. Raises NotFound, BadInput."""
    refuse_reversed(since, until)
    material = find_material(store, words)
    first = since.isoformat() if since else ""
    held, forward, lines = 0, 0, []
    for row in entries_of_material(store, material.id, until.isoformat()):
        held += row["quantity"]
        if row["day"] < first:
            forward = held
        elif row["quantity"]:
            lines.append(_line(material, row, held))
    return Register(
        material=material,
        since=first or None,
        until=until.isoformat(),
        brought_forward=material.quantity(forward),
        lines=tuple(lines),
        left=material.quantity(held),
        unexplained=tuple(unexplained_losses(store, material.id)),
        explained=tuple(explanations(store, material.id)),
    )


def _line(material: Material, row: Row, held: int) -> RegisterLine:
    if row["undoes"]:
        said = [f"takes {row['undoes']} back"]
    elif row["other_end"] == "supplier":
        said = [row["supplier"] or "", f"maker's lot {row['maker_lot']}" if row["maker_lot"] else ""]
    elif row["other_lot"]:
        said = [f"{'into' if row['quantity'] < 0 else 'from'} {row['other_lot']}"]
    else:
        said = [str(row["job"] or _ENDS.get(row["other_end"], ""))]
    said += dict.fromkeys(str(reason) for reason in (row["end_reason"], row["reason"]) if reason)
    return RegisterLine(
        day=row["day"],
        what=row["kind"].replace("-", " "),
        lot=row["lot"],
        moved=material.quantity(row["quantity"]),
        left=material.quantity(held),
        by=row["initials"],
        words="; ".join(filter(None, said)),
        action=row["code"],
    )


def explain_loss(store: Store, occasion: Occasion, words: str, action: str) -> tuple[UnexplainedLoss, ...]:
    """Keep why a count found less of a material under a register, of every lot of it; return what was missing.

    Raises NotFound, BadInput without a reason, Refused where that count left nothing unexplained.
    """
    reason = " ".join((occasion.reason or "").split())
    if not reason:
        raise BadInput("Why was less found? Say --why, such as --why 'reported to the authority, dropped bottle'.")
    with store.write() as booked_at:
        material = find_material(store, words)
        done = find_action(store, action)
        losses = [one for one in unexplained_losses(store, material.id) if one.action == done.code]
        if not losses:
            raise Refused(f"{done.code} left no loss of {material.name} unexplained. Nothing was changed.")
        for one in losses:
            explain(store, done.number, one.lot, reason, occasion.by, utc_text(booked_at))
    return tuple(losses)


def due_losses(losses: Sequence[UnexplainedLoss]) -> list[Due]:
    """Tell every unexplained loss of what is under a register; it is due at once."""
    return [
        Due(
            kind="unexplained-loss",
            code=one.lot,
            name=one.name,
            by=one.day,
            why=f"{show(one.missing)} missing at the count {one.action}, and it is under a register: find it or "
            "explain it by local rules",
        )
        for one in losses
    ]
