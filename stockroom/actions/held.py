"""What is held on a day: containers, amounts, hazards, safety sheets, and what it would cost to have again."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from fractions import Fraction

from dateutil.relativedelta import relativedelta

from stockroom.domain.held import Container, HazardTotal, Held, SafetySheet
from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.errors import NotFound
from stockroom.science.hazard_words import choose_signal_word
from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.reference import rows
from stockroom.science.sharing import round_half_even_ratio
from stockroom.store.fold import fold
from stockroom.store.held import held_on
from stockroom.store.offers import current_offers
from stockroom.store.open import Store
from stockroom.store.studio import all_places, find_place

SHEET_YEARS = 3
"""From this age on a safety sheet is called old; common practice, no source: what counts is for local rules."""
_CODE = re.compile(r"H[2-4]\d\d[a-z]{0,2}|EUH\d{3}a?|GHS0[1-9]|danger|warning", re.IGNORECASE)
_MEASURED = (Dimension.MASS, Dimension.VOLUME)


def held(
    store: Store,
    day: date,
    *,
    place: str | None = None,
    hazard: str | None = None,
    sheet_years: int = SHEET_YEARS,
) -> Held:
    """Return what was held at the end of a day, at one place or all, of one hazard or any.

    A hazard is the code of a statement or pictogram, or words of a statement. Raises NotFound for the place, and
    for a hazard that is no code and in no statement: a slip must not read as "nothing is held".
    """
    where = find_place(store, place, retired=True).name if place else None
    everywhere = list(_containers(store, day.isoformat()))
    if hazard and not _is_known(hazard, [one.lot.material for one in everywhere]):
        raise NotFound(
            f"No statement here says '{hazard}'. Say a code or words of a statement, such as H225, GHS02, flammable.",
            answer="hazard",
        )
    found = [one for one in everywhere if where is None or one.place == where]
    if hazard:
        found = [one for one in found if _carries(one.lot.material, hazard)]
    found.sort(key=lambda one: (one.place or "", not one.codes, one.lot.material.name, one.lot.code))
    codes = [code for one in found for code in one.codes]
    signals = {one.lot.material.signal_word for one in found}
    without = [one for one in found if one.replacement is None]
    return Held(
        on=day.isoformat(),
        place=where,
        hazard=hazard,
        containers=tuple(found),
        totals=tuple(_totals(found)),
        sheets=tuple(_sheets(found, day, sheet_years)),
        signal_word=next((word for word in ("Danger", "Warning") if word in signals), choose_signal_word(codes)),
        pictograms=tuple(sorted({code for one in found for code in one.lot.material.pictograms})),
        value=sum(one.value for one in found),
        replacement=sum(one.value if one.replacement is None else one.replacement for one in found),
        without_offer=sum(one.value for one in without),
        cost_known=all(one.lot.cost_known for one in without),
    )


def _containers(store: Store, day: str) -> Iterator[Container]:
    places = {one.id: one.name for one in all_places(store, retired=True)}
    prices = _lowest_prices(store)
    for lot, quantity, value, stood in held_on(store, day):
        place = places.get(int(stood["place_id"] or 0)) if "place_id" in stood else None
        told, strength = _as_warned_of(store, lot, stood.get("strength"))
        price = prices.get(lot.material.id)
        yield Container(
            lot=told,
            amount=lot.material.quantity(quantity),
            solid_only=quantity == 0,
            strength=strength,
            place=place,
            value=value,
            replacement=None if price is None else round_half_even_ratio(quantity * price.numerator, price.denominator),
        )


def _as_warned_of(store: Store, lot: Lot, strength: str | None) -> tuple[Lot, str | None]:
    """Return a lot with the hazards its label warns of, and its strength; of a waste can what is in it."""
    if lot.kind != "waste can":
        return lot, strength or lot.purity
    from stockroom.actions.waste_cans import as_labelled

    can = as_labelled(store, lot)
    return can, can.strength


def _lowest_prices(store: Store) -> dict[int, Fraction]:
    """Return for each material the lowest price of a quantum, in minor units, among the offers that stand."""
    prices: dict[int, Fraction] = {}
    for offer in current_offers(store):
        price = Fraction(offer.in_own(offer.price), offer.pack_quanta)
        material = offer.material.id
        prices[material] = min(price, prices.get(material, price))
    return prices


def _is_known(hazard: str, materials: Iterable[Material]) -> bool:
    """Tell a hazard from a slip: it is written like a code, or a material here or a listed statement says it."""
    return (
        _CODE.fullmatch(hazard.strip()) is not None
        or any(_carries(material, hazard) for material in materials)
        or any(fold(hazard) in fold(row.what) for row in rows("hazard_statements") if row.of[0] != "P")
    )


def _carries(material: Material, hazard: str) -> bool:
    wanted = fold(hazard)
    said = [*material.hazards, *material.pictograms, material.signal_word or ""]
    return any(wanted in fold(words) for words in said)


def _totals(found: Iterable[Container]) -> Iterator[HazardTotal]:
    """Add up by statement and place; each container counts under each of its statements."""
    words: dict[str, str] = {}
    by_code: dict[tuple[str, str | None], list[Container]] = defaultdict(list)
    for one in found:
        for statement in one.lot.material.hazards:
            code, _, rest = statement.partition(" ")
            words.setdefault(code, rest)
            by_code[code, one.place].append(one)
    for (code, place), those in sorted(by_code.items(), key=lambda pair: (pair[0][0], pair[0][1] or "")):
        amounts: dict[Dimension, int] = defaultdict(int)
        for one in those:
            amounts[one.amount.dimension] += one.amount.quanta
        yield HazardTotal(
            code=code,
            statement=words[code],
            place=place,
            containers=len(those),
            amounts=tuple(Quantity(dimension, quanta) for dimension, quanta in sorted(amounts.items()) if quanta),
        )


def _sheets(found: Sequence[Container], day: date, years: int) -> Iterator[SafetySheet]:
    """Tell the safety sheet of all that was bought and is not said to be harmless, and what is wrong with it."""
    materials = {one.lot.material.key: one.lot.material for one in found if not one.lot.is_jar}
    oldest = (day - relativedelta(years=years)).isoformat()
    for material in sorted(materials.values(), key=lambda one: one.name):
        if not material.hazards and (material.hazard_ground or material.dimension not in _MEASURED):
            continue  # its entry says that it is not classified, or it is a sheet or a tool
        file, dated = material.safety_sheet, material.safety_sheet_date
        trouble = None
        if not file:
            trouble = "missing"
        elif dated is None:
            trouble = "its date is not kept"
        elif dated <= oldest:
            trouble = f"{years} years old or more"
        yield SafetySheet(key=material.key, name=material.name, file=file, dated=dated, trouble=trouble)
