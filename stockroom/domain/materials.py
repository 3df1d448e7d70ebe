"""Materials: the kinds of thing that can be held."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.sharing import round_half_even_ratio

CUT_ONE = "cut one: stockroom cut CODE SIZE --uses N"
"""What is to be done where uses of a reusable web lack: nobody sells it and no recipe makes it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A reagent, solvent, sheet, solution or other thing, as the studio describes it."""

    id: int = 0
    key: str
    name: str
    kind: str
    dimension: Dimension
    metered: bool = True
    """False for tap water and the like: in steps and statements, never in balances."""
    vented: bool = False
    """Gives off gas: never in a tight container."""
    grade: str | None = None
    density: Decimal | None = None
    """Grams per millilitre, as a liquid is measured or as the solid itself is dense."""
    purity: str | None = None
    """What part of it is the substance: "95 % w/w", "96 % v/v"."""
    molar_mass: Decimal | None = None
    """Grams per mole of the substance as it is weighed, its water of crystallisation included."""
    pack_word: str | None = None
    pack_quanta: int | None = None
    sheet_length_um: int | None = None
    sheet_width_um: int | None = None
    grain: str | None = None
    life_closed: str | None = None
    life_opened: str | None = None
    low_quanta: int | None = None
    """Below this, counted over all fit lots, it is due to be bought or made; set by hand."""
    storage: str | None = None
    signal_word: str | None = None
    hazards: tuple[str, ...] = ()
    precautions: tuple[str, ...] = ()
    pictograms: tuple[str, ...] = ()
    hazard_ground: str | None = None
    source: str | None = None
    identity: str | None = None
    """What it is whatever it is sold as: `calcium hydroxide, Ca(OH)2`."""
    safety_sheet: str | None = None
    """Where the maker's safety sheet is kept: a file, a folder, a page."""
    safety_sheet_date: str | None = None
    """The day that stands on it."""
    register: bool = False
    """Whether the studio keeps a register of it; which ones is for local rules."""
    retired_on: str | None = None

    @property
    def packs(self) -> Mapping[str, Quantity]:
        """The pack words that mean something for this material: a sheet of it, a roll, a ream."""
        words: dict[str, Quantity] = {}
        if self.sheet_length_um and self.sheet_width_um and self.dimension is Dimension.AREA:
            area_mm2 = round_half_even_ratio(self.sheet_length_um * self.sheet_width_um, 1_000_000)
            words["sheet"] = Quantity(Dimension.AREA, area_mm2)
        if self.pack_word and self.pack_quanta:
            words[self.pack_word] = Quantity(self.dimension, self.pack_quanta)
        return words

    @property
    def liquid_density(self) -> Decimal | None:
        """Grams per millilitre of what is measured by volume.

        A powder's density is that of its particles: it never turns a volume into a mass, since poured powder holds
        air.
        """
        return self.density if self.dimension is Dimension.VOLUME else None

    def quantity(self, quanta: int) -> Quantity:
        return Quantity(self.dimension, quanta)
