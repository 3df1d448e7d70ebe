"""Put offcuts of a sheet back on the shelf as lots of their own, each with its share of value by area."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from stockroom.actions.drawing import DrawPlan
from stockroom.domain.ledger import Movement
from stockroom.domain.lots import Lot, NewLot
from stockroom.domain.occasion import Occasion
from stockroom.domain.sizes import show_size
from stockroom.errors import BadInput, Refused, Unreadable
from stockroom.planning.fitness import mark_of_withdrawn
from stockroom.science.cutting import Sides, cut
from stockroom.science.numerals import quoted
from stockroom.science.offcuts import MOST_PIECES, can_be_cut
from stockroom.science.quantities import Quantity, show
from stockroom.science.reading import read_size
from stockroom.science.sharing import round_half_even_ratio
from stockroom.store import ledger
from stockroom.store.lots import find_lot
from stockroom.store.open import Store

_KEPT = (
    "supplier_id", "maker_lot", "maker_use_by", "made_at", "received_on", "purity", "grain", "life_closed",
    "life_opened", "own_use_by", "place_id", "opened_on", "use_by", "use_by_rule", "check_by", "ready_on", "strength",
    "unfit",
)  # fmt: skip
"""What an offcut has of the lot it was cut from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcuts:
    """Offcuts about to be booked."""

    lots: tuple[NewLot, ...] = ()
    movements: tuple[Movement, ...] = ()
    trim: int = 0
    """Quanta of the sheet that are neither piece nor offcut: they go where the piece goes."""
    sizes: tuple[str, ...] = ()


NO_OFFCUTS = Offcuts()


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptOffcut:
    """An offcut on the shelf; its code is None in a plan."""

    code: str | None
    size: str
    quantity: Quantity
    value: int


def plan_offcuts(
    lot: Lot, available: int, taken: int, pieces: Sequence[Sides], keep: Sequence[str], first_key: int = -1
) -> Offcuts:
    """Say how a lot gives pieces of `taken` quanta in all, from as few sheets as they need, and these offcuts.

    `pieces` are the sizes of what is taken, where they are known; `available` is what the lot holds: of its last sheet
    less than a whole one may be left. The lots begin under keys from `first_key` downwards. Raises Unreadable for a
    size, BadInput where the sheets do not give that, Refused where the books hold less.
    """
    if not keep:
        return NO_OFFCUTS
    sheet = lot.sheet_mm2
    if sheet is None or lot.length_um is None or lot.width_um is None:
        raise BadInput(f"{lot.code} ({lot.material.name}) is no sheet of known size: it has no offcuts to keep.")
    sizes = [read_size(one) for one in keep]
    areas = [round_half_even_ratio(length * width, 1_000_000) for length, width in sizes]
    if taken + sum(areas) > available:
        held = show(lot.material.quantity(available))
        raise Refused(f"{lot.code} holds {held} in the books, less than the piece and its offcuts. Count it first.")
    sides = (lot.length_um, lot.width_um)
    # offcuts lie as the sheet does, so that their grain is known; without grain they lie as they like
    may_turn = lot.grain not in ("along", "across")
    number = max(_sheets(sides, pieces), -(-taken // sheet))
    trim = min(number * sheet, available) - taken - sum(areas)
    alone = all(can_be_cut(sides, [size], may_turn=may_turn) for size in sizes)
    alone = alone and all(can_be_cut(sides, [piece]) for piece in pieces)
    together = [*pieces, *sizes]
    tried = number > 1 or len(together) > MOST_PIECES or can_be_cut(sides, together)
    if trim < 0 or not alone or not tried:
        turned = "" if may_turn else " The first side of an offcut lies along the sheet's first side: it has a grain."
        raise BadInput(
            f"A sheet of {show_size(*sides)} does not give that and {' and '.join(keep)}. Measure the offcut.{turned}"
        )
    lots, movements = [], []
    for at, (size, area) in enumerate(zip(sizes, areas, strict=True)):
        key = first_key - at
        lots.append(NewLot(key=key, material=lot.material, kind="offcut", fields=fields_of_cut(lot, size)))
        movements += [
            Movement(lot=lot.id, quantity=-area, other_end="lot", other_lot=key),
            Movement(lot=key, quantity=area, other_end="lot", other_lot=lot.id, effect="base"),
        ]
    return Offcuts(
        lots=tuple(lots),
        movements=tuple(movements),
        trim=trim,
        sizes=tuple(show_size(*size) or "" for size in sizes),
    )


def fields_of_cut(lot: Lot, size: Sides) -> dict[str, str | int | None]:
    """Return what a lot begins with that was cut from another one: everything of that but its size."""
    kept: dict[str, str | int | None] = {name: getattr(lot, name) for name in _KEPT}
    kept["unfit"] = mark_of_withdrawn([lot]) or lot.unfit
    return kept | {"length_um": size[0], "width_um": size[1], "cost_known": "known" if lot.cost_known else "unknown"}


def _sheets(sheet: Sides, pieces: Sequence[Sides]) -> int:
    """Return how many sheets give these pieces, those of one size together."""
    return sum(-(-number // max(1, cut(sheet, piece).pieces)) for piece, number in Counter(pieces).items())


def read_piece(typed: str) -> Sides:
    """Read the size of the piece that is cut from a sheet. Raises BadInput."""
    try:
        return read_size(typed)
    except Unreadable as error:
        raise BadInput(
            f"{quoted(typed)}: a piece that is cut is written by its two sides, such as 30 x 40 cm."
        ) from error


def offcuts_of_plan(
    store: Store, occasion: Occasion, plan: DrawPlan, keep: Sequence[str]
) -> tuple[Lot | None, Offcuts]:
    """Say what a plan keeps of the one lot of sheets it cuts from: sizes, or `CODE=SIZE` where it cuts several.

    Raises BadInput where it is not plain which lot is meant, and what `plan_offcuts` raises.
    """
    if not keep:
        return None, NO_OFFCUTS
    parted = [text.rpartition("=") for text in keep]
    named = {find_lot(store, code).id for code, _, _ in parted if code.strip()}
    drawn = [(line, draw) for line in plan.lines for draw in line.draws if draw.lot.sheet_mm2]
    drawn = [(line, draw) for line, draw in drawn if not named or draw.lot.id in named]
    lots = {draw.lot.id for _, draw in drawn}
    if len(lots) != 1 or len(named) > 1:
        raise BadInput(
            "Of which sheets are offcuts kept? Write it like --keep-offcut 'L002U=20 x 76 cm', with one lot that this "
            "treatment is cut from."
        )
    lot = drawn[0][1].lot
    taken = sum(draw.quantity for _, draw in drawn)
    known = [] if any(line.by_hand for line, _ in drawn) else [one for line, _ in drawn for one in line.need.pieces]
    pieces = [piece.sides for piece in known for _ in range(ceil(piece.number))]
    held = ledger.available(store, lot.id, occasion)
    return lot, plan_offcuts(lot, held, taken, pieces, [size for _, _, size in parted])


def kept_offcuts(store: Store, planned: Offcuts, codes: dict[int, str]) -> tuple[KeptOffcut, ...]:
    """Return the offcuts as they were booked."""
    lots = [find_lot(store, codes[new.key]) for new in planned.lots]
    return tuple(
        KeptOffcut(code=lot.code, size=size, quantity=lot.amount, value=lot.balance.value)
        for lot, size in zip(lots, planned.sizes, strict=True)
    )
