"""What a recipe will draw: its needs met from the shelf, the hand's own choices kept."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from stockroom.actions.drawn import Missing, refuse_short
from stockroom.actions.lots_here import refuse_not_yet_here
from stockroom.domain.ledger import Fact
from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.domain.occasion import Occasion
from stockroom.domain.typed_amounts import read_amount
from stockroom.errors import BadInput, Refused
from stockroom.planning.picking import Draw, Held, pick
from stockroom.planning.purities import measured_factor, share_drawn
from stockroom.planning.requirements import Book, Need
from stockroom.planning.sheets import usable
from stockroom.science.quantities import Quantity
from stockroom.science.sharing import share_out
from stockroom.store import ledger
from stockroom.store.lots import find_lot, lots_of_materials
from stockroom.store.materials import find_material
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """What the hand did, where it differs from the plan; every text as typed."""

    lots: tuple[str, ...] = ()
    """Codes of the lots to draw from, in order."""
    took: tuple[str, ...] = ()
    """`MATERIAL=2.53 g`: what was taken in all."""
    count_first: bool = False
    added: str | None = None
    """For a line measured to a reading: what was added in all, or for each fill, parted by `;`."""
    reached: str | None = None
    """For such a line: the reading of each fill, parted by `;`: `pH 8.2 at 21 °C; pH 8.1 at 21 °C`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LineDraws:
    """One need and the lots it is drawn from."""

    need: Need
    quantity: Quantity
    """What is taken in all, over every fill."""
    draws: tuple[Draw, ...]
    ratio: Fraction = Fraction(1)
    """The substance that was taken over what the recipe asked for, as the lots are pure."""
    stands_in: Material | None = None
    by_hand: bool = False
    """Whether a person said how much was taken."""

    @property
    def per_fill(self) -> Quantity | None:
        """What each fill takes, where it is known of each."""
        each, odd = divmod(self.quantity.quanta, self.need.fills)
        return None if self.by_hand or odd else Quantity(self.quantity.dimension, each)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawPlan:
    """Everything a recipe draws."""

    lines: tuple[LineDraws, ...]
    waits_for: Need | None = None
    """The line to be measured to a reading, where what was added is not known yet."""

    @property
    def lots(self) -> dict[int, Lot]:
        return {draw.lot.id: draw.lot for line in self.lines for draw in line.draws}

    @property
    def overrides(self) -> dict[int, str]:
        return {draw.lot.id: draw.override for line in self.lines for draw in line.draws if draw.override}

    @property
    def stand_ins(self) -> dict[int, str]:
        return {draw.lot.id: one.need.material.name for one in self.lines if one.stands_in for draw in one.draws}

    @property
    def found(self) -> dict[int, int]:
        return {draw.lot.id: draw.found for line in self.lines for draw in line.draws if draw.found}

    def details(self, choices: Choices) -> dict[str, object]:
        """Return what an action keeps of how its draws were chosen."""
        overrides = {self.lots[lot].code: why for lot, why in self.overrides.items()}
        return ({"overrides": overrides} if overrides else {}) | (
            {"reached": choices.reached} if choices.reached else {}
        )

    def opened(self, facts: Iterable[Fact]) -> tuple[str, ...]:
        """Return the codes of the lots that some facts say were opened."""
        return tuple(sorted({self.lots[lot].code for lot, name, _ in facts if name == "opened_on"}))


def plan_draws(
    store: Store,
    occasion: Occasion,
    needs: list[Need],
    book: Book,
    choices: Choices,
    known: dict[str, object] | None = None,
) -> DrawPlan:
    """Meet needs from the shelf. Raises Short with everything that is missing, Refused for unfit lots without reason.

    `known` is what a failure's document holds beside `short`.
    """
    took = _took(store, needs, choices)
    chosen = _chosen(store, needs, choices, occasion)
    left: dict[int, int] = {}
    lines: list[LineDraws] = []
    missing: list[Missing] = []
    waits_for: Need | None = None
    for need in _merged(needs, took):
        amount = took.get(need.material.key) or need.total
        if amount is None:
            if choices.added is None:
                waits_for = need
                continue
            amount = _added(need, choices.added)
        if not need.material.metered or not amount.quanta:
            lines.append(LineDraws(need=need, quantity=amount, draws=(), by_hand=need.material.key in took))
            continue
        by_hand = amount if need.material.key in took or need.total is None else None
        line, short = _meet(store, occasion, need, by_hand, chosen, left, book, choices.count_first)
        if short is not None:
            missing.append(short)
        lines.append(line)
    refuse_short(missing, _advice(choices), known)
    plan = DrawPlan(lines=tuple(lines), waits_for=waits_for)
    if plan.overrides and not occasion.reason:
        told = "; ".join(f"{plan.lots[lot].code} ({why})" for lot, why in plan.overrides.items())
        raise Refused(
            f"Not fit to use: {told}. Choose another lot, or say why this one all the same with --why; the reason "
            "stays in the record."
        )
    return plan


def waits_for_reading(store: Store, needs: list[Need], choices: Choices) -> bool:
    """Say whether a line is measured to a reading and nobody has said yet what went in.

    Raises BadInput where the reading is given without it.
    """
    took = _took(store, needs, choices)
    waits = choices.added is None and any(need.total is None and need.material.key not in took for need in needs)
    if waits and choices.reached:
        raise BadInput("How much was added to reach it? Say --added, such as --added '0.6 mL'.")
    return waits


def _advice(choices: Choices) -> str:
    if choices.count_first and not choices.lots:
        return "Which lot holds more than the books say? Name it with --from, beside --count-first."
    if choices.lots:
        return "Name another lot as well, or --count-first books the rest as found and then draws."
    return "Make or receive what is missing, or name the lots with --from."


def _merged(needs: list[Need], took: Mapping[str, Quantity]) -> list[Need]:
    """Put needs of one material that was taken as one amount into one, so that it is drawn once."""
    merged: list[Need] = []
    for need in needs:
        if need.material.key in took and any(one.material.key == need.material.key for one in merged):
            continue
        merged.append(need)
    return merged


def _meet(
    store: Store,
    occasion: Occasion,
    need: Need,
    told: Quantity | None,
    chosen: list[Lot],
    left: dict[int, int],
    book: Book,
    count_first: bool,
) -> tuple[LineDraws, Missing | None]:
    """Meet one need; `told` is what a person took in all, which is drawn as it was told."""
    amount = told or need.total
    if amount is None:
        raise ValueError("what is measured to a reading is drawn when it is known")
    keys = (need.material.key, *need.line.stand_ins)
    own = [lot for lot in chosen if lot.material.key in keys]
    material = own[0].material if own else need.material
    lots = own or lots_of_materials(store, [need.material.id])
    held = [Held(lot=lot, available=_available(store, occasion, lot, left)) for lot in lots]
    if not own:
        held = [Held(lot=one.lot, available=usable(one.lot, one.available, need.pieces)) for one in held]
    picked = pick(
        held,
        amount.quanta,
        occasion.local,
        factor=measured_factor(need) if told is None else lambda _: Fraction(1),
        chosen=[lot.code for lot in own],
        count_first=count_first,
    )
    for draw in picked.draws:
        left[draw.lot.id] = left[draw.lot.id] - draw.quantity + draw.found
    line = LineDraws(
        need=need,
        quantity=told or Quantity(amount.dimension, sum(draw.quantity for draw in picked.draws)),
        draws=picked.draws,
        ratio=share_drawn(need, picked.draws) if told else Fraction(1),
        stands_in=material if material.key != need.material.key else None,
        by_hand=told is not None,
    )
    if not picked.missing:
        return line, None
    why = [f"{lot.code} {verdict.why}" for lot, verdict in picked.passed_over]
    if occasion.day != occasion.today:
        why.insert(0, f"as the books stood on {occasion.day}")
    if not own:
        why += _standing_by(store, occasion, need, book)
    return line, Missing(
        material=need.material.key,
        name=need.material.name,
        needed=amount,
        available=need.material.quantity(min(picked.available, amount.quanta)),
        why="; ".join(why),
    )


def _standing_by(store: Store, occasion: Occasion, need: Need, book: Book) -> list[str]:
    """Say which stand-ins are on the shelf; taking one is for the person to say."""
    told: list[str] = []
    for key in need.line.stand_ins:
        for lot in lots_of_materials(store, [book.materials[key].id]):
            told.append(f"{lot.material.name} may stand in: --from {lot.code}")
    return told


def _available(store: Store, occasion: Occasion, lot: Lot, left: dict[int, int]) -> int:
    if lot.id not in left:
        left[lot.id] = ledger.available(store, lot.id, occasion)
    return left[lot.id]


def _added(need: Need, typed: str) -> Quantity:
    """Read what was added to reach a reading: in all, or for each fill. Raises BadInput, Unreadable."""
    first, *others = [read_amount(need.material, part) for part in typed.split(";")]
    if others and len(others) + 1 != need.fills:
        raise BadInput(
            f"'{typed}' is {len(others) + 1} amounts, and there are {need.fills} fills. Say it for each fill."
        )
    return sum(others, first)


def _took(store: Store, needs: list[Need], choices: Choices) -> dict[str, Quantity]:
    """Read what was taken. Raises BadInput for a material that the recipe does not use."""
    took: dict[str, Quantity] = {}
    used = {need.material.key: need.material for need in needs}
    for typed in choices.took:
        words, _, amount = typed.rpartition("=")
        if not words.strip() or not amount.strip():
            raise BadInput(f"'{typed}' is not read: write MATERIAL=AMOUNT, for example 'methyl-cellulose=2.53 g'.")
        material = find_material(store, words)
        if material.key not in used:
            raise BadInput(f"The recipe does not use {material.name}. It uses: {', '.join(used)}.")
        if material.key in took:
            raise BadInput(f"{material.name} is told twice: say once how much was taken in all.")
        took[material.key] = read_amount(used[material.key], amount)
    return took


def _chosen(store: Store, needs: list[Need], choices: Choices, occasion: Occasion) -> list[Lot]:
    """Find the lots that were named.

    Raises BadInput for one that no line of the recipe can use, Refused for one that has ended or came later.
    """
    chosen: list[Lot] = []
    usable = {key for need in needs for key in (need.material.key, *need.line.stand_ins)}
    for code in choices.lots:
        lot = find_lot(store, code)
        if lot.material.key not in usable:
            raise BadInput(f"{lot.code} is {lot.material.name}, which this recipe does not use.")
        if lot.ended:
            raise Refused(f"{lot.code} ({lot.material.name}) ended on {lot.ended_on}: {lot.ended_why}.")
        refuse_not_yet_here(store, lot, occasion)
        if lot.id not in {one.id for one in chosen}:
            chosen.append(lot)
    return chosen


def with_shares(plan: DrawPlan, weights: list[int]) -> list[tuple[Draw, list[int]]]:
    """Share every draw out over the jars it goes into, in proportion to their sizes."""
    return [(draw, share_out(draw.quantity, weights)) for line in plan.lines for draw in line.draws]
