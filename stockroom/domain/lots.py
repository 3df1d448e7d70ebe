"""Lots: the traceable holdings of a material."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.domain.materials import Material
from stockroom.domain.sizes import show_size
from stockroom.science.quantities import Dimension, Quantity, show


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """What a lot holds, and what it held at its base: its last entry that was not a draw."""

    quantity: int = 0
    value: int = 0
    base_quantity: int = 0
    base_value: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """A bottle, pack, roll or jar: where it came from (fixed) and how it stands (changed by facts)."""

    id: int
    code: str
    material: Material
    kind: str
    begun_by: int
    balance: Balance
    supplier_id: int | None = None
    job_id: int | None = None
    maker_lot: str | None = None
    maker_use_by: str | None = None
    made_at: str | None = None
    received_on: str | None = None
    purity: str | None = None
    cost_known: bool = True
    about: bool = False
    over_solid: bool = False
    length_um: int | None = None
    width_um: int | None = None
    grain: str | None = None
    life_closed: str | None = None
    life_opened: str | None = None
    own_use_by: str | None = None
    initials: str = ""
    place_id: int | None = None
    place: str | None = None
    opened_on: str | None = None
    use_by: str | None = None
    """The effective last day (or minute) of use, ISO text; None where nothing limits it."""
    use_by_rule: str | None = None
    """Which rule set the date, in words."""
    check_by: str | None = None
    ready_on: str | None = None
    strength: str | None = None
    state: str = "on the shelf"
    ended_on: str | None = None
    ended_why: str | None = None
    unfit: str | None = None
    look_for: str | None = None

    @property
    def amount(self) -> Quantity:
        return Quantity(self.material.dimension, self.balance.quantity)

    @property
    def sheet_mm2(self) -> int | None:
        """Area of one sheet of this lot, or None where it is not sheet goods."""
        if self.material.dimension is not Dimension.AREA or not self.length_um or not self.width_um:
            return None
        return (self.length_um * self.width_um + 500_000) // 1_000_000

    @property
    def amount_words(self) -> str:
        """What it holds, for people; sheet goods in sheets to a tenth as well: `2.75 m², about 9.5 sheets`.

        An offcut has its size: `0.24 m², offcut of 60 x 40 cm`.
        """
        about = "about " if self.about else ""
        if self.kind == "offcut":
            what = "offcut" if self.material.dimension is Dimension.AREA else "a piece"
            return f"{about}{show(self.amount)}, {what} of {show_size(self.length_um, self.width_um)}"
        if not self.sheet_mm2:
            return about + show(self.amount)
        tenths = (10 * self.balance.quantity + self.sheet_mm2 // 2) // self.sheet_mm2
        exact = self.balance.quantity % self.sheet_mm2 == 0
        sheets = f"{tenths // 10}" if exact else f"{tenths // 10}.{tenths % 10}"
        return f"{about}{show(self.amount)}, {'' if exact else 'about '}{sheets} sheet{'' if sheets == '1' else 's'}"

    @property
    def ended(self) -> bool:
        return self.state == "ended"

    @property
    def is_jar(self) -> bool:
        return self.kind in ("jar", "remainder", "used bath", "waste can")


@dataclass(frozen=True, slots=True, kw_only=True)
class NewLot:
    """A lot about to begin. `key` stands for it until it has a number of its own: -1, -2 …"""

    key: int
    material: Material
    kind: str
    fields: dict[str, str | int | None]
    """Columns of the lot table, as stored."""
    code: str | None = None
    """The code that it has already, from another stockroom or an older one; else one is given out."""
