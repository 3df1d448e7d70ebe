"""What suppliers ask for a pack of a material, as stored: every price that was ever seen."""

from __future__ import annotations

from collections import defaultdict
from decimal import Decimal

from stockroom.domain.orders import Offer
from stockroom.domain.studio import Supplier
from stockroom.store.materials import COLUMNS, material_of
from stockroom.store.open import Row, Store
from stockroom.store.stockroom_settings import setting
from stockroom.store.suppliers import supplier_of

_PLAIN = (
    "id", "pack_quanta", "price", "minimum_packs", "catalogue_number", "seen_on", "initials", "ended_on",
)  # fmt: skip

_OFFER = (
    "SELECT "
    + ", ".join(f"offer.{name}" for name in (*_PLAIN, "currency", "rate", "tax_percent"))
    + ", "
    + ", ".join(f"material.{name} AS m_{name}" for name in COLUMNS)
    + ", "
    + ", ".join(f"supplier.{name} AS s_{name}" for name in Supplier.__dataclass_fields__)
    + " FROM offer JOIN material ON material.id = offer.material_id JOIN supplier ON supplier.id = offer.supplier_id"
)


def all_offers(store: Store, *, material_id: int | None = None, supplier_id: int | None = None) -> list[Offer]:
    """Return every price seen, the newest of each pack first; of one material, of one supplier, or all."""
    rows = store.rows(
        f"{_OFFER} WHERE (:material IS NULL OR offer.material_id = :material) "
        "AND (:supplier IS NULL OR offer.supplier_id = :supplier) "
        "ORDER BY material.name, supplier.name, offer.pack_quanta, offer.seen_on DESC, offer.id DESC",
        material=material_id,
        supplier=supplier_id,
    )
    return _built(store, rows)


def current_offers(
    store: Store, *, material_id: int | None = None, supplier_id: int | None = None, on: str | None = None
) -> list[Offer]:
    """Return the newest price of each pack of each supplier, without what has ended or whose supplier is retired.

    With `on` the newest that was seen by that day; of a pack first seen later, the newest.
    """
    newest: dict[tuple[int, int, int], Offer] = {}
    for offer in all_offers(store, material_id=material_id, supplier_id=supplier_id):
        pack = (offer.supplier.id, offer.material.id, offer.pack_quanta)
        if pack not in newest or (on is not None and newest[pack].seen_on > on >= offer.seen_on):
            newest[pack] = offer
    return [offer for offer in newest.values() if offer.ended_on is None and offer.supplier.retired_on is None]


def offers_by_id(store: Store, supplier_id: int) -> dict[int, Offer]:
    """Return every price a supplier ever asked, by id."""
    return {offer.id: offer for offer in all_offers(store, supplier_id=supplier_id)}


def add_offer(store: Store, offer: Offer) -> int:
    """Insert a price as it was seen; inside `write()`."""
    offer_id = store.insert(
        "offer",
        supplier_id=offer.supplier.id,
        material_id=offer.material.id,
        pack_quanta=offer.pack_quanta,
        price=offer.price,
        minimum_packs=offer.minimum_packs,
        catalogue_number=offer.catalogue_number,
        seen_on=offer.seen_on,
        currency=offer.currency if offer.foreign else None,
        rate=None if offer.rate is None else str(offer.rate),
        tax_percent=None if offer.tax_percent is None else str(offer.tax_percent),
        initials=offer.initials,
    )
    for packs, price in offer.breaks:
        store.insert("price_break", offer_id=offer_id, packs=packs, price=price)
    return offer_id


def end_offer(store: Store, offer_id: int, day: str) -> None:
    """Note that an offer stands no more; its price stays."""
    store.update("offer", offer_id, ended_on=day)


def _built(store: Store, rows: list[Row]) -> list[Offer]:
    if not rows:
        return []
    own = setting(store, "currency")
    breaks: dict[int, list[tuple[int, int]]] = defaultdict(list)
    for row in store.rows("SELECT offer_id, packs, price FROM price_break ORDER BY offer_id, packs"):
        breaks[row["offer_id"]].append((row["packs"], row["price"]))
    return [
        Offer(
            **{name: row[name] for name in _PLAIN},
            supplier=supplier_of(row, "s_"),
            material=material_of(row, "m_"),
            currency=row["currency"] or own,
            own_currency=own,
            rate=None if row["rate"] is None else Decimal(row["rate"]),
            tax_percent=None if row["tax_percent"] is None else Decimal(row["tax_percent"]),
            breaks=tuple(breaks[row["id"]]),
        )
        for row in rows
    ]
