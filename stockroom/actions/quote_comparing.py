"""A quote against what was used, line by line, each difference with its reason."""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.actions.costing import Costing, Key
from stockroom.domain.materials import Material
from stockroom.domain.quotes import NOTHING, Quote, Range
from stockroom.planning.cost_causes import CAUSE_WORDS, Amounts, Cause, causes


@dataclass(frozen=True, slots=True, kw_only=True)
class Against:
    """One line of a quote against what was used."""

    treatment: str
    """Name of the recipe, or what it was taken for, in words."""
    material: Material | None
    """None for the allowance for waste."""
    quoted: Range | None
    """Minor units; None where it was not quoted."""
    quantity: Range | None
    used: Amounts | None
    """None where nothing of it was used so far."""
    causes: tuple[Cause, ...]

    @property
    def difference(self) -> int:
        """What was used less the best figure that was quoted."""
        return (self.used.value if self.used else 0) - (self.quoted.best if self.quoted else 0)

    @property
    def why(self) -> str:
        """The reasons in words; nothing where there is no difference."""
        return "; ".join(CAUSE_WORDS[one.kind] for one in self.causes)


def against_quote(quote: Quote, costing: Costing) -> tuple[Against, ...]:
    """Compare a quote with what its job used so far; the differences add up to the whole difference.

    The allowance for waste stands against the job's shares of waste, where the costing has them.
    """
    quantities: dict[Key, Range] = {}
    values: dict[Key, Range] = {}
    known: dict[Key, bool] = {}
    names: dict[str | None, str] = {}
    materials: dict[int, Material] = {}
    for line in quote.lines:
        key: Key = (line.recipe, line.material.id)
        quantities[key] = quantities.get(key, NOTHING) + line.quantity
        values[key] = values.get(key, NOTHING) + line.value
        known[key] = known.get(key, True) and line.complete
        names[line.recipe], materials[line.material.id] = line.recipe_name, line.material
    used: dict[Key, Amounts | None] = {}
    to_come: set[Key] = set()
    for one in costing.lines:
        key = (one.treatment, one.material.id)
        names.setdefault(one.treatment, one.treatment_name)
        materials[one.material.id] = one.material
        if one.actual is not None or key in values:
            used[key] = one.actual
        if one.to_come is not None:
            to_come.add(key)
    found = [
        _against(
            names[key[0]], materials[key[1]], values.get(key), quantities.get(key), known.get(key, True), used.get(key),
            key in to_come,
        )
        for key in dict.fromkeys([*values, *used])
    ]  # fmt: skip
    if quote.waste is not None or costing.waste:
        found.append(_waste(quote, costing, bool(to_come)))
    return tuple(found)


def _against(
    treatment: str,
    material: Material,
    quoted: Range | None,
    quantity: Range | None,
    known: bool,
    used: Amounts | None,
    to_come: bool,
) -> Against:
    expected = None
    if quoted is not None and quantity is not None:
        expected = Amounts(quantity=quantity.best, value=quoted.best, complete=known)
    parts = causes(expected, used)
    if used is None and to_come:
        parts = tuple(Cause(kind="still to come", value=one.value) for one in parts)
    return Against(treatment=treatment, material=material, quoted=quoted, quantity=quantity, used=used, causes=parts)


def _waste(quote: Quote, costing: Costing, to_come: bool) -> Against:
    difference = costing.waste_value - quote.for_waste.best
    kind = "waste" if costing.waste else "still to come" if to_come else "not used"
    return Against(
        treatment="allowance for waste",
        material=None,
        quoted=quote.for_waste if quote.waste is not None else None,
        quantity=None,
        used=Amounts(value=costing.waste_value) if costing.waste else None,
        causes=(Cause(kind=kind, value=difference),) if difference else (),
    )
