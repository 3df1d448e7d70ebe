"""Cut pieces that are used again and again from a sheet: each becomes a lot that holds the uses it is good for."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Self

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.drawn import Drawn, drawn_lines
from stockroom.actions.lots_here import lot_here, unfit_all_the_same
from stockroom.actions.offcuts import KeptOffcut, fields_of_cut, kept_offcuts, plan_offcuts, read_piece
from stockroom.actions.opening import opened_by_drawing
from stockroom.actions.posting import post
from stockroom.actions.taking import beyond_the_books
from stockroom.domain.ledger import Draft, Movement
from stockroom.domain.lots import NewLot
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.sizes import show_size
from stockroom.errors import BadInput
from stockroom.science.quantities import Dimension
from stockroom.science.sharing import round_half_even_ratio, share_out
from stockroom.store import ledger
from stockroom.store.lots import find_lot
from stockroom.store.materials import add_material, find_material, material_key_taken
from stockroom.store.open import Store

REUSABLE = "reusable-"
"""How the key begins of what is cut to be used again; a lot of it holds uses."""
MOST_USES = 1_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Pieces(ActionOutcome):
    """Pieces cut to be used again."""

    material: str
    name: str
    size: str
    codes: tuple[str | None, ...]
    uses: int
    """That each is good for."""
    drawn: tuple[Drawn, ...]
    cost: int
    offcuts: tuple[KeptOffcut, ...] = ()

    def as_plan(self) -> Self:
        offcuts = tuple(replace(one, code=None) for one in self.offcuts)
        return replace(self, action=None, codes=(None,) * len(self.codes), offcuts=offcuts)


def cut_pieces(
    store: Store,
    occasion: Occasion,
    code: str,
    size: str,
    *,
    uses: int | None = None,
    pieces: int = 1,
    keep_offcuts: tuple[str, ...] = (),
    dry_run: bool = False,
    confirmed: Pieces | None = None,
) -> Pieces:
    """Cut pieces of one size from a lot of sheets, each to be used so many times.

    Every use takes its share of the piece's cost, until the last one ends it; a piece that is worn out before is
    discarded, and the rest is waste. Without `uses` it is what the studio set for that material (its pack), which the
    first cut sets. With offcuts kept, the trim goes with the pieces. Raises Short where the lot does not hold it,
    Refused for a lot that is not fit, BadInput where the number of uses is not known or the sheet does not give that.
    """
    if uses is not None and not 1 <= uses <= MOST_USES:
        raise BadInput(f"How many uses is a piece good for? Write 1 to {MOST_USES}.")
    if not 1 <= pieces <= 50:
        raise BadInput("How many pieces are cut? Write 1 to 50.")
    sides = read_piece(size)

    def build(booked_at: datetime) -> Pieces:
        lot = lot_here(store, occasion, code)
        if lot.material.dimension is not Dimension.AREA:
            raise BadInput(f"{lot.code} ({lot.material.name}) is not measured by area: it is not cut.")
        override = unfit_all_the_same(lot, occasion)
        material = _reusable(store, lot.material, uses)
        each = uses or (material.pack_quanta or 0) // 1_000
        if not each:
            raise BadInput(f"How many uses is a piece of {lot.material.name} good for? Say --uses N.")
        area = pieces * round_half_even_ratio(sides[0] * sides[1], 1_000_000)
        beyond_the_books(store, occasion, lot, area)
        held = ledger.available(store, lot.id, occasion)
        cut = plan_offcuts(lot, held, area, [sides] * pieces, keep_offcuts, first_key=-pieces - 1)
        keys = range(-1, -pieces - 1, -1)
        shares = share_out(area + cut.trim, [1] * pieces)
        movements = [*cut.movements]
        for key, share in zip(keys, shares, strict=True):
            movements += [
                Movement(lot=lot.id, quantity=-share, other_end="lot", other_lot=key),
                Movement(lot=key, quantity=each * 1_000, other_end="lot", other_lot=lot.id, effect="base"),
            ]
        fields = fields_of_cut(lot, sides) | {"received_on": None, "made_at": occasion.minute_text}
        new = [NewLot(key=key, material=material, kind="offcut", fields=dict(fields)) for key in keys]
        draft = Draft(
            kind="cut",
            occasion=occasion,
            movements=tuple(movements),
            new_lots=(*new, *cut.lots),
            facts=tuple(opened_by_drawing([lot], occasion)),
            details={
                "typed": size,
                "uses": each,
                **({"overrides": {lot.code: override}} if override else {}),
            },
        )
        posted = post(store, draft, booked_at)
        begun = [find_lot(store, posted.lots[key]) for key in keys]
        to_pieces = [entry for entry in posted.entries if entry.other_lot in {one.id for one in begun}]
        return Pieces(
            material=material.key,
            name=material.name,
            size=show_size(*sides) or "",
            codes=tuple(one.code for one in begun),
            uses=each,
            drawn=drawn_lines(to_pieces, {lot.id: lot}),
            cost=sum(one.balance.value for one in begun),
            offcuts=kept_offcuts(store, cut, posted.lots),
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def _reusable(store: Store, sheet: Material, uses: int | None) -> Material:
    """Return what pieces of a sheet are kept as, beginning it where there is none."""
    key = f"{REUSABLE}{sheet.key}"
    if not material_key_taken(store, key):
        piece = replace(
            sheet,
            id=0,
            key=key,
            name=f"{sheet.name}, cut to be used again",
            dimension=Dimension.USES,
            pack_word="piece" if uses else None,
            pack_quanta=uses * 1_000 if uses else None,
            sheet_length_um=None,
            sheet_width_um=None,
            low_quanta=None,
            source=None,
        )
        add_material(store, piece)
    return find_material(store, key)
