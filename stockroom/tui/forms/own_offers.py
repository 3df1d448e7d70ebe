"""What a supplier asks for a pack: kept as it is seen, and noted where it is sold no more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stockroom.actions.offers import Asked as AskedPrice
from stockroom.actions.offers import end_offer, new_offer, read_pack
from stockroom.domain.occasion import Occasion
from stockroom.domain.orders import Offer as Price
from stockroom.errors import StockroomError
from stockroom.science.money import show_money
from stockroom.store.materials import find_material
from stockroom.store.offers import current_offers
from stockroom.store.open import Store
from stockroom.store.suppliers import all_suppliers, find_supplier
from stockroom.tui.forms.fields import DAY, offer_materials, whole_number
from stockroom.tui.forms.form import Answers, Asked, Form
from stockroom.tui.forms.keeping import EDIT_WHY, Kept, keep, kept_text
from stockroom.tui.questions.offer import Offer


def _offer_suppliers(store: Store, answers: Answers) -> Sequence[Offer]:
    return [Offer(key=one.name, words=one.name, detail=one.note or "") for one in all_suppliers(store, retired=False)]


def _read_pack(store: Store, answers: Answers) -> object:
    return read_pack(find_material(store, answers["material"]), answers["pack"]) if "material" in answers else None


def told_price(price: Price) -> str:
    """Say what is asked for a pack, with its price from more packs on, and when it was seen."""
    parts = [f"{price.pack_words} for {show_money(price.price, price.currency)}"]
    parts += [f"from {packs} packs {show_money(each, price.currency)}" for packs, each in price.breaks]
    parts += [f"at least {price.minimum_packs} packs"] if price.minimum_packs > 1 else []
    parts += [f"tax {price.tax_percent} %"] if price.tax_percent is not None else []
    parts += [f"number {price.catalogue_number}"] if price.catalogue_number else []
    return ", ".join([*parts, f"seen {price.seen_on}"])


def _offer(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        asked = AskedPrice(
            supplier=answers["supplier"],
            material=answers["material"],
            pack=answers["pack"],
            price=answers["price"],
            minimum_packs=whole_number(answers.get("minimum_packs"), "packs", 10_000) or 1,
            breaks=tuple(line.strip() for line in answers.get("breaks", "").splitlines() if line.strip()),
            catalogue_number=answers.get("catalogue_number"),
            currency=answers.get("currency"),
            rate=answers.get("rate"),
            tax=answers.get("tax"),
        )
        kept = new_offer(store, occasion, asked)
        told = (("material", kept.material.name), ("offer", told_price(kept)))
        return Kept(noun="supplier", name=kept.supplier.name, told=told)

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


_SUPPLIER = Asked(
    key="supplier",
    words="Supplier",
    hint="Enter chooses",
    needed=True,
    choose=_offer_suppliers,
    none="No supplier is kept yet: add one in the bench book (F12).",
)
_MATERIAL = Asked(key="material", words="Material", hint="Enter chooses", needed=True, choose=offer_materials)
NEW_OFFER = Form(
    name="new-offer",
    title="Keep what a supplier asks",
    help="""
Keeping what is asked for one pack, as seen today: net or gross as the stockroom keeps its
costs. An earlier price of the same pack stays in the history. From these prices follows what
to buy and where, and what a job is expected to cost.
""",
    fields=(
        _SUPPLIER,
        _MATERIAL,
        Asked(key="pack", words="Pack", hint="what one holds: 1 L; 25 sheets", needed=True, read=_read_pack),
        Asked(key="price", words="Price of one", hint="12.90", needed=True),
        Asked(
            key="minimum_packs",
            words="At least, packs",
            hint="the fewest it sells: 1",
            read=lambda store, answers: whole_number(answers["minimum_packs"], "packs", 10_000),
        ),
        Asked(key="breaks", words="From more packs", hint="one a line: 10 = 11.50, each from ten packs on", rows=2),
        Asked(key="catalogue_number", words="Its number", hint="how the supplier calls it"),
        Asked(key="currency", words="Currency", hint="if it is another: USD", rare=True),
        Asked(key="rate", words="Rate", hint="what one unit of it costs here: 0.92", rare=True),
        Asked(key="tax", words="Tax, percent", hint="kept apart from the price: 19", rare=True),
        replace(DAY, words="Seen"),
    ),
    act=_offer,
    plan=kept_text,
    verb="Keep",
    question=lambda answers: f"Keep this price of {answers['supplier']}?",
    done=lambda done, currency: (f"Kept: a price of {done.name}", kept_text(done, currency)),
)


def _offer_packs(store: Store, answers: Answers) -> Sequence[Offer]:
    try:
        supplier = find_supplier(store, answers.get("supplier", ""))
        material = find_material(store, answers.get("material", ""))
    except StockroomError:
        return []
    found = current_offers(store, material_id=material.id, supplier_id=supplier.id)
    return [Offer(key=one.pack_words, words=one.pack_words, detail=told_price(one)) for one in found]


def _end(store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kept | None) -> Kept:
    def build() -> Kept:
        ended = end_offer(store, occasion, answers["supplier"], answers["material"], answers.get("pack"))
        told = (("material", ended.material.name), ("no more", told_price(ended)))
        return Kept(noun="supplier", name=ended.supplier.name, told=told)

    return keep(store, build, dry_run=dry_run, confirmed=confirmed)


END_OFFER = Form(
    name="end-offer",
    title="Note that a pack is sold no more",
    help="Noting that a supplier sells a pack no more. Its prices stay in the history; nothing is bought by it.",
    fields=(
        _SUPPLIER,
        _MATERIAL,
        Asked(
            key="pack",
            words="Pack",
            hint="which, where several are offered",
            choose=_offer_packs,
            none="Choose the supplier and the material first; none of it is offered yet.",
        ),
        EDIT_WHY,
    ),
    act=_end,
    plan=kept_text,
    verb="Note",
    question=lambda answers: f"Note that {answers['supplier']} sells it no more?",
    done=lambda done, currency: (f"Sold no more: a pack of {done.name}", kept_text(done, currency)),
)
