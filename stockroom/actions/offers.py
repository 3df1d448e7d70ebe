"""What suppliers ask: every price is kept with its day, and a new one never overwrites an old one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal

from stockroom.actions.editing import changes, keep_changes
from stockroom.actions.naming import check_text
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.orders import Offer
from stockroom.domain.studio import Supplier
from stockroom.domain.typed_amounts import read_amount
from stockroom.errors import BadInput, NotFound
from stockroom.science.money import minor_digits, read_money
from stockroom.science.numerals import quoted, read_decimal
from stockroom.store import offers
from stockroom.store.materials import find_material
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting
from stockroom.store.suppliers import find_supplier

MOST_PACKS = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """An offer as a person tells it; every text as typed."""

    supplier: str
    material: str
    pack: str
    """What one pack holds: `1 L`, `25 sheets`."""
    price: str
    """Of one pack, in the offer's currency; net or gross as the stockroom keeps its costs."""
    minimum_packs: int = 1
    breaks: tuple[str, ...] = ()
    """`10 = 8.50`: from ten packs on, 8.50 each."""
    catalogue_number: str | None = None
    currency: str | None = None
    rate: str | None = None
    """What one unit of that currency costs in the stockroom's."""
    tax: str | None = None
    """Percent."""


def new_offer(store: Store, occasion: Occasion, asked: Asked, *, retired: bool = False) -> Offer:
    """Keep a price as seen on the occasion's day; catalogue number and tax are as last seen unless said anew.

    With `retired`, of a supplier that is not ordered from any more as well.
    Raises BadInput, Unreadable, NotFound; nothing is kept then.
    """
    own = setting(store, "currency")
    with store.write():
        supplier = find_supplier(store, asked.supplier, retired=retired)
        material = find_material(store, asked.material)
        if not material.metered:
            raise BadInput(f"{material.name} is not metered here, so it is not bought for the shelf.")
        currency = (asked.currency or own).strip().upper()
        minor_digits(currency)
        price = read_money(asked.price, currency)
        offer = Offer(
            supplier=supplier,
            material=material,
            pack_quanta=read_pack(material, asked.pack),
            price=price,
            currency=currency,
            own_currency=own,
            rate=_rate(asked.rate, currency, own),
            tax_percent=_tax(asked.tax),
            minimum_packs=check_packs(asked.minimum_packs),
            breaks=_breaks(asked.breaks, price, currency),
            catalogue_number=check_text(asked.catalogue_number, "catalogue number") if asked.catalogue_number else None,
            seen_on=occasion.day.isoformat(),
            initials=occasion.by,
        )
        offer = _as_last_seen(store, offer, asked)
        return replace(offer, id=offers.add_offer(store, offer))


def _as_last_seen(store: Store, offer: Offer, asked: Asked) -> Offer:
    """Take catalogue number and tax from the newest price of that pack where they are not said now."""
    found = offers.current_offers(store, material_id=offer.material.id, supplier_id=offer.supplier.id)
    for last in found:
        if last.pack_quanta == offer.pack_quanta:
            number = last.catalogue_number if asked.catalogue_number is None else offer.catalogue_number
            tax = last.tax_percent if asked.tax is None else offer.tax_percent
            return replace(offer, catalogue_number=number, tax_percent=tax)
    return offer


def end_offer(store: Store, occasion: Occasion, supplier: str, material: str, pack: str | None = None) -> Offer:
    """Note that a supplier sells a pack no more; its prices stay in the history."""
    with store.write() as booked_at:
        offer = offer_of(store, find_supplier(store, supplier), find_material(store, material), pack)
        return end_this_offer(store, occasion, offer, booked_at)


def end_this_offer(store: Store, occasion: Occasion, offer: Offer, booked_at: datetime) -> Offer:
    """Note that one price stands no more; inside `write()`."""
    ended = replace(offer, ended_on=occasion.day.isoformat())
    offers.end_offer(store, offer.id, occasion.day.isoformat())
    what = f"offer of {offer.pack_words} of {offer.material.key}"
    made = changes({what: "stands"}, {what: f"ended on {ended.ended_on}"})
    keep_changes(store, "supplier", str(offer.supplier.id), made, occasion, booked_at)
    return ended


def offer_of(
    store: Store, supplier: Supplier, material: Material, pack: str | None = None, *, on: str | None = None
) -> Offer:
    """Return the newest price of a pack of a material at a supplier, or the one that stood on a day.

    Raises NotFound where the supplier offers none, BadInput where it offers several packs and none is named.
    """
    found = offers.current_offers(store, material_id=material.id, supplier_id=supplier.id, on=on)
    if pack is not None:
        quanta = read_pack(material, pack)
        found = [offer for offer in found if offer.pack_quanta == quanta]
    packs = ", ".join(offer.pack_words for offer in found)
    if not found:
        what = material.name if pack is None else f"{pack} of {material.name}"
        raise NotFound(
            f"No offer of {supplier.name} for {what} is kept. Keep it first: stockroom supplier offer "
            f"'{supplier.name}' {material.key} PACK PRICE.",
            supplier=supplier.name,
            material=material.key,
        )
    if len(found) > 1:
        raise BadInput(f"{supplier.name} offers {material.name} in packs of {packs}. Say which with --pack.")
    return found[0]


def read_pack(material: Material, typed: str) -> int:
    """Read what one pack of a material holds, in quanta."""
    return read_amount(material, typed).quanta


def check_packs(number: int) -> int:
    """Return a number of packs that can be ordered. Raises BadInput."""
    if not 1 <= number <= MOST_PACKS:
        raise BadInput(f"{number} packs cannot be ordered. Write a whole number from 1 to {MOST_PACKS}.")
    return number


def _rate(typed: str | None, currency: str, own: str) -> Decimal | None:
    if currency == own:
        if typed is not None:
            raise BadInput(f"The offer is in {own}, the stockroom's own currency: it needs no rate.")
        return None
    if typed is None:
        raise BadInput(f"The offer is in {currency}. What does 1 {currency} cost in {own}? Say it with --rate.")
    rate = read_decimal(typed)
    if not Decimal("1e-6") <= rate <= Decimal("1e6"):
        raise BadInput(f"1 {currency} for {typed} {own} cannot be. Look at the rate.")
    return rate


def _tax(typed: str | None) -> Decimal | None:
    if typed is None:
        return None
    percent = read_decimal(typed.replace("%", "").strip() or typed)
    if percent >= 100:
        raise BadInput(f"A tax of {quoted(typed)} cannot be. Write its percent, such as 19.")
    return percent


def _breaks(typed: Sequence[str], price: int, currency: str) -> tuple[tuple[int, int], ...]:
    found: list[tuple[int, int]] = []
    for text in typed:
        packs, sign, each = text.partition("=")
        if not sign or not packs.strip().isdecimal():
            raise BadInput(f"{quoted(text)} is not a price break. Write it like '10 = 8.50': from 10 packs, 8.50 each.")
        found.append((check_packs(int(packs.strip())), read_money(each.strip(), currency)))
    found.sort()
    last = (1, price)
    for one in found:
        if one[0] <= last[0] or one[1] >= last[1]:
            raise BadInput("Price breaks go down in price as the number of packs goes up, each number of packs once.")
        last = one
    return tuple(found)
