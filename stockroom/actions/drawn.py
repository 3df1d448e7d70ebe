"""What actions that draw from lots have in common: a line drawn, what is short, and how a shortage is told."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from stockroom.domain.ledger import Entry
from stockroom.domain.lots import Lot
from stockroom.domain.materials import CUT_ONE
from stockroom.errors import Short
from stockroom.science.quantities import Dimension, Quantity, amount_text, show


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """So much of one lot, with its share of value in minor units."""

    code: str
    material: str
    name: str
    quantity: Quantity
    value: int
    cost_known: bool = True
    override: str | None = None
    """Why the lot was not fit, where it was used all the same."""
    stands_in_for: str | None = None
    """Name of the material it was taken instead of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """What a plan needs of one material, and what there is of it."""

    material: str
    name: str
    needed: Quantity
    available: Quantity
    why: str = ""
    """Lots that hold some but may not be used, in words."""

    def document(self) -> dict[str, Any]:
        amount, unit = amount_text(self.needed)
        return {"material": self.material, "needed": amount, "available": amount_text(self.available)[0], "unit": unit}

    def told(self) -> str:
        gap = Quantity(self.needed.dimension, self.needed.quanta - self.available.quanta)
        text = f"{self.name}: {show(self.needed)} needed, {show(self.available)} fit to use, {show(gap)} short"
        if self.needed.dimension is Dimension.USES:
            text += f"; {CUT_ONE}"
        return f"{text} ({self.why})" if self.why else text


def refuse_short(missing: Sequence[Missing], advice: str, document: dict[str, Any] | None = None) -> None:
    """Raise Short naming every material that is missing; do nothing where none is."""
    if missing:
        lines = "\n".join(f"  {one.told()}" for one in missing)
        short = [one.document() for one in missing]
        raise Short(
            f"Not enough on the shelf. Nothing was drawn.\n{lines}\n{advice}",
            short=short,
            document={**(document or {}), "short": short},
        )


def drawn_lines(
    entries: Iterable[Entry],
    lots: dict[int, Lot],
    overrides: dict[int, str] | None = None,
    stand_ins: dict[int, str] | None = None,
) -> tuple[Drawn, ...]:
    """Add up an action's draws by lot, in order of drawing."""
    quantity: dict[int, int] = defaultdict(int)
    value: dict[int, int] = defaultdict(int)
    for entry in entries:
        if entry.effect == "draw" and entry.lot in lots and entry.count_action is None:
            quantity[entry.lot] -= entry.quantity
            value[entry.lot] -= entry.value
    return tuple(
        Drawn(
            code=lots[lot].code,
            material=lots[lot].material.key,
            name=lots[lot].material.name,
            quantity=Quantity(lots[lot].material.dimension, amount),
            value=value[lot],
            cost_known=lots[lot].cost_known,
            override=(overrides or {}).get(lot),
            stands_in_for=(stand_ins or {}).get(lot),
        )
        for lot, amount in quantity.items()
    )
