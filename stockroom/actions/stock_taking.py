"""Stock-take: a round through one place, left and come back to, and confirmed as one action.

What was not seen is not zero: it is to be looked for.
"""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from stockroom.actions.carrying_out import ActionOutcome, carry_out
from stockroom.actions.counting import check_method, refuse_uncountable
from stockroom.actions.posting import post
from stockroom.actions.taking import read_amount_of
from stockroom.actions.weighing import weigh_lot
from stockroom.domain.ledger import Counted, Draft, Fact, Reworked
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import Occasion, from_utc_text
from stockroom.domain.studio import Place
from stockroom.errors import BadInput, Refused
from stockroom.science.quantities import Quantity
from stockroom.store import counts, rounds
from stockroom.store.lots import find_lot, lot_by_id, lots_at
from stockroom.store.open import Store
from stockroom.store.studio import find_place


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A lot that was seen: what was found, what the books said then, and where they have it."""

    code: str
    name: str
    counted: Quantity
    books_said: Quantity
    between: tuple[Quantity, Quantity] | None
    """The least and the most that its gross weight allows, where it was weighed."""
    elsewhere: str | None
    """The other place where the books have it, or that they have it nowhere."""

    @property
    def difference(self) -> Quantity:
        return self.counted - self.books_said


@dataclass(frozen=True, slots=True, kw_only=True)
class NotSeen:
    """A lot that should be here: what the books say of it."""

    code: str
    name: str
    books_say: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class StockTake(ActionOutcome):
    """A round as it stands: the page of differences."""

    round: str
    place: str
    begun_at: str
    state: str
    """open, confirmed or dropped."""
    seen: tuple[Seen, ...]
    not_seen: tuple[NotSeen, ...]
    value: int = 0
    """What the differences are worth, in minor units; known once it is booked."""
    reworked: tuple[Reworked, ...] = ()

    @property
    def elsewhere(self) -> tuple[Seen, ...]:
        return tuple(line for line in self.seen if line.elsewhere is not None)

    @property
    def more(self) -> tuple[Seen, ...]:
        return tuple(line for line in self.seen if line.difference.quanta > 0)

    @property
    def less(self) -> tuple[Seen, ...]:
        return tuple(line for line in self.seen if line.difference.quanta < 0)


def go_round(store: Store, occasion: Occasion, place_words: str, seen: Sequence[str] = ()) -> StockTake:
    """Begin or go on with the round at a place, and note what was seen.

    `CODE=QTY`, `CODE=gross 812 g` for what its container weighs, or `CODE` for as booked.

    Nothing is entered in the books. Raises NotFound, Unreadable, Refused for a lot thrown away.
    """
    with store.write():
        place = find_place(store, place_words)
        lines = [_read(store, occasion, text) for text in seen]
        if rounds.open_round(store, place.id) is None:
            rounds.begin_round(store, place.id, occasion.at_text, occasion.by)
        current = _current(store, place)
        for line in lines:
            rounds.see_lot(store, current.id, line)
        return _page(store, place, _current(store, place))


def confirm_round(
    store: Store,
    occasion: Occasion,
    place_words: str,
    *,
    method: str = "measured",
    dry_run: bool = False,
    confirmed: StockTake | None = None,
) -> StockTake:
    """Book a round as one action: counts, lots found here, and what is to be looked for.

    Each lot is pinned at the moment it was seen. Raises Refused where no round is open or nothing was seen in it.
    """
    check_method(method)

    def build(booked_at: datetime) -> StockTake:
        place = find_place(store, place_words)
        current = _current(store, place)
        if not current.lines:
            raise Refused(f"Nothing was seen at {place.name} yet. Say --seen CODE=QTY for each lot that is there.")
        page = _page(store, place, current)
        weighed = {lot_by_id(store, one.lot).code: json.loads(one.weighed) for one in current.lines if one.weighed}
        reason = occasion.reason or "stock-take"
        counted = tuple(
            Counted(
                lot=line.lot,
                quantity=line.quantity,
                method="weighed" if line.weighed else method,
                reason=reason,
                day=from_utc_text(line.at).astimezone(occasion.zone).date().isoformat(),
                at=line.at,
            )
            for line in current.lines
        )
        day = occasion.day.isoformat()
        facts: list[Fact] = [(line.lot, "place_id", place.id) for line in current.lines]
        facts += [
            (find_lot(store, lot.code).id, "look_for", f"not seen at {place.name} on {day}") for lot in page.not_seen
        ]
        draft = Draft(
            kind="stock-take",
            occasion=occasion,
            counted=counted,
            facts=tuple(facts),
            details={"round": current.code, "place": place.name, **({"weighed": weighed} if weighed else {})},
        )
        posted = post(store, draft, booked_at)
        rounds.end_round(store, current.id, "confirmed", posted.number)
        own = [entry for entry in posted.entries if entry.count_action == posted.number]
        return replace(
            page,
            state="confirmed",
            value=sum(entry.value for entry in own),
            reworked=posted.reworked,
            action=posted.code,
        )

    return carry_out(store, build, dry_run=dry_run, confirmed=confirmed)


def drop_round(store: Store, place_words: str) -> StockTake:
    """End the round at a place without booking anything. Raises Refused where none is open."""
    with store.write():
        place = find_place(store, place_words)
        current = _current(store, place)
        rounds.end_round(store, current.id, "dropped")
        return replace(_page(store, place, current), state="dropped")


def _current(store: Store, place: Place) -> rounds.Round:
    current = rounds.open_round(store, place.id)
    if current is None:
        raise Refused(
            f"No stock-take is in progress at {place.name}. Begin with 'stockroom stock-take \"{place.name}\"'."
        )
    return current


def _read(store: Store, occasion: Occasion, text: str) -> rounds.SeenLine:
    """Read `CODE=QTY`, `CODE=gross 812 g`, or `CODE` for what the books say."""
    code, told, typed = text.partition("=")
    lot = find_lot(store, code)
    refuse_uncountable(store, lot, occasion)
    gross = re.match(r"\s*gross\s+", typed, re.IGNORECASE)
    kept: str | None = None
    if gross:
        weighed = weigh_lot(store, lot, typed[gross.end() :])
        quantity = weighed.held(counts.held_at(store, lot.id, occasion.at_text))
        kept = json.dumps(weighed.details())
    elif told:
        quantity = read_amount_of(lot, typed, allow_zero=True).quantity.quanta
    else:
        quantity = counts.held_at(store, lot.id, occasion.at_text)
        if lot.ended or quantity < 0:
            raise BadInput(f"The books hold nothing in {lot.code}: say how much is there, --seen {lot.code}=QTY.")
    return rounds.SeenLine(lot=lot.id, quantity=quantity, at=occasion.at_text, weighed=kept)


def _page(store: Store, place: Place, current: rounds.Round) -> StockTake:
    seen = {line.lot for line in current.lines}
    missing = [lot for lot in lots_at(store, place.id) if lot.id not in seen]
    return StockTake(
        round=current.code,
        place=place.name,
        begun_at=current.begun_at,
        state="open",
        seen=tuple(_seen(store, place, line) for line in current.lines),
        not_seen=tuple(NotSeen(code=lot.code, name=lot.material.name, books_say=lot.amount) for lot in missing),
    )


def _seen(store: Store, place: Place, line: rounds.SeenLine) -> Seen:
    lot = lot_by_id(store, line.lot)
    return Seen(
        code=lot.code,
        name=lot.material.name,
        counted=lot.material.quantity(line.quantity),
        books_said=lot.material.quantity(counts.held_at(store, lot.id, line.at)),
        between=_between(lot, line.weighed),
        elsewhere=_elsewhere(lot, place),
    )


def _between(lot: Lot, weighed: str | None) -> tuple[Quantity, Quantity] | None:
    if weighed is None:
        return None
    ends = json.loads(weighed)
    return lot.material.quantity(ends["low"]), lot.material.quantity(ends["high"])


def _elsewhere(lot: Lot, place: Place) -> str | None:
    if lot.place_id == place.id:
        return None
    return f"booked at {lot.place}" if lot.place else "booked at no place"
