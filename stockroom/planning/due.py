"""What has to be done, by when and why: judged from what is on the shelf against a moment."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from stockroom.domain.edits import LeftOpen
from stockroom.domain.lots import Lot
from stockroom.domain.materials import Material
from stockroom.planning.fitness import fitness, is_withdrawn, spoken
from stockroom.science.quantities import show

WORDS = {
    "remake": "make afresh",
    "withdrawn": "unfit",
    "unexplained-loss": "not explained",
    "past-use-by": "past use-by",
    "discard-used-bath": "used bath",
    "short": "short for a job",
    "make-by": "begin making",
    "loan": "on loan",
    "booking-passed": "booking passed",
    "solid-only": "solid only",
    "empty": "none left",
    "low": "low",
    "order-late": "order late",
    "reorder": "order it",
    "use-first": "use first",
    "check": "check it",
    "suspect-residue": "suspect solid",
    "settle": "let it settle",
    "not-ready": "not ready yet",
    "look-for": "look for it",
    "not-used": "not used",
}
"""What each kind of due is called. Of things due on the same day, the earlier kind here comes first."""

STOPS_WORK = frozenset(
    {"remake", "withdrawn", "past-use-by", "discard-used-bath", "short", "solid-only", "empty", "booking-passed"}
)
"""The kinds that are marked by a sign: work cannot go on, or should not."""

FAILED_CHECK = "check: "
"""How the mark of a lot begins that failed a check."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """One thing to do."""

    kind: str
    code: str
    """Code of the lot, booking or action it is about, or the key of a material."""
    name: str
    by: str | None
    """Day or minute, ISO local; None where no day is known."""
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """A booking whose day has passed, neither done nor cancelled."""

    booking: str
    job: str
    treatment: str
    for_day: str


def in_urgency(items: Iterable[Due], today: date) -> list[Due]:
    """Sort what is due: by day, what has no day as of today, then by kind."""
    rank = {kind: index for index, kind in enumerate(WORDS)}
    return sorted(items, key=lambda item: (item.by or today.isoformat(), rank[item.kind], item.name, item.code))


def due_lots(lots: Sequence[Lot], local: datetime, within: int) -> list[Due]:
    """Judge every lot: past its date, to be used first, unfit, not ready, used up to the solid, to be looked for."""
    horizon = (local.date() + timedelta(days=within)).isoformat()
    today = local.date().isoformat()
    items: list[Due] = []
    for lot in lots:
        verdict = fitness(lot, local)
        held = lot.amount_words
        by: str | None = today
        match verdict.kind:
            case "unfit" if lot.kind == "jar" and (lot.unfit or "").startswith(FAILED_CHECK):
                first = "shake, settle and titrate again; if still weak, " if ": weak by" in verdict.why else ""
                kind, why = "remake", f"{verdict.why}; {held} left: {first}make it afresh"
            case "unfit" if is_withdrawn(lot):
                kind, why = "withdrawn", f"{verdict.why}; {held} left: off the shelf, until released or discarded"
            case "unfit":
                kind, why = "withdrawn", f"{verdict.why}; {held} left: discard it or put it right"
            case "used-bath" if lot.kind == "used bath":
                kind, why = "discard-used-bath", f"{held} of used bath: discard it the same day"
                by = lot.use_by or today
            case "past-use-by":
                kind, by = "past-use-by", lot.use_by
                why = f"{held} left, {verdict.why}: not to be used; discard it by local rules"
            case "solid-only":
                kind, why = "solid-only", "only the solid is left: top up or make afresh"
            case "not-ready":
                kind, by = "not-ready", lot.ready_on
                why = f"ready {spoken(lot.ready_on or '')}; {held}"
            case "fit" if lot.use_by and lot.use_by[:10] <= horizon and lot.balance.quantity:
                kind, by = "use-first", lot.use_by
                why = f"{held} left, use by {spoken(lot.use_by)} ({lot.use_by_rule or 'its date'})"
            case _:
                continue
        items.append(Due(kind=kind, code=lot.code, name=lot.material.name, by=by, why=why))
    items += [
        Due(
            kind="check",
            code=lot.code,
            name=lot.material.name,
            by=lot.check_by,
            why=f"check by {spoken(lot.check_by)}; {lot.amount_words} to be tested",
        )
        for lot in lots
        if lot.check_by and lot.check_by[:10] <= horizon and lot.balance.quantity and not lot.unfit
    ]
    items += [
        Due(kind="look-for", code=lot.code, name=lot.material.name, by=None, why=lot.look_for)
        for lot in lots
        if lot.look_for
    ]
    return items


def due_materials(materials: Sequence[Material], lots: Sequence[Lot], local: datetime) -> list[Due]:
    """Judge every material that has a least amount set by hand against what is fit to use."""
    held: dict[int, int] = defaultdict(int)
    for lot in lots:
        if fitness(lot, local).kind in ("fit", "not-ready"):
            held[lot.material.id] += lot.balance.quantity
    items: list[Due] = []
    for material in materials:
        low = material.low_quanta
        if low is None or held[material.id] >= low:
            continue
        left = material.quantity(held[material.id])
        least = show(material.quantity(low))
        why = f"{show(left)} fit to use, order when below {least}" if left.quanta else f"none left; keep {least}"
        kind = "low" if left.quanta else "empty"
        items.append(Due(kind=kind, code=material.key, name=material.name, by=None, why=why))
    return items


def due_loans(loans: Sequence[LeftOpen]) -> list[Due]:
    """Tell every loan that is not back."""
    return [
        Due(
            kind="loan",
            code=loan.code,
            name=loan.words,
            by=loan.by,
            why=f"back by {loan.by}" if loan.by else "no day was said",
        )
        for loan in loans
    ]


def due_passed(passed: Sequence[Passed]) -> list[Due]:
    """Tell the bookings that were neither done nor cancelled by their day."""
    return [
        Due(
            kind="booking-passed",
            code=one.booking,
            name=f"{one.treatment} for {one.job}",
            by=one.for_day,
            why=f"booked for {one.for_day}: done, moved or dropped?",
        )
        for one in passed
    ]
