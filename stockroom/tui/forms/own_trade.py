"""Suppliers of the studio's own."""

from __future__ import annotations

from dataclasses import replace

from stockroom.actions.suppliers import MOST_DAYS, edit_supplier, new_supplier
from stockroom.domain.occasion import Occasion
from stockroom.domain.studio import Supplier
from stockroom.errors import NotFound
from stockroom.science.money import money_text
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting
from stockroom.store.suppliers import all_suppliers
from stockroom.tui.forms.fields import money, whole_number
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.keeping import EDIT_WHY, Kept, filled, keep, kept_text, kept_title, page_of, which
from stockroom.tui.forms.own_studio import NAME


def supplier_of(store: Store, key: str) -> Supplier:
    """Return a supplier by the number that no renaming changes. Raises NotFound."""
    found = next((one for one in all_suppliers(store) if str(one.id) == key), None)
    if found is None:
        raise NotFound("This supplier is not here any more.")
    return found


def _days(typed: str | None) -> int | None:
    if typed is None or typed == "0":
        return None if typed is None else 0
    return whole_number(typed, "days", MOST_DAYS)


def _supplier(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        least = money(store, answers["minimum_order"]) if "minimum_order" in answers else None
        days, note = _days(answers.get("delivery")), answers.get("note")
        added = new_supplier(store, answers["name"], delivery=days, minimum_order=least, note=note)
        return Kept(noun="supplier", name=added.name, told=supplier_told(store, added), key=str(added.id))

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def _supplier_again(
    store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None
) -> Kept:
    def build() -> Kept:
        before = supplier_of(store, which(answers, "supplier"))
        after, made = edit_supplier(
            store,
            occasion,
            before.name,
            name=answers["name"],
            delivery=_days(answers.get("delivery")),
            minimum_order=money(store, answers["minimum_order"]) if "minimum_order" in answers else 0,
            note=answers.get("note", ""),
        )
        return Kept(noun="supplier", name=after.name, changed=made, key=str(after.id))

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


def supplier_told(store: Store, supplier: Supplier) -> tuple[tuple[str, str], ...]:
    """Say what is kept of a supplier, but for the name."""
    told = (
        ("delivery", None if supplier.lead_days is None else f"{supplier.lead_days} days, as promised"),
        ("delivers from", _least(store, supplier)),
        ("note", supplier.note),
    )
    return tuple((name, value) for name, value in told if value)


def _least(store: Store, supplier: Supplier) -> str | None:
    currency = setting(store, "currency")
    return f"{money_text(supplier.minimum_order, currency)} {currency}" if supplier.minimum_order else None


_SUPPLIER_FIELDS = (
    replace(NAME, hint="Paper goods, by post"),
    Asked(
        key="delivery",
        words="Delivery, days",
        hint="from order to delivery, promised: 10",
        read=lambda store, answers: _days(answers["delivery"]),
    ),
    Asked(
        key="minimum_order",
        words="Delivers from",
        hint="least an order must come to: 50.00",
        read=lambda store, answers: money(store, answers["minimum_order"]),
    ),
    Asked(key="note", words="Note", hint="address, customer number"),
)
NEW_SUPPLIER = Form(
    name="new-supplier",
    title="Add a supplier",
    help="""
Adding somebody goods are bought from. How long a delivery takes decides how early things are
told to be ordered; what deliveries really took counts as soon as some are known.
""",
    fields=_SUPPLIER_FIELDS,
    act=_supplier,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep the supplier {answers['name']}?",
    done=kept_title,
    page=page_of,
)
EDIT_SUPPLIER = Form(
    name="edit-supplier",
    title="Change a supplier",
    help="Changing what is kept of a supplier. Orders that were placed keep what they were placed with.",
    fields=(*_SUPPLIER_FIELDS, EDIT_WHY),
    act=_supplier_again,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep {answers['name']} so?",
    done=kept_title,
    expand=lambda store, known, local: filled(known, lambda key: _supplier_values(store, key)),
)


def _supplier_values(store: Store, key: str) -> dict[str, str | None]:
    found = supplier_of(store, key)
    least = None if not found.minimum_order else money_text(found.minimum_order, setting(store, "currency"))
    days = None if found.lead_days is None else str(found.lead_days)
    return {"name": found.name, "delivery": days, "minimum_order": least, "note": found.note}
